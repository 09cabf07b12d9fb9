"""Which states of the world the answers allow: what every search over completions must respect.

A completion gives every question and finding one value. It must keep each question to whether its fact
exists, each finding to whether its inputs exist, and what the packs declare can never hold together.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from casebook.guide.guide import Guide, RuledStrategy
from casebook.guide.logic import Cube, intersect
from casebook.guide.search import Demand, watched
from casebook.guide.space import ANSWERS_DISAGREE

_YES, _NO = 0b01, 0b10


class Demands:
    """What searches over the states of a guide may demand, made ready once.

    Attributes:
        allowed: the packs allow the state, and nothing in it disagrees.
        fit, unfit: strategy -> the demands under which it fits; the one under which it does not.
        alarms: for each stop and danger: the work it goes with, the demand that it stands, and its opposite.
    """

    def __init__(self, guide: Guide) -> None:
        self.allowed = [watched(demand) for demand in [*demands_of(guide), agreeing(guide)]]
        self.fit = {id: [watched(d) for d in fit_demands(guide, r)] for id, r in guide.strategies.items()}
        self.unfit = {id: watched(unfit_demand(guide, r)) for id, r in guide.strategies.items()}
        self.alarms = [(involves, watched(c.yes), watched(c.no)) for involves, c in guide.alarms]


def demands_of(guide: Guide, *, clashes: bool = False) -> list[Demand]:
    """Give the demands that every completion must meet.

    Args:
        guide: the packs, put together.
        clashes: whether answers may also disagree by the guide's own check, which no condition tells: an
            answer to what does not apply here, readings that cannot all be right.
    """
    demands: list[Demand] = []
    for name, condition in guide.applies.items():
        variable = guide.space.by_name[name]
        absent = variable.does_not_apply
        demands.append(
            [
                *_with(condition.yes, variable.index, variable.full & ~absent),
                *_with(condition.no, variable.index, absent),
            ]
        )
    for name in guide.findings:
        demands += _finding_demands(guide, name)
    demands += [clause.condition.no for clause in guide.never_together]
    disagree = guide.space.by_name[ANSWERS_DISAGREE].index
    conditions = [condition for _, condition in guide.contradictions.values()]
    if not clashes:
        demands.append([((disagree, _NO),), *(cube for condition in conditions for cube in condition.yes)])
    demands += [[((disagree, _YES),), *condition.no] for condition in conditions]
    return demands


def agreeing(guide: Guide) -> Demand:
    """Give the demand that no answers contradict each other."""
    return [((guide.space.by_name[ANSWERS_DISAGREE].index, _NO),)]


def disagreeing(guide: Guide) -> Demand:
    """Give the demand that some answers contradict each other."""
    return [((guide.space.by_name[ANSWERS_DISAGREE].index, _YES),)]


def fit_demands(guide: Guide, ruled: RuledStrategy) -> list[Demand]:
    """Give the demands under which a strategy fits: its conditions hold, and no doubt hinders it."""
    demands: list[Demand] = [ruled.fits.yes]
    demands += [guide.doubts[id][1].no for id in ruled.doubts]
    if _opened_by_contradictions(guide, ruled):
        demands.append(agreeing(guide))
    return demands


def unfit_demand(guide: Guide, ruled: RuledStrategy) -> Demand:
    """Give the demand under which a strategy does not fit."""
    cubes = [*ruled.fits.no]
    for id in ruled.doubts:
        cubes += guide.doubts[id][1].yes
    if _opened_by_contradictions(guide, ruled):
        cubes += disagreeing(guide)
    return cubes


def _opened_by_contradictions(guide: Guide, ruled: RuledStrategy) -> bool:
    """Whether answers that disagree may keep a strategy open: it cuts, or stands on what they doubt."""
    if ruled.strategy.on_call:
        return ruled.strategy.removes_material
    doubted = {question for rule, _ in guide.contradictions.values() for question in rule.questions}
    return ruled.strategy.removes_material or not doubted.isdisjoint(ruled.questions)


def _with(cubes: Iterable[Cube], var: int, mask: int) -> list[Cube]:
    met = (intersect(cube, ((var, mask),)) for cube in cubes)
    return [cube for cube in met if cube is not None]


def _finding_demands(guide: Guide, name: str) -> list[Demand]:
    """A finding does not apply exactly when one of the things it needs does not."""
    variable = guide.space.by_name[name]
    absent = variable.does_not_apply
    if not absent:
        return []
    sources = guide.findings[name].inputs.values()
    gone: list[Cube] = [
        ((guide.space.by_name[source.question].index, missing),)
        for source in sources
        if (missing := guide.absent(source))
    ]
    here: Sequence[Cube] = [
        tuple(sorted((var, guide.space.variables[var].full & ~mask) for ((var, mask),) in gone))
    ]
    return [[*_with(gone, variable.index, absent), *_with(here, variable.index, variable.full & ~absent)]]
