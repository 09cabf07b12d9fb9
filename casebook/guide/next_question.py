"""The next question: first what the bench allows first, then what settles most for the least effort.

A question matters when two states of the world, alike but for its answer, differ in the first proposal, in
a stop or in a danger. Questions that matter in no such way are not asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from casebook.guide.advice import Advice
from casebook.guide.guide import Guide, RuledStrategy
from casebook.guide.logic import Box, Condition, Cube, narrowed
from casebook.guide.pack import EFFORTS, STAGES, TOOLS
from casebook.guide.ranking import fit_key, profile
from casebook.guide.reasons import questions_of, waiting_on
from casebook.guide.search import Budget, Demand, NotSettled, find_box
from casebook.guide.worlds import agreeing, demands_of, fit_demands, unfit_demand

# Steps one question may cost; past it the question is asked rather than dropped.
_STEPS = 400


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


@dataclass(slots=True)
class _Worlds:
    """What the searches of one look share."""

    guide: Guide
    box: Box
    demands: list[Demand]
    ranked: list[RuledStrategy]
    unfit: dict[str, Demand] = field(default_factory=dict)


def next_questions(advice: Advice, priors: Mapping[str, Sequence[float]] | None = None) -> tuple[Asked, ...]:
    """List the questions worth asking, the most worth asking first.

    Args:
        advice: what is known and how it stands.
        priors: question or finding -> how likely each of its values is; uniform where not given.
    """
    guide, state = advice.guide, advice.trusted
    worlds = _worlds(advice)
    disputed = {q for one in advice.contradictions for q in one.questions}
    still_open = [p for p in advice.proposals if p.standing == "open"]
    asked: dict[str, Asked] = {}
    for variable in guide.space.variables:
        name = variable.name
        left = state.box[variable.index]
        if left.bit_count() < 2 or name.startswith("?"):
            continue
        if name in guide.questions and guide.questions[name].measured:
            continue
        behind = _askable(advice, questions_of(guide, state, name)) - asked.keys()
        if not behind or not _matters(worlds, variable.index):
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


def _worlds(advice: Advice) -> _Worlds:
    guide, state = advice.guide, advice.trusted
    scales, _ = profile(guide, state)
    preference = {id: place for place, id in enumerate(guide.strategies)}
    possible = [
        guide.strategies[p.id]
        for p in advice.proposals
        if p.standing != "ruled_out" and p.id in guide.strategies
    ]
    ranked = sorted(possible, key=lambda r: fit_key(r.strategy, scales, preference[r.strategy.id]))
    demands = [*demands_of(guide), agreeing(guide)]
    return _Worlds(
        guide, list(state.box), demands, ranked, {r.strategy.id: unfit_demand(guide, r) for r in ranked}
    )


def _matters(worlds: _Worlds, var: int) -> bool:
    guide = worlds.guide
    try:
        for _, condition in guide.stops.values():
            if condition is not None and _pivots(worlds, condition, var, []):
                return True
        for caution, condition in guide.cautions.values():
            if caution.level != "danger" or condition is None:
                continue
            # One that comes with a kind of work matters only where such work may still lead.
            brought = not caution.involves or any(
                caution.involves & r.strategy.involves for r in worlds.ranked
            )
            if brought and _pivots(worlds, condition, var, []):
                return True
        for place, ruled in enumerate(worlds.ranked):
            above = [worlds.unfit[better.strategy.id] for better in worlds.ranked[:place]]
            for conditions in _parts(guide, ruled):
                others = [
                    d for d in fit_demands(guide, ruled) if d is not conditions.yes and d is not conditions.no
                ]
                if _pivots(worlds, conditions, var, [*above, *others]):
                    return True
    except NotSettled:
        return True
    return _moves_the_ranking(worlds, var)


def _parts(guide: Guide, ruled: RuledStrategy) -> Iterator[Condition]:
    yield ruled.fits
    for id in ruled.doubts:
        yield guide.doubts[id][1]


def _pivots(worlds: _Worlds, condition: Condition, var: int, demands: Iterable[Demand]) -> bool:
    """Whether two worlds that meet `demands` and differ in `var` alone differ in `condition`."""
    if var not in condition.vars:
        return False
    demands = [*demands, *worlds.demands]
    possible = worlds.box[var]
    for yes in condition.yes:
        mine = dict(yes).get(var, 0)
        if not mine & possible:
            continue
        for no in condition.no:
            theirs = dict(no).get(var, 0)
            if not theirs & possible or theirs & possible == possible == mine & possible:
                continue
            inside = _both(worlds.box, yes, no, var)
            if inside is not None and find_box(inside, demands, Budget(_STEPS)) is not None:
                return True
    return False


def _both(box: Sequence[int], yes: Cube, no: Cube, var: int) -> Box | None:
    inside = narrowed(box, yes)
    return None if inside is None else narrowed(inside, tuple(pair for pair in no if pair[0] != var))


def _moves_the_ranking(worlds: _Worlds, var: int) -> bool:
    """Whether the answer may change the order of the scales while more than one strategy may lead."""
    leads = [r for r in worlds.ranked if not r.strategy.on_call]
    if len(leads) < 2:
        return False
    for _, condition in worlds.guide.profiles:
        if condition is None:
            break
        truth = condition.truth(worlds.box)
        if truth:
            break
        if truth is None and var in condition.vars:
            return True
    return False


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
