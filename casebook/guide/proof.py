"""Proof of a guide: no dead end, nothing out of reach, nothing that can never fire or matter.

Each question is put to the search of `search.py`. 'Cannot be' is certain; 'can be' counts only with
numbers that the worksheets confirm; what is neither within the budget is said to be not settled.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from random import Random
from typing import Literal

from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge, worded
from casebook.guide.logic import Box, Condition, Cube
from casebook.guide.numbers import numbers_for, random_readings
from casebook.guide.pack import Place
from casebook.guide.search import Budget, Demand, NotSettled, find_box
from casebook.guide.space import ANSWERS_DISAGREE
from casebook.guide.state import state_of
from casebook.guide.worlds import agreeing, demands_of, fit_demands, unfit_demand

STEPS = 200_000
# How often a dead end that no numbers bear out is set aside before it counts as not settled.
_RETRIES = 25
_RANDOM_CHECKS = 300
# A demand that nothing meets.
_NEVER: Demand = ()


@dataclass(frozen=True, slots=True)
class Verdict:
    """One thing the proof found.

    Attributes:
        kind: ``wrong`` (certain) or ``not_settled``.
        at: where in the packs.
        says: what, in one line.
        answers: for a dead end: the irreducible list of answers that leads there.
    """

    kind: Literal["wrong", "not_settled"]
    at: Place
    says: str
    answers: tuple[str, ...] = ()


def prove(guide: Guide, *, steps: int = STEPS, seed: int = 0) -> list[Verdict]:
    """Prove a guide; an empty list means that all is well.

    Args:
        guide: the packs, put together.
        steps: the budget of each single search.
        seed: for the random numbers, so that a proof can be repeated.
    """
    random = Random(seed)
    worlds = demands_of(guide)
    # Whether something can ever come about is asked of the worlds with clashing answers too.
    every = demands_of(guide, clashes=True)
    return [
        *_dead_ends(guide, worlds, steps, random),
        *_unreachable(guide, every, steps, random),
        *_never_fires(guide, every, steps),
        *_never_matters(guide),
        *_false_declarations(guide, random),
    ]


def _dead_ends(guide: Guide, worlds: Sequence[Demand], steps: int, random: Random) -> Iterator[Verdict]:
    """Look for a world in which nothing fits: one without contradictions, and one for each contradiction."""
    unfit = [unfit_demand(guide, ruled) for ruled in guide.strategies.values()]
    yield from _dead_end(
        guide, worlds, [*worlds, agreeing(guide), *unfit], steps, random, Place(guide.pack.file, None), ""
    )
    for rule, condition in guide.contradictions.values():
        demands = [*worlds, condition.yes, *unfit]
        yield from _dead_end(guide, worlds, demands, steps, random, rule.at, f"while {rule.id} stands ")


def _dead_end(
    guide: Guide,
    worlds: Sequence[Demand],
    demands: list[Demand],
    steps: int,
    random: Random,
    at: Place,
    when: str,
) -> Iterator[Verdict]:
    open_still = f"{when}whether some answers leave nothing that fits"
    for tried in range(_RETRIES):
        try:
            box = find_box(guide.space.full_box(), demands, Budget(steps))
        except NotSettled:
            yield Verdict("not_settled", at, f"{open_still}: the budget ran out")
            return
        if box is None:
            if tried:
                break
            return
        box = _loosened(guide, box, demands)
        knowledge = numbers_for(guide, box, random)
        if knowledge is not None and all(p.standing != "fits" for p in advise(guide, knowledge).proposals):
            answers = () if when else _irreducible(guide, worlds, knowledge, steps)
            says = "nothing fits" if when else "with these answers nothing fits"
            yield Verdict("wrong", at, f"a dead end: {when}{says}", answers)
            return
        demands = [*demands, _otherwise(guide, box)]
    yield Verdict("not_settled", at, f"{open_still}: no numbers were found for it")


def _loosened(guide: Guide, box: Box, demands: Sequence[Demand]) -> Box:
    """Free every finding that none of the demands needs as it is: numbers keep their own declarations."""
    for name in guide.findings:
        variable = guide.space.by_name[name]
        tried = list(box)
        tried[variable.index] = variable.full
        if all(any(all(not tried[v] & ~mask for v, mask in cube) for cube in demand) for demand in demands):
            box = tried
    return box


def _otherwise(guide: Guide, box: Box) -> list[Cube]:
    """Give the demand that the findings, or whether their inputs exist, are not as in `box`."""
    cubes: list[Cube] = []
    for name in guide.findings:
        variable = guide.space.by_name[name]
        others = variable.full & ~box[variable.index]
        if others:
            cubes.append(((variable.index, others),))
    return cubes


def _irreducible(guide: Guide, worlds: Sequence[Demand], knowledge: Knowledge, steps: int) -> tuple[str, ...]:
    """Drop every answer without which the dead end still stands; word those that are left."""
    box = state_of(guide, knowledge).box
    names = [
        v.name for v in guide.space.variables if not v.name.startswith("?") and v.name != ANSWERS_DISAGREE
    ]
    # What hangs on another answer goes first, so that the answer itself is left to be read.
    names.sort(key=lambda name: (name not in guide.applies, name not in guide.findings))
    box[guide.space.by_name[ANSWERS_DISAGREE].index] = 0b10
    for name in names:
        variable = guide.space.by_name[name]
        tried = list(box)
        tried[variable.index] = variable.full
        if _nothing_can_fit(guide, worlds, tried, steps):
            box = tried
    return tuple(
        _worded(guide, knowledge, name, box[guide.space.by_name[name].index])
        for name in names
        if box[guide.space.by_name[name].index] != guide.space.by_name[name].full
    )


def _nothing_can_fit(guide: Guide, worlds: Sequence[Demand], box: Box, steps: int) -> bool:
    try:
        return not any(
            find_box(box, [*worlds, *fit_demands(guide, ruled)], Budget(steps))
            for ruled in guide.strategies.values()
        )
    except NotSettled:
        return False


def _worded(guide: Guide, knowledge: Knowledge, name: str, mask: int) -> str:
    if name in guide.findings:
        finding = guide.findings[name]
        says = {0b01: finding.says_yes, 0b10: finding.says_no}.get(mask, f"{finding.name} does not apply")
        sizes = ", ".join(
            f"{guide.questions[q].name} {float(knowledge.readings[q].value):g}"
            for q in sorted(guide.needs[name] & knowledge.readings.keys())
        )
        return f"{name}: {says}" + (f" (for example {sizes})" if sizes else "")
    question = guide.questions[name]
    if question.measured:
        return (
            f"{name}: {'does not apply' if mask == guide.space.by_name[name].does_not_apply else 'applies'}"
        )
    return f"{name}: {worded(guide, name, mask)}"


def _unreachable(guide: Guide, worlds: Sequence[Demand], steps: int, random: Random) -> Iterator[Verdict]:
    for id, ruled in guide.strategies.items():
        at = ruled.strategy.at
        try:
            box = find_box(guide.space.full_box(), [*worlds, *fit_demands(guide, ruled)], Budget(steps))
        except NotSettled:
            yield Verdict("not_settled", at, f"whether {id} can ever fit: the budget ran out")
            continue
        if box is None:
            yield Verdict("wrong", at, f"{id} can never fit: its conditions exclude each other")
        elif numbers_for(guide, _loosened(guide, box, fit_demands(guide, ruled)), random) is None:
            yield Verdict("not_settled", at, f"whether {id} can ever fit: no numbers were found for it")


def _never_fires(guide: Guide, worlds: Sequence[Demand], steps: int) -> Iterator[Verdict]:
    for at, what, demands in _firing(guide):
        try:
            if find_box(guide.space.full_box(), [*worlds, *demands], Budget(steps)) is None:
                yield Verdict("wrong", at, f"{what} can never apply")
        except NotSettled:
            yield Verdict("not_settled", at, f"whether {what} can ever apply: the budget ran out")


def _firing(guide: Guide) -> Iterator[tuple[Place, str, list[Demand]]]:
    """List everything that must be able to fire, with the demands under which it does."""
    for id, asked in guide.applies.items():
        yield guide.questions[id].at, f"{id}: its asked_when", [asked.yes]
    for caution, condition in guide.cautions.values():
        demands: list[Demand] = [condition.yes] if condition else []
        if caution.involves and caution.at.file == guide.pack.file:
            bringing = [r for r in guide.strategies.values() if r.strategy.involves & caution.involves]
            if not bringing:
                yield (
                    caution.at,
                    f"{caution.id}: no strategy involves {', '.join(sorted(caution.involves))}, it",
                    [_NEVER],
                )
                continue
        yield caution.at, caution.id, demands
    for stop, condition in guide.stops.values():
        if condition:
            yield stop.at, stop.id, [condition.yes]
    for rules in (guide.contradictions, guide.doubts):
        for id, (rule, condition) in rules.items():
            yield rule.at, id, [condition.yes]
    for ruled in guide.strategies.values():
        id = ruled.strategy.id
        for clause in ruled.unwanted:
            yield clause.clause.at, f"{id}: this not_when", [clause.condition.yes]
        for clause in ruled.wanted:
            yield clause.clause.at, f"{id}: this fits_when", [clause.condition.yes]


def _never_matters(guide: Guide) -> Iterator[Verdict]:
    """Name questions that no condition and no finding in use can feel."""
    felt = {
        guide.space.variables[var].name.removeprefix("?")
        for c in _conditions(guide)
        for var in _pivotal(guide, c)
    }
    through = {q for name in felt & guide.findings.keys() for q in guide.needs[name]}
    for question in guide.questions.values():
        if question.at.file != guide.pack.file:
            continue
        matters = question.id in felt or question.id in through
        if not matters and not question.for_the_record:
            yield Verdict(
                "wrong",
                question.at,
                f"{question.id} can never matter: give it a rule, or for_the_record: yes",
            )
    for finding in guide.findings.values():
        behind = any(
            s.figure and s.question == finding.id for f in guide.findings.values() for s in f.inputs.values()
        )
        shown_only = finding.figure is not None
        if finding.id not in felt and not behind and not shown_only:
            yield Verdict("wrong", finding.at, f"{finding.id} decides nothing and shows no figure")


def _conditions(guide: Guide) -> Iterator[Condition]:
    for ruled in guide.strategies.values():
        yield ruled.fits
    for rules in (guide.contradictions, guide.doubts, guide.cautions, guide.stops):
        for _, condition in rules.values():
            if condition is not None:
                yield condition
    for _, condition in guide.profiles:
        if condition is not None:
            yield condition
    yield from guide.applies.values()


def _pivotal(guide: Guide, condition: Condition) -> Iterable[int]:
    """Name the variables whose value alone can change the condition's truth."""
    full = guide.space.full_box()
    for var in condition.vars:
        for yes in condition.yes:
            others = [pair for pair in yes if pair[0] != var]
            box = list(full)
            for other, mask in others:
                box[other] &= mask
            mine = dict(yes).get(var, full[var])
            if any(
                dict(no).get(var, full[var]) & ~mine & full[var] and _meets_but(no, box, var)
                for no in condition.no
            ):
                yield var
                break


def _meets_but(cube: Cube, box: Sequence[int], var: int) -> bool:
    return all(box[other] & mask for other, mask in cube if other != var)


def _false_declarations(guide: Guide, random: Random) -> Iterator[Verdict]:
    """Try what is declared never to hold together on random numbers."""
    for clause in guide.never_together:
        found = next((k for k in _witnesses(guide, clause.condition, random)), None)
        if found is not None:
            sizes = ", ".join(f"{name} {float(reading.value):g}" for name, reading in found.readings.items())
            yield Verdict("wrong", clause.clause.at, f"never_together is not true: it holds with {sizes}")


def _witnesses(guide: Guide, condition: Condition, random: Random) -> Iterator[Knowledge]:
    needed = sorted(
        {q for var in condition.vars for q in guide.needs.get(guide.space.variables[var].name, ())}
    )
    measured = [q for q in needed if guide.questions[q].measured]
    for _ in range(_RANDOM_CHECKS):
        masks = {}
        for name in needed:
            variable = guide.space.by_name[name]
            if not variable.measured:
                bits = [1 << b for b in range(len(variable.values)) if not variable.does_not_apply >> b & 1]
                masks[name] = random.choice(bits)
        knowledge = Knowledge(masks, random_readings(guide, measured, random))
        state = state_of(guide, knowledge)
        if not state.contradictions and condition.truth(state.box):
            yield knowledge
