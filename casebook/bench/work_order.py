"""The order of work over several damages of one instrument: cause before symptom, crack before post."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from casebook.bench.waiting import WaitingTimes, Waits, waiting_times
from casebook.guide.advice import Advice
from casebook.guide.pack import ENDS_LOOK, Strategy, WorkRule

# The question that tells on which joint a damage is.
_JOINT = "joint_damaged"
_Numbered = tuple[int, Advice]


@dataclass(frozen=True, slots=True)
class WorkStep:
    """One damage in the order of work: its number in the file, what leads there, and why it stands here."""

    damage: int
    family: str
    strategy: str
    because: str


@dataclass(frozen=True, slots=True)
class WorkOrder:
    """The order of work, what one repair does to another, and what waits together."""

    steps: tuple[WorkStep, ...]
    mind: tuple[str, ...]
    waiting: WaitingTimes


def work_order(advices: Sequence[Advice]) -> WorkOrder:
    """Put the damages in the order in which they are worked on.

    The cross-cutting pack gives the order of families, and where wood that must rest stands among them.
    Within a family, what ends a look (measuring, cleaning...) comes before what would be judged anew.
    """
    ordered = sorted(enumerate(advices, 1), key=_key)
    by_number = dict(ordered)
    return WorkOrder(
        tuple(_step(number, advice) for number, advice in ordered),
        tuple(_mind(ordered)),
        waiting_times(
            [Waits(n, advice.first.standing == "fits", _lead(advice).waits) for n, advice in ordered],
            lambda later, earlier: _waits_for(by_number[later], by_number[earlier]),
        ),
    )


def _lead(advice: Advice) -> Strategy:
    return advice.guide.strategies[advice.first.id].strategy


def _key(numbered: _Numbered) -> tuple[int, int, int]:
    number, advice = numbered
    ends = _lead(advice).ends_look
    return (_place(advice)[0], ENDS_LOOK.index(ends) if ends else len(ENDS_LOOK), number)


def _place(advice: Advice) -> tuple[int, str]:
    """Give the place in the order of work, and why: the earliest rule that speaks of this damage."""
    rules: list[WorkRule] = [rule for pack in advice.guide.packs for rule in pack.order_of_work]
    ends = _lead(advice).ends_look
    for place, rule in enumerate(rules):
        if rule.family == advice.guide.family or (rule.ends_look is not None and rule.ends_look == ends):
            return place, rule.because
    return len(rules), "as it came"


def _step(number: int, advice: Advice) -> WorkStep:
    lead = _lead(advice)
    again = "; one looks again after it" if lead.ends_look else ""
    return WorkStep(number, advice.guide.family, lead.id, f"{_place(advice)[1]}{again}")


def _mind(ordered: Sequence[_Numbered]) -> list[str]:
    """Say where what one repair brings with it undoes another, and on which damages."""
    touched: dict[str, set[int]] = {}
    for number, one in ordered:
        for another, other in ordered:
            if number == another:
                continue
            for rule in (rule for pack in one.guide.packs for rule in pack.mind_together):
                if not rule.one & _brings(one) or not rule.other & _brings(other):
                    continue
                if not rule.same_joint or _maybe_same_joint(one, other):
                    touched.setdefault(rule.says, set()).update((number, another))
    return [f"{says} (damages {_and(sorted(numbers))})" for says, numbers in touched.items()]


def _and(numbers: Sequence[int]) -> str:
    return f"{', '.join(str(n) for n in numbers[:-1])} and {numbers[-1]}"


def _brings(advice: Advice) -> frozenset[str]:
    """Name what the leading work involves, and how it ends the look if it does."""
    lead = _lead(advice)
    return lead.involves | frozenset([lead.ends_look] if lead.ends_look else [])


def _maybe_same_joint(one: Advice, other: Advice) -> bool:
    """Whether two damages are, for all that is known, on the same joint."""
    joints = []
    for advice in (one, other):
        variable = advice.guide.space.by_name.get(_JOINT)
        if variable is None:
            return True
        joints.append(frozenset(variable.among(advice.state.box[variable.index])))
    return bool(joints[0] & joints[1])


def _waits_for(later: Advice, earlier: Advice) -> bool:
    """Whether a repair can only begin when an earlier one has waited.

    Wood rests once for all that is on it, and two damages of one family are glued in one go; on another
    joint nothing is in the way.
    """
    resting = _lead(earlier).ends_look == "resting"
    alike = later.guide.family == earlier.guide.family and not resting
    both_rest = resting and _lead(later).ends_look == "resting"
    return not alike and not both_rest and _maybe_same_joint(later, earlier)
