"""Whether an answer can matter: a search for two states of the world that differ in it alone.

Both are states that the packs allow, without contradictions. They matter to each other when they differ in
the first proposal, in a stop or in a danger. Two states alike but for one variable are searched as one, in
which that variable stands twice: once in its own place, once behind all others, as its twin. The findings
that rest on an answer may change with it, and stand twice as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import permutations

from casebook.guide.advice import Advice
from casebook.guide.guide import RuledStrategy
from casebook.guide.logic import Box, Cube, meets
from casebook.guide.ranking import fit_key, profiles
from casebook.guide.search import Budget, Demand, NotSettled, find_box
from casebook.guide.worlds import agreeing, demands_of, fit_demands, unfit_demand

# The variables in which two states may differ.
_Apart = frozenset[int]

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

    def matters(self, question: str) -> bool:
        """Whether two states alike but for this question's answer differ in what is proposed or warned of.

        With the answer goes what is not settled yet of the findings behind which it stands; which of their
        values go together is left to what the packs declare. A search that does not come to an end counts
        as yes: rather a question too many than one too few.
        """
        space = self._guide.space
        changing = [question, *(f for f, needs in self._guide.needs.items() if question in needs)]
        indices = [space.by_name[name].index for name in changing]
        apart = frozenset(var for var in indices if self._box[var] & self._box[var] - 1)
        try:
            return (
                self._moves_a_warning(apart)
                or self._would_be_known(question)
                or self._moves_the_first(apart)
                or self._turns_the_order(apart)
            )
        except NotSettled:
            return True

    def _moves_a_warning(self, apart: _Apart) -> bool:
        return any(
            self._two(apart, [condition.yes, *demands], [_naming(apart, condition.no)])
            for involves, condition in self._guide.alarms
            if _naming(apart, condition.no)
            for demands in self._brought(involves)
        )

    def _would_be_known(self, question: str) -> bool:
        """Whether a stop or a danger hangs on the mere knowing of the answer."""
        knowing = self._guide.space.knowing.get(question)
        if knowing is None or self._box[knowing] == 0b01:
            return False
        before = self._box
        self._box = [*before]
        self._box[knowing] = 0b11
        try:
            return self._moves_a_warning(frozenset([knowing]))
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

    def _moves_the_first(self, apart: _Apart) -> bool:
        """Whether what leads in one state does not fit in the other."""
        return any(
            self._two(apart, self._leading(place, ranked, demands), [unfit])
            for ranked, demands in self._orders
            for place, ruled in enumerate(ranked)
            if (unfit := _naming(apart, self._unfit[ruled.strategy.id]))
        )

    def _turns_the_order(self, apart: _Apart) -> bool:
        """Whether both states have the same that fit, but in another order, so that another leads."""
        if not any(condition and apart & condition.vars for _, condition in self._guide.profiles):
            return False
        return any(
            self._two(
                apart,
                self._leading(one.index(first), one, demands),
                self._leading(other.index(instead), other, others),
            )
            for (one, demands), (other, others) in permutations(self._orders, 2)
            for first, instead in permutations(one, 2)
            if one.index(first) < one.index(instead) and other.index(instead) < other.index(first)
        )

    def _two(self, apart: _Apart, here: Iterable[Demand], there: Iterable[Demand]) -> bool:
        """Whether there are two states alike but for `apart`, one meeting `here`, the other `there`."""
        twins = {var: len(self._box) + place for place, var in enumerate(sorted(apart))}
        box = [*self._box, *(self._box[var] for var in twins)]
        demands = [*here, *(_with_twins(demand, twins) for demand in there)]
        if not all(any(meets(cube, box) for cube in demand) for demand in demands):
            return False
        for demand in self._allowed:
            demands.append(demand)
            if _naming(apart, demand):
                demands.append(_with_twins(demand, twins))
        return find_box(box, demands, Budget(_STEPS)) is not None


def _naming(apart: _Apart, demand: Demand) -> list[Cube]:
    """Give the cubes that say something of `apart`: what fails but for those fails by one of these."""
    return [cube for cube in demand if any(var in apart for var, _ in cube)]


def _with_twins(demand: Demand, twins: Mapping[int, int]) -> list[Cube]:
    """Say of the twins what a demand says of the variables."""
    return [tuple(sorted((twins.get(var, var), mask) for var, mask in cube)) for cube in demand]
