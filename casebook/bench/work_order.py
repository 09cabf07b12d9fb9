"""The order of work over several damages of one instrument: cause before symptom, crack before post."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from casebook.guide.advice import Advice, Proposal
from casebook.guide.pack import WorkRule


@dataclass(frozen=True, slots=True)
class WorkStep:
    """One damage in the order of work: its number in the file, what leads there, and why it stands here."""

    damage: int
    family: str
    strategy: str
    because: str


@dataclass(frozen=True, slots=True)
class WorkOrder:
    """The order of work, and what one repair does to another."""

    steps: tuple[WorkStep, ...]
    mind: tuple[str, ...]


def work_order(advices: Sequence[Advice]) -> WorkOrder:
    """Put the damages in the order in which they are worked on.

    What must be done before anything can be judged (measure, clean, rest) comes first on each; then the
    families go in the order that the cross-cutting pack gives.
    """
    families = {
        rule.family: (place, rule.because) for advice in advices for place, rule in enumerate(_order(advice))
    }

    def key(numbered: tuple[int, Advice]) -> tuple[int, int]:
        number, advice = numbered
        return (families.get(advice.guide.family, (len(families), ""))[0], number)

    ordered = sorted(enumerate(advices, 1), key=key)
    steps = tuple(
        WorkStep(
            number,
            advice.guide.family,
            advice.first.id,
            families.get(advice.guide.family, (0, "as it came"))[1],
        )
        for number, advice in ordered
    )
    return WorkOrder(steps, tuple(_mind(ordered)))


def _order(advice: Advice) -> Sequence[WorkRule]:
    return [rule for pack in advice.guide.packs for rule in pack.order_of_work]


def _mind(ordered: Sequence[tuple[int, Advice]]) -> list[str]:
    """Say where what one repair brings with it undoes another."""
    says: list[str] = []
    for _, one in ordered:
        for _, other in ordered:
            if one is other:
                continue
            for pack in one.guide.packs:
                for rule in pack.mind_together:
                    if rule.one & _involves(one, one.first) and rule.other & _involves(other, other.first):
                        says.append(rule.says)
    return list(dict.fromkeys(says))


def _involves(advice: Advice, proposal: Proposal) -> frozenset[str]:
    return advice.guide.strategies[proposal.id].strategy.involves
