"""The next question: first what the bench allows first, then what settles most for the least effort.

A question matters when two states of the world, alike but for its answer, differ in the first proposal, in
a stop or in a danger (`matters.py`). Questions that matter in no such way are not asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from casebook.guide.advice import Advice
from casebook.guide.guide import Guide, RuledStrategy
from casebook.guide.matters import Matters
from casebook.guide.pack import EFFORTS, STAGES, TOOLS
from casebook.guide.reasons import questions_of, waiting_on
from casebook.guide.space import ANSWERS_DISAGREE


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
    guide, state = advice.guide, advice.trusted
    worlds = Matters(advice)
    disputed = {q for one in advice.contradictions for q in one.questions}
    still_open = [p for p in advice.proposals if p.standing == "open"]
    asked: dict[str, Asked] = {}
    for variable in guide.space.variables:
        name = variable.name
        left = state.box[variable.index]
        if left.bit_count() < 2 or name.startswith("?") or name == ANSWERS_DISAGREE:
            continue
        if name in guide.questions and guide.questions[name].measured:
            continue
        behind = _askable(advice, questions_of(guide, state, name)) - asked.keys()
        if not behind or not worlds.matters(variable):
            continue
        settles, best = _settles(advice, variable.index, (priors or {}).get(name))
        group = name if name in guide.findings else None
        for question in behind:
            asked[question] = Asked(question, settles, best, len(still_open), question in disputed, group)
    for question in disputed - asked.keys():
        asked[question] = Asked(question, 0.0, 0, len(still_open), True, None)
    return tuple(sorted(asked.values(), key=lambda one: _order(guide, one)))


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


def _settles(advice: Advice, var: int, prior: Sequence[float] | None) -> tuple[float, int]:
    """Give how many open strategies an answer settles, on average and at best."""
    guide = advice.guide
    box = list(advice.trusted.box)
    left = box[var]
    open_now = [
        guide.strategies[p.id] for p in advice.proposals
        if p.standing == "open" and _touches(guide, guide.strategies[p.id], var)
    ]  # fmt: skip
    total = weight = 0.0
    best = 0
    for bit in range(left.bit_length()):
        if not left >> bit & 1:
            continue
        box[var] = 1 << bit
        settled = sum(_settled(guide, ruled, box) for ruled in open_now)
        share = prior[bit] if prior is not None else 1.0
        total += share * settled
        weight += share
        best = max(best, settled)
    return (total / weight if weight else 0.0), best


def _touches(guide: Guide, ruled: RuledStrategy, var: int) -> bool:
    return var in ruled.fits.vars or any(var in guide.doubts[id][1].vars for id in ruled.doubts)


def _settled(guide: Guide, ruled: RuledStrategy, box: Sequence[int]) -> bool:
    truth = ruled.fits.truth(box)
    if truth is False:
        return True
    return truth is True and all(guide.doubts[id][1].truth(box) is False for id in ruled.doubts)
