"""Exact searches for a state of the world that a strategy leads, and for two that come to different things.

Two states alike but for one variable are searched as one, in which that variable stands twice: once in its
own place, once behind all others, as its twin. The findings that rest on an answer may change with it, and
stand twice as well.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from casebook.guide.logic import Box, Cube, meets_any
from casebook.guide.search import Budget, Demand, Watched, find_box, propagate
from casebook.guide.worlds import Demands

# Steps one search may cost.
_STEPS = 400


@dataclass(frozen=True, slots=True)
class Order:
    """An order in which what fits may stand.

    Attributes:
        ids: the strategies, the first to stand first.
        demands: what must hold for this order to be the one.
    """

    ids: Sequence[str]
    demands: Sequence[Demand]


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of what is possible, narrowed as far as the demands that are not met in all of it can."""

    box: Box
    demands: list[Watched]


class Pairs:
    """The searches in one box, and what they share."""

    def __init__(
        self,
        box: Sequence[int],
        demands: Demands,
        orders: Sequence[Order],
        involved: Mapping[str, frozenset[str]],
        may_lead: Callable[[str], bool],
    ) -> None:
        """Make ready to search `box`.

        Args:
            box: what is possible.
            demands: what may be asked of a state.
            orders: those in which what fits may stand.
            involved: strategy -> what its work involves.
            may_lead: whether there is a state that a strategy leads.
        """
        self._demands = demands
        self._orders = orders
        self._involved = involved
        self._may_lead = may_lead
        self._all = _narrowed(_Part(list(box), []), demands.allowed)
        self._led: dict[tuple[int, str], _Part | None] = {}

    @property
    def box(self) -> Box | None:
        """What the packs allow of the box; None where answers disagree still."""
        return self._all.box if self._all else None

    def led_by(self, strategy: str) -> Box | None:
        """Give a state that a strategy leads; None where there is none.

        Raises:
            NotSettled: the search came to no end.
        """
        for order in range(len(self._orders)):
            part = self._led_part(order, strategy)
            box = find_box(part.box, (), Budget(_STEPS), part.demands) if part else None
            if box is not None:
                return _first_values(box)
        return None

    def differing(self, apart: Sequence[int], *, warned: bool = False) -> tuple[Box, Box] | None:
        """Give two states that differ in `apart` alone and come to different things; None for no such two.

        Args:
            apart: the variables in which they may differ.
            warned: whether only stops and dangers count.

        Raises:
            NotSettled: a search came to no end.
        """
        if self._all is None or not apart:
            return None
        for part, there in self._differences(self._all, apart, warned):
            pair = self._searched(part, apart, there)
            if pair is not None:
                return pair
        return None

    def _differences(
        self, everything: _Part, apart: Sequence[int], warned: bool
    ) -> Iterator[tuple[_Part, Sequence[Demand]]]:
        """List what the two may differ in: what is possible for the one, and demands on the other."""
        unfit, bits = self._demands.unfit, sum(1 << var for var in apart)
        for involves, met, never in self._demands.alarms:
            if unmet := _naming(never, bits):
                for brought in self._bringing(everything, involves):
                    if stands := _narrowed(brought, [met]):
                        yield stands, [unmet]
        if warned:
            return
        for at, order in enumerate(self._orders):
            for id in order.ids:
                if (unmet := _naming(unfit[id], bits)) and (part := self._leading(at, id)):
                    yield part, [unmet]
        # Both may have the same that fit, but in another order, so that another leads.
        for (at, one), (_, other) in combinations(enumerate(self._orders), 2):
            here = _narrowed(everything, one.demands)
            if here and self._paired(here, apart, other.demands):
                place = {id: place for place, id in enumerate(other.ids)}
                for first, instead in combinations(one.ids, 2):
                    if place[instead] < place[first] and (part := self._leading(at, first)):
                        yield part, [*self._demands.fit[instead], *other.demands]

    def _bringing(self, everything: _Part, involves: frozenset[str]) -> Iterator[_Part]:
        """List the parts in which work that involves one of these leads; everything for nothing involved."""
        if not involves:
            yield everything
            return
        for at, order in enumerate(self._orders):
            for id in order.ids:
                if involves & self._involved[id] and (part := self._leading(at, id)):
                    yield part

    def _leading(self, order: int, id: str) -> _Part | None:
        """Give the part in which a strategy leads in this order; None where it cannot."""
        return self._led_part(order, id) if self._may_lead(id) else None

    def _led_part(self, order: int, id: str) -> _Part | None:
        key = (order, id)
        if key not in self._led:
            demands = self._to_lead(self._orders[order], id)
            self._led[key] = self._all and _narrowed(self._all, demands)
        return self._led[key]

    def _to_lead(self, order: Order, id: str) -> list[Demand]:
        """Give the demands under which a strategy leads: it fits, and what stands above it does not."""
        above = order.ids[: order.ids.index(id)]
        unfit = self._demands.unfit
        return [*self._demands.fit[id], *(unfit[better] for better in above), *order.demands]

    def _searched(self, part: _Part, apart: Sequence[int], there: Sequence[Demand]) -> tuple[Box, Box] | None:
        """Search for a state in `part` and another, alike but for `apart`, that meets `there`."""
        pair = self._paired(part, apart, there)
        found = pair and find_box(pair.box, (), Budget(_STEPS), pair.demands)
        if not found:
            return None
        one = _first_values(found)
        size = len(part.box)
        other = one[:size]
        for place, var in enumerate(apart, size):
            other[var] = one[place]
        return one[:size], other

    def _paired(self, part: _Part, apart: Sequence[int], there: Sequence[Demand]) -> _Part | None:
        """Put behind a part the variables `apart` once more, as they are in the other state."""
        assert self._all is not None
        twins = {var: place for place, var in enumerate(apart, len(part.box))}
        both = _Part([*part.box, *(self._all.box[var] for var in apart)], part.demands)
        demands = [_turned(demand, twins) for demand in there]
        if not all(meets_any(demand, both.box) for demand in demands):
            return None
        bits = sum(1 << var for var in apart)
        demands += [_turned(demand, twins) for demand in self._all.demands if demand.vars & bits]
        return _narrowed(both, demands)


def _narrowed(part: _Part, demands: Sequence[Demand]) -> _Part | None:
    box = list(part.box)
    waiting = propagate(box, demands, part.demands)
    return None if waiting is None else _Part(box, waiting)


def _naming(demand: Watched, apart: int) -> list[Cube]:
    """Give the cubes that name what may differ: what fails in one state alone fails by one of these."""
    if not demand.vars & apart:
        return []
    return [cube for cube in demand if any(apart >> var & 1 for var, _ in cube)]


def _turned(demand: Demand, twins: Mapping[int, int]) -> list[Cube]:
    """Say of the other state what a demand says of the one."""
    return [tuple(sorted((twins.get(var, var), mask) for var, mask in cube)) for cube in demand]


def _first_values(box: Sequence[int]) -> Box:
    """Settle every variable of a box on the first of its values."""
    return [mask & -mask for mask in box]
