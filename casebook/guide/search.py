"""Search for a state of the world that satisfies several demands at once.

A demand is a list of cubes of which one must hold. The search takes the demand with the fewest cubes still
possible, tries each, and goes on; it ends with a box in which every demand holds, with the certainty that
there is none, or, when its budget of steps is used up, with the honest 'not settled'.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from casebook.guide.logic import Box, Cube, narrowed

Demand = Sequence[Cube]


class NotSettled(Exception):
    """The budget was used up before the search came to an answer."""


@dataclass(slots=True)
class Budget:
    """How many steps a search may still take."""

    steps: int

    def spend(self) -> None:
        """Use one step.

        Raises:
            NotSettled: none is left.
        """
        self.steps -= 1
        if self.steps < 0:
            raise NotSettled


def find_box(box: Sequence[int], demands: Iterable[Demand], budget: Budget) -> Box | None:
    """Narrow `box` until every demand holds in all of it; None when that is impossible.

    Raises:
        NotSettled: the budget was used up first.
    """
    return _search(list(box), list(demands), budget)


def _search(box: Box, demands: Sequence[Demand], budget: Budget) -> Box | None:
    budget.spend()
    waiting = propagate(box, demands)
    if waiting is None:
        return None
    if not waiting:
        return box
    branch = min(waiting, key=len)
    rest: list[Demand] = [demand for demand in waiting if demand is not branch]
    for cube in branch:
        inside = narrowed(box, cube)
        found = None if inside is None else _search(inside, rest, budget)
        if found is not None:
            return found
        # What lies in this cube is done with: the later branches look outside it.
        rest = [*rest, _outside(cube, box)]
    return None


def _outside(cube: Cube, box: Box) -> Demand:
    return [((var, box[var] & ~mask),) for var, mask in cube if box[var] & ~mask]


def propagate(box: Box, demands: Iterable[Demand]) -> list[Demand] | None:
    """Narrow `box` in place by what every cube of a demand asks for; give the demands not yet met.

    None when some demand can no longer be met.
    """
    moved = True
    while moved:
        moved = False
        waiting: list[Demand] = []
        for demand in demands:
            left = _still_possible(box, demand)
            if left is None:
                continue
            if not left:
                return None
            if _narrow_to_all(box, left):
                moved = True
            if len(left) > 1:
                waiting.append(left)
        demands = waiting
    return waiting


def _narrow_to_all(box: Box, cubes: Sequence[Cube]) -> bool:
    """Narrow each variable that all cubes name to the values that one of them allows."""
    allowed = dict(cubes[0])
    for cube in cubes[1:]:
        masks = dict(cube)
        for var in list(allowed):
            if var in masks:
                allowed[var] |= masks[var]
            else:
                del allowed[var]
        if not allowed:
            return False
    moved = False
    for var, mask in allowed.items():
        if box[var] & ~mask:
            box[var] &= mask
            moved = True
    return moved


def _still_possible(box: Sequence[int], demand: Demand) -> list[Cube] | None:
    """Give the cubes that still meet the box; None when one of them holds in all of it already."""
    left: list[Cube] = []
    for cube in demand:
        holds = True
        for var, mask in cube:
            possible = box[var]
            if not possible & mask:
                break
            if possible & ~mask:
                holds = False
        else:
            if holds:
                return None
            left.append(cube)
    return left
