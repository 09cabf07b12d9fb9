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


def _search(box: Box, demands: list[Demand], budget: Budget) -> Box | None:
    budget.spend()
    while True:
        waiting: list[list[Cube]] = []
        forced: Cube | None = None
        for demand in demands:
            left = _still_possible(box, demand)
            if left is None:
                continue
            if not left:
                return None
            if len(left) == 1:
                forced = left[0]
                break
            waiting.append(left)
        if forced is None:
            break
        inside = narrowed(box, forced)
        if inside is None:  # cannot happen for a cube that meets the box; kept for the type
            return None
        box = inside
    if not waiting:
        return box
    branch = min(waiting, key=len)
    rest = [demand for demand in waiting if demand is not branch]
    for cube in branch:
        inside = narrowed(box, cube)
        found = None if inside is None else _search(inside, list(rest), budget)
        if found is not None:
            return found
        # Later branches need not look where this cube holds: exclude it when it is a single literal.
        if len(cube) == 1:
            var, mask = cube[0]
            if not box[var] & ~mask:
                return None
            box = [*box]
            box[var] &= ~mask
    return None


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
