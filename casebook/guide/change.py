"""What would change it: the fewest answers, or the one dimension, with which a strategy would fit.

A strategy fits where its conditions hold and no doubt hinders it: in one of a few cubes. The cube that lies
nearest to what is known gives the answers; a dimension comes from the worksheet that judges it, run again
with one reading moved until everything the cube asks of findings comes out as wanted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from casebook.figures.inputs import USUAL_ERROR
from casebook.guide.advice import Advice
from casebook.guide.findings import find_all
from casebook.guide.guide import Guide
from casebook.guide.knowledge import possible, worded
from casebook.guide.logic import Box, Cube, Tangled, narrowed, product
from casebook.guide.pack import Question
from casebook.guide.search import Budget, NotSettled, find_box
from casebook.guide.space import ANSWERS_DISAGREE
from casebook.guide.worlds import demands_of, fit_demands
from casebook.quantity import Reading

# Steps the search may cost for one cube.
_STEPS = 2000
# A dimension is looked for to a hundredth of a millimetre, which is what a bench can tell apart.
_FINEST = Fraction(1, 100)

_Wanted = Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Dimension:
    """The size that alone would do.

    Attributes:
        question: the measured question.
        limit: mm, or a count: the size at which everything just comes out as wanted.
        side: whether it must be that or less, or that or more.
    """

    question: str
    limit: Fraction
    side: Literal["or less", "or more"]


@dataclass(frozen=True, slots=True)
class Change:
    """What would have to be known, or be otherwise, for a strategy to fit.

    Attributes:
        strategy: the strategy.
        answers: question or finding -> the values that would do, as a mask; as few as are enough.
        dimensions: sizes of which each alone would bring the findings among `answers` about.
        says: all of it in one sentence.
    """

    strategy: str
    answers: dict[str, int]
    dimensions: tuple[Dimension, ...]
    says: str


def what_would_change(advice: Advice, strategy: str) -> Change | None:
    """Find the fewest answers with which a strategy that is open or ruled out would fit.

    Of the ways in which it can fit, the one that asks for least is told; none of its answers can be spared.

    Returns:
        The change; None where the strategy fits already, where answers do not agree (nothing can be
        promised on top of what may be wrong), or where no change was found within the budget.
    """
    if advice.contradictions or advice.proposal(strategy).standing == "fits":
        return None
    for cube in _nearest(advice, strategy):
        lacking = _lacking(advice, cube)
        if _can_be(advice, strategy, cube, lacking):
            lacking = _enough(advice, strategy, lacking)
            dimensions = tuple(_dimensions(advice, cube, lacking))
            return Change(strategy, lacking, dimensions, _sentence(advice, strategy, lacking, dimensions))
    return None


def _nearest(advice: Advice, strategy: str) -> list[Cube]:
    """List the cubes in which a strategy fits, those that ask for the fewest changes first."""
    guide = advice.guide
    ruled = guide.strategies[strategy]
    try:
        cubes = product([ruled.fits.yes, *(guide.doubts[id][1].no for id in ruled.doubts)])
    except Tangled:
        return []

    def changes(cube: Cube) -> tuple[int, int]:
        box = advice.trusted.box
        overturned = sum(not box[var] & mask for var, mask in cube)
        return len(_lacking(advice, cube)), overturned

    return sorted(cubes, key=changes)


def _lacking(advice: Advice, cube: Cube) -> dict[str, int]:
    """Give what a cube asks for beyond what is known, and beyond what then follows."""
    variables = advice.guide.space.variables
    lacking: dict[str, int] = {}
    while True:
        box = _given(advice, lacking)
        more = {variables[var].name: mask for var, mask in cube if box[var] & ~mask}
        if not more:
            return lacking
        lacking |= more


def _given(advice: Advice, answers: Mapping[str, int]) -> Box:
    """Give what is possible with these answers given in place of those to the same, and what follows."""
    guide, known = advice.guide, advice.trusted
    changed = answers.keys() & guide.questions.keys()
    knowledge = known.knowledge.without(changed)
    for name in changed:
        knowledge = knowledge.with_answer(name, answers[name])
    box, _ = possible(guide, knowledge)
    moved = {n for n in guide.questions if box[(at := guide.space.by_name[n].index)] != known.box[at]}
    for variable in guide.space.variables:
        if variable.name in answers:
            box[variable.index] &= answers[variable.name]
        elif variable.name not in guide.questions and not guide.needs.get(variable.name, set()) & moved:
            box[variable.index] = known.box[variable.index]
    return box


def _named(guide: Guide, indices: Iterable[int]) -> set[str]:
    return {guide.space.variables[index].name for index in indices}


def _can_be(advice: Advice, strategy: str, cube: Cube, lacking: Iterable[str]) -> bool:
    """Whether the packs allow a state in which the cube holds and nothing else that is known is otherwise."""
    guide = advice.guide
    inside = narrowed(_freed(advice, lacking), cube)
    demands = [*demands_of(guide), *fit_demands(guide, guide.strategies[strategy])]
    try:
        return inside is not None and find_box(inside, demands, Budget(_STEPS)) is not None
    except NotSettled:
        return False


def _enough(advice: Advice, strategy: str, lacking: dict[str, int]) -> dict[str, int]:
    """Leave out what other cubes make good: with what is left the strategy still fits for certain."""
    guide = advice.guide
    ruled = guide.strategies[strategy]
    for name in list(lacking):
        fewer = {other: mask for other, mask in lacking.items() if other != name}
        inside = _given(advice, fewer)
        if ruled.fits.truth(inside) and all(
            guide.doubts[id][1].truth(inside) is False for id in ruled.doubts
        ):
            lacking = fewer
    return lacking


def _freed(advice: Advice, names: Iterable[str]) -> Box:
    """Give what is possible with these things not settled, nor what hangs on them."""
    guide = advice.guide
    freed = {*names, ANSWERS_DISAGREE}
    for name in guide.question_order:
        applies = guide.applies.get(name)
        if applies and not freed.isdisjoint(_named(guide, applies.vars)):
            freed.add(name)
    moved = {question for name in freed & guide.needs.keys() for question in guide.needs[name]}
    freed |= {id for id, needs in guide.needs.items() if needs & (freed | moved)}
    box = list(advice.trusted.box)
    for name in freed:
        variable = guide.space.by_name[name]
        box[variable.index] = variable.full
    return box


def _dimensions(advice: Advice, cube: Cube, lacking: Iterable[str]) -> Iterator[Dimension]:
    """Look for each reading behind the findings that lack for the size at which all come out as wanted."""
    guide = advice.guide
    wanted = {guide.space.variables[var].name: mask for var, mask in cube}
    wanted = {name: mask for name, mask in wanted.items() if name in guide.findings}
    behind = {question for name in lacking if name in guide.findings for question in guide.needs[name]}
    for name, question in guide.questions.items():
        if name not in behind or not question.measured or question.low is None or question.high is None:
            continue
        reading = advice.trusted.knowledge.readings.get(name)
        ends: tuple[tuple[Fraction, Fraction, Literal["or less", "or more"]], ...] = (
            (question.low.value, question.high.value, "or less"),
            (question.high.value, question.low.value, "or more"),
        )
        for good, bad, side in ends:
            if _comes_out(advice, wanted, question, good):
                limit = _limit(advice, wanted, question, good, reading.value if reading else bad)
                yield Dimension(name, limit, side)


def _limit(advice: Advice, wanted: _Wanted, question: Question, good: Fraction, bad: Fraction) -> Fraction:
    """Halve the way between a size that does and one that does not, down to what a bench can tell apart."""
    step = Fraction(1) if question.kind == "count" else _FINEST
    near, far = round(good / step), round(bad / step)
    while abs(near - far) > 1:
        middle = (near + far) // 2
        if _comes_out(advice, wanted, question, middle * step):
            near = middle
        else:
            far = middle
    return near * step


def _comes_out(advice: Advice, wanted: _Wanted, question: Question, value: Fraction) -> bool:
    """Whether every finding is certain to come out as wanted with this one reading so."""
    guide, knowledge = advice.guide, advice.trusted.knowledge
    before = knowledge.readings.get(question.id)
    if before is not None:
        low, high = value - (before.value - before.low), value + (before.high - before.value)
        moved = before._replace(low=low, value=value, high=high, typed="")
    elif question.kind == "count":
        moved = Reading.exact(value, unit="count")
    else:
        moved = Reading.exact(value).blurred(USUAL_ERROR)
    tried = knowledge.with_answer(question.id, moved)
    box, clashes = possible(guide, tried)
    found, refused = find_all(guide, tried, box)
    return not clashes and not refused and not any(found[id].mask & ~mask for id, mask in wanted.items())


def _sentence(
    advice: Advice, strategy: str, lacking: Mapping[str, int], dimensions: tuple[Dimension, ...]
) -> str:
    guide = advice.guide
    wishes = [_wish(guide, name, mask) for name, mask in lacking.items() if name not in guide.findings]
    if dimensions:
        wishes.append(", or ".join(_size(guide, dimension) for dimension in dimensions))
    else:
        wishes += [_wish(guide, name, mask) for name, mask in lacking.items() if name in guide.findings]
    if advice.contradictions and advice.guide.strategies[strategy].strategy.removes_material:
        wishes.append("what disagrees settled")
    return f"{guide.strategies[strategy].strategy.title}: would fit with {'; '.join(wishes)}"


def _wish(guide: Guide, name: str, mask: int) -> str:
    if name == ANSWERS_DISAGREE:
        return "no answers that disagree" if mask == 0b10 else "answers that disagree"
    if name in guide.findings:
        finding = guide.findings[name]
        applies = {0b01: finding.says_yes, 0b10: finding.says_no, 0b11: f"{finding.name}: settled"}
        return applies.get(mask & 0b11, f"{finding.name}: does not apply")
    return f"{guide.questions[name].name}: {worded(guide, name, mask)}"


def _size(guide: Guide, dimension: Dimension) -> str:
    question = guide.questions[dimension.question]
    unit = "" if question.kind == "count" else " mm"
    return f"{question.name}: {float(dimension.limit):g}{unit} {dimension.side}"


__all__ = ["Change", "Dimension", "what_would_change"]
