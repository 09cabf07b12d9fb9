"""What states of the world come to, and which single change makes one come to something else.

A *world* gives every variable one value. It comes to a first proposal, and to the stops and dangers that
stand with it. All conditions of a guide are judged together (`truths.py`), so that trying every other value
of every variable costs little more than judging one world.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from casebook.guide.guide import Guide
from casebook.guide.logic import TRUE, Condition
from casebook.guide.pack import RANKED_BY
from casebook.guide.ranking import fit_key
from casebook.guide.search import Demand
from casebook.guide.truths import Truths, joined
from casebook.guide.worlds import Demands

# The strategy that leads, if any, and the warnings that stand with it.
Outcome = tuple[str | None, int]


class Outcomes:
    """The worlds of one guide, made ready to be judged."""

    def __init__(self, guide: Guide, demands: Demands) -> None:
        strategies = guide.strategies
        told: list[Demand] = [*demands.unfit.values(), *(met for _, met, _ in demands.alarms)]
        told += [condition.yes for _, condition in guide.profiles if condition]
        told += demands.allowed
        self._truths = Truths([_as_condition(demand) for demand in told], guide.space.full_box())
        bits = iter(self._truths.bits)
        self._unfit = {id: next(bits) for id in strategies}
        warned = [(next(bits), involves) for involves, _, _ in demands.alarms]
        self._profiles = [
            (next(bits) if condition else 0, self._order(guide, profile.scales))
            for profile, condition in guide.profiles
        ]
        self._profiles.append((0, self._order(guide, RANKED_BY)))
        self._allowed = joined(bits)
        always = joined(bit for bit, involves in warned if not involves)
        self._warned: dict[str | None, int] = {None: always}
        for id, ruled in strategies.items():
            brought = joined(bit for bit, involves in warned if involves & ruled.strategy.involves)
            self._warned[id] = always | brought

    def _order(self, guide: Guide, scales: Iterable[str]) -> list[tuple[int, str]]:
        preference = {id: place for place, id in enumerate(guide.strategies)}
        ordered = sorted(
            guide.strategies.values(), key=lambda r: fit_key(r.strategy, scales, preference[r.strategy.id])
        )
        return [(self._unfit[ruled.strategy.id], ruled.strategy.id) for ruled in ordered]

    def allowed(self, world: Sequence[int]) -> bool:
        """Whether the packs allow a world, and nothing in it disagrees."""
        return self._truths.judge(world)[0] & self._allowed == self._allowed

    def of(self, world: Sequence[int], shut: Iterable[str] = ()) -> Outcome:
        """Say what an allowed world comes to; `shut` are ruled out whatever their conditions say."""
        return self._outcome(self._truths.judge(world)[0] | self._gone(shut))

    def turned(
        self, world: Sequence[int], among: Sequence[int], shut: Iterable[str] = ()
    ) -> Iterator[tuple[int, int, Outcome]]:
        """Say which changes of one variable make an allowed world come to something else.

        Args:
            world: one value for every variable.
            among: the values that may be tried; a variable with one value is left alone.
            shut: the strategies that are ruled out whatever their conditions say.

        Yields:
            At most once for each variable: the variable, the place of its new value, and what the changed
            world comes to, which is allowed too.
        """
        gone, allowed = self._gone(shut), self._allowed
        held = self._truths.judge(world)[0] | gone
        here = self._outcome(held)
        for var, values in self._truths.if_settled(world, among):
            for place, may_hold, _ in values:
                there = may_hold | gone
                if there != held and there & allowed == allowed:
                    outcome = self._outcome(there)
                    if outcome != here:
                        yield var, place, outcome
                        break

    def _gone(self, shut: Iterable[str]) -> int:
        return joined(self._unfit[id] for id in shut)

    def _outcome(self, held: int) -> Outcome:
        for profile, order in self._profiles:
            if not profile or held & profile:
                first = next((id for unfit, id in order if not held & unfit), None)
                return first, held & self._warned[first]
        raise AssertionError("the last profile always holds")


def _as_condition(demand: Demand) -> Condition:
    """Give a demand as a condition of which only the holding is asked."""
    return Condition(TRUE, tuple(demand), (), frozenset(var for cube in demand for var, _ in cube))
