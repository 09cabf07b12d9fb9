"""The next question: first what the bench allows first, then what settles most for the least effort.

A question matters when two states of the world, alike but for its answer, differ in the first proposal, in
a stop or in a danger (`matters.py`). So does what a strategy that may come to lead still waits on. Questions
that matter in no such way are not asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from casebook.guide.advice import Advice
from casebook.guide.guide import Guide
from casebook.guide.matters import Matters
from casebook.guide.pack import EFFORTS, STAGES, TOOLS
from casebook.guide.reasons import waiting_on
from casebook.guide.truths import joined


@dataclass(frozen=True, slots=True)
class Asked:
    """A question worth asking.

    Attributes:
        settles: of the strategies still open, how many an answer settles on average.
        at_best: how many the most telling answer settles.
        open: how many are open.
        disputed: whether it is asked again because answers do not agree.
        group: the finding whose missing readings are asked together, if any.
    """

    question: str
    settles: float
    at_best: int
    open: int
    disputed: bool
    group: str | None


def next_questions(advice: Advice, priors: Mapping[str, Sequence[float]] | None = None) -> tuple[Asked, ...]:
    """List the questions worth asking, the most worth asking first.

    Args:
        advice: what is known and how it stands.
        priors: question or finding -> how likely each of its values is; uniform where not given.
    """
    guide = advice.guide
    worlds = Matters(advice)
    disputed = {q for one in advice.contradictions for q in one.questions}
    open_now = [p for p in advice.proposals if p.standing == "open"]
    settled_by = _settled_by(advice, priors or {})
    asked: dict[str, Asked] = {}

    def ask(name: str) -> None:
        hanging = _hanging_on(advice, name)
        told = {one: settled_by.get(guide.space.by_name[one].index, (0.0, 0)) for one in hanging}
        most = max(hanging, key=lambda one: told[one], default=name)
        group = most if most in guide.findings else None
        for question in [name] if name in disputed else _askable(advice, [name]):
            one = Asked(question, *told.get(most, (0.0, 0)), len(open_now), question in disputed, group)
            if question not in asked or asked[question].settles < one.settles:
                asked[question] = one

    telling = [name for name in guide.questions if name not in disputed and _hanging_on(advice, name)]
    asking = disputed | worlds.among(telling)
    for name in guide.questions:
        if name in asking:
            ask(name)
    # What would lead but is open still is waited for, even where the answer can only be one.
    for proposal in open_now:
        waited = [name for name in proposal.waiting_on if not _askable(advice, [name]) <= asked.keys()]
        if waited and worlds.may_lead(proposal.id):
            for name in waited:
                ask(name)
    return tuple(sorted(asked.values(), key=lambda one: _order(guide, one)))


def _hanging_on(advice: Advice, question: str) -> list[str]:
    """Name what an answer to a question would tell: its own choice, and the findings that wait on it."""
    state = advice.trusted
    variable = advice.guide.space.by_name[question]
    own = not variable.measured and state.box[variable.index].bit_count() > 1
    return [question] * own + [id for id, found in state.found.items() if question in found.waits_on]


def _askable(advice: Advice, questions: Iterable[str]) -> set[str]:
    """Put, for a question whose fact may not exist, those that tell whether it does."""
    guide, state = advice.guide, advice.trusted
    askable: set[str] = set()
    for question in questions:
        condition = guide.applies.get(question)
        if condition is not None and condition.truth(state.box) is None:
            askable |= _askable(advice, waiting_on(guide, state, [condition]))
        else:
            askable.add(question)
    return askable


def _order(guide: Guide, asked: Asked) -> tuple[object, ...]:
    question = guide.questions[asked.question]
    place = list(guide.questions).index(asked.question)
    return (
        not asked.disputed,
        STAGES.index(question.stage),
        EFFORTS.index(question.effort) if question.stage.startswith("sizes") else 0,
        -round(asked.settles, 6),
        EFFORTS.index(question.effort),
        TOOLS.index(question.tool),
        place,
    )


def _settled_by(advice: Advice, priors: Mapping[str, Sequence[float]]) -> dict[int, tuple[float, int]]:
    """Give, for each variable, how many open strategies its answer settles, on average and at best."""
    guide = advice.guide
    truths, doubts = guide.settling, list(guide.doubts)
    bit_of = dict(zip([*guide.strategies, *doubts], truths.bits, strict=True))
    open_now = [guide.strategies[p.id] for p in advice.proposals if p.standing == "open"]
    open_bits = joined(bit_of[ruled.strategy.id] for ruled in open_now)
    hinders = [
        (bit_of[id], joined(bit_of[r.strategy.id] for r in open_now if id in r.doubts)) for id in doubts
    ]
    told: dict[int, tuple[float, int]] = {}
    for var, values in truths.if_settled(advice.trusted.box):
        prior = priors.get(guide.space.variables[var].name)
        total = weight = 0.0
        best = 0
        for value, may_hold, may_fail in values:
            hindered = joined(hindered for doubt, hindered in hinders if may_hold & doubt)
            settled = (open_bits & (~may_hold | ~may_fail & ~hindered)).bit_count()
            share = 1.0 if prior is None else prior[value]
            total += share * settled
            weight += share
            best = max(best, settled)
        told[var] = (total / weight if weight else 0.0), best
    return told
