"""Whether an answer can matter: a search for two states of the world that differ in it alone.

Both are states that the packs allow, without contradictions. They matter to each other when they differ in
the first proposal, in a stop or in a danger. Two states alike but for one variable are searched as one, in
which that variable stands twice: once in its own place, once behind all others, as its twin.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import product

from casebook.guide.advice import Advice
from casebook.guide.guide import RuledStrategy
from casebook.guide.logic import Box, Cube, meets
from casebook.guide.ranking import fit_key, profiles
from casebook.guide.search import Budget, Demand, NotSettled, find_box
from casebook.guide.space import Variable
from casebook.guide.worlds import agreeing, demands_of, fit_demands, unfit_demand

# Steps one search may cost; past it a question is asked rather than dropped.
_STEPS = 400


class Matters:
    """What the searches of one look share."""

    def __init__(self, advice: Advice) -> None:
        guide, state = advice.guide, advice.trusted
        self._guide = guide
        self._box: Box = list(state.box)
        self._allowed: list[Demand] = [*demands_of(guide), agreeing(guide)]
        possible = [guide.strategies[p.id] for p in advice.proposals if p.standing != "ruled_out"]
        place = {id: place for place, id in enumerate(guide.strategies)}
        # The orders in which what fits may stand, each with the demands under which it does.
        self._orders: list[tuple[list[RuledStrategy], list[Demand]]] = []
        for scales, demands in profiles(guide, state):
            ranked = sorted(possible, key=lambda r: fit_key(r.strategy, scales, place[r.strategy.id]))
            self._orders.append((ranked, demands))
        if all(ranked == self._orders[0][0] for ranked, _ in self._orders):
            self._orders = [(self._orders[0][0], [])]
        self._fit = {r.strategy.id: fit_demands(guide, r) for r in possible}
        self._unfit = {r.strategy.id: unfit_demand(guide, r) for r in possible}

    def matters(self, variable: Variable) -> bool:
        """Whether two states that differ in this variable alone differ in what is proposed or warned of.

        A search that does not come to an end counts as yes: rather a question too many than one too few.
        """
        try:
            return (
                self._moves_a_warning(variable.index)
                or self._would_be_known(variable.name)
                or self._moves_the_first(variable.index)
                or self._turns_the_order(variable.index)
            )
        except NotSettled:
            return True

    def _moves_a_warning(self, var: int) -> bool:
        return any(
            self._two(var, [condition.yes, *demands], [_naming(var, condition.no)])
            for involves, condition in self._guide.alarms
            if _naming(var, condition.no)
            for demands in self._brought(involves)
        )

    def _would_be_known(self, name: str) -> bool:
        """Whether a stop or a danger hangs on the mere knowing of the answer."""
        knowing = self._guide.space.knowing.get(name)
        if knowing is None or self._box[knowing] == 0b01:
            return False
        before = self._box
        self._box = [*before]
        self._box[knowing] = 0b11
        try:
            return self._moves_a_warning(knowing)
        finally:
            self._box = before

    def _brought(self, involves: frozenset[str]) -> Iterable[list[Demand]]:
        """List the demands under which work that involves one of these leads; none for nothing involved."""
        if not involves:
            return [[]]
        return [
            self._leading(place, ranked, demands)
            for ranked, demands in self._orders
            for place, ruled in enumerate(ranked)
            if involves & ruled.strategy.involves
        ]

    def _leading(
        self, place: int, ranked: Sequence[RuledStrategy], demands: Iterable[Demand]
    ) -> list[Demand]:
        above = [self._unfit[better.strategy.id] for better in ranked[:place]]
        return [*self._fit[ranked[place].strategy.id], *above, *demands]

    def _moves_the_first(self, var: int) -> bool:
        """Whether what leads in one state does not fit in the other."""
        return any(
            self._two(var, self._leading(place, ranked, demands), [unfit])
            for ranked, demands in self._orders
            for place, ruled in enumerate(ranked)
            if (unfit := _naming(var, self._unfit[ruled.strategy.id]))
        )

    def _turns_the_order(self, var: int) -> bool:
        """Whether both states have the same that fit, but in another order, so that another leads."""
        if not any(condition and var in condition.vars for _, condition in self._guide.profiles):
            return False
        for (one, demands), (other, others) in product(self._orders, repeat=2):
            if one is other:
                continue
            for place, ruled in enumerate(one):
                for place_there, instead in enumerate(other):
                    if instead is ruled:
                        break  # the rest stands below it there too
                    if one.index(instead) > place and self._two(
                        var,
                        self._leading(place, one, demands),
                        self._leading(place_there, other, others),
                    ):
                        return True
        return False

    def _two(self, var: int, here: Iterable[Demand], there: Iterable[Demand]) -> bool:
        """Whether there are two states alike but for `var`, one meeting `here`, the other `there`."""
        twin = len(self._box)
        box = [*self._box, self._box[var]]
        demands = [*here, *(_with_twin(demand, var, twin) for demand in there)]
        if not all(any(meets(cube, box) for cube in demand) for demand in demands):
            return False
        for demand in self._allowed:
            demands.append(demand)
            if _naming(var, demand):
                demands.append(_with_twin(demand, var, twin))
        return find_box(box, demands, Budget(_STEPS)) is not None


def _naming(var: int, demand: Demand) -> list[Cube]:
    """Give the cubes that say something of `var`: what fails but for `var` fails by one of these."""
    return [cube for cube in demand if any(named == var for named, _ in cube)]


def _with_twin(demand: Demand, var: int, twin: int) -> list[Cube]:
    """Say of the twin what a demand says of the variable."""
    return [tuple(sorted((twin if named == var else named, mask) for named, mask in cube)) for cube in demand]
