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


class Watched(list[Cube]):
    """A demand with the variables it names, so that it is looked at again only when one of them moves.

    Attributes:
        vars: a bit for each variable named.
    """

    __slots__ = ("vars",)
    vars: int


def watched(demand: Demand) -> Watched:
    """Give a demand with the variables it names."""
    if isinstance(demand, Watched):
        return demand
    return _watching(demand, _named(demand))


def _watching(cubes: Iterable[Cube], named: int) -> Watched:
    demand = Watched(cubes)
    demand.vars = named
    return demand


def _named(cubes: Iterable[Cube]) -> int:
    named = 0
    for cube in cubes:
        for var, _ in cube:
            named |= 1 << var
    return named


def find_box(
    box: Sequence[int], demands: Iterable[Demand], budget: Budget, settled: Iterable[Watched] = ()
) -> Box | None:
    """Narrow `box` until every demand holds in all of it; None when that is impossible.

    Args:
        box: what is possible.
        demands: what must hold.
        budget: the steps the search may take.
        settled: what must hold too, and has narrowed this very box as far as it can already (`propagate`).

    Raises:
        NotSettled: the budget was used up first.
    """
    return _search(list(box), [watched(demand) for demand in demands], list(settled), 0, budget)


def _search(
    box: Box, fresh: Sequence[Watched], settled: Sequence[Watched], moved: int, budget: Budget
) -> Box | None:
    budget.spend()
    waiting = _propagate(box, fresh, settled, moved)
    if waiting is None:
        return None
    if not waiting:
        return box
    branch = min(waiting, key=len)
    rest = [demand for demand in waiting if demand is not branch]
    outside: list[Watched] = []
    for cube in branch:
        inside = narrowed(box, cube)
        if inside is not None:
            moved = sum(1 << var for var, mask in cube if box[var] & ~mask)
            found = _search(inside, outside, rest, moved, budget)
            if found is not None:
                return found
        if cube is not branch[-1]:
            # What lies in this cube is done with: the later branches look outside it.
            outside.append(watched(_outside(cube, box)))
    return None


def _outside(cube: Cube, box: Box) -> Demand:
    return [((var, box[var] & ~mask),) for var, mask in cube if box[var] & ~mask]


def propagate(box: Box, demands: Iterable[Demand], settled: Sequence[Watched] = ()) -> list[Watched] | None:
    """Narrow `box` in place by what every cube of a demand asks for; give the demands not yet met.

    Args:
        box: what is possible.
        demands: what must hold.
        settled: what must hold too, and has narrowed this very box already.

    Returns:
        The demands not yet met, those of `settled` among them; None when some can no longer be met.
    """
    return _propagate(box, [watched(demand) for demand in demands], settled, 0)


def _propagate(
    box: Box, fresh: Sequence[Watched], settled: Sequence[Watched], moved: int
) -> list[Watched] | None:
    """Propagate what was not looked at yet, and whatever names a variable that `moved` (a bit each)."""
    waiting: list[Watched] = [*fresh, *settled]
    unseen = len(fresh)
    while unseen or moved:
        again = 0
        still: list[Watched] = []
        for place, demand in enumerate(waiting):
            if place >= unseen and not demand.vars & moved:
                still.append(demand)
                continue
            left = _still_possible(box, demand)
            if left is None:
                continue
            if not left:
                return None
            dropped = len(left) < len(demand)
            if dropped or place < unseen:
                # With all its cubes left it has narrowed the box already.
                again |= _narrow_to_all(box, left)
            if len(left) > 1:
                still.append(_watching(left, demand.vars) if dropped else demand)
        waiting, moved, unseen = still, again, 0
    return waiting


def _narrow_to_all(box: Box, cubes: Sequence[Cube]) -> int:
    """Narrow each variable that all cubes name to the values that one of them allows; give those moved."""
    allowed = dict(cubes[0])
    for cube in cubes[1:]:
        masks = dict(cube)
        for var in list(allowed):
            if var in masks:
                allowed[var] |= masks[var]
            else:
                del allowed[var]
        if not allowed:
            return 0
    moved = 0
    for var, mask in allowed.items():
        if box[var] & ~mask:
            box[var] &= mask
            moved |= 1 << var
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
