"""Whether an answer can matter: a search for two states of the world that differ in it alone.

Both are states that the packs allow, without contradictions. They matter to each other when they differ in
the first proposal, in a stop or in a danger. Two states alike but for one variable are searched as one, in
which that variable stands twice: once in its own place, once behind all others, as its twin. The findings
that rest on an answer may change with it, and stand twice as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

from casebook.guide.advice import Advice
from casebook.guide.guide import RuledStrategy
from casebook.guide.logic import Box, Cube, meets_any
from casebook.guide.ranking import fit_key, profiles
from casebook.guide.search import Budget, Demand, NotSettled, Watched, find_box, propagate, watched
from casebook.guide.worlds import agreeing, demands_of, fit_demands, unfit_demand

# Steps one search may cost; past it a question is asked rather than dropped.
_STEPS = 400


@dataclass(frozen=True, slots=True)
class _Pair:
    """Two states searched as one.

    Attributes:
        box: what is possible in the one, and behind it for the twins.
        demands: what both must meet yet.
        twins: a variable in which they may differ -> its twin.
        apart: a bit for each variable in which they may differ.
    """

    box: Box
    demands: Sequence[Watched]
    twins: Mapping[int, int]
    apart: int

    @classmethod
    def apart_in(cls, apart: Iterable[int], box: Box, allowed: Sequence[Demand]) -> _Pair | None:
        """Pair a state with one that may differ in `apart`, both of them allowed; None for no such pair."""
        twins = {var: len(box) + place for place, var in enumerate(sorted(apart))}
        pair = cls([*box, *(box[var] for var in twins)], (), twins, sum(1 << var for var in twins))
        demands = propagate(pair.box, [*allowed, *(pair.turned(d) for d in allowed if pair.naming(d))])
        return None if demands is None else cls(pair.box, demands, twins, pair.apart)

    def exists(self, here: Iterable[Demand], there: Iterable[Demand]) -> bool:
        """Whether there is such a pair with `here` met in the one state and `there` in the other."""
        demands = [*here, *(self.turned(demand) for demand in there)]
        if not all(meets_any(demand, self.box) for demand in demands):
            return False
        return find_box(self.box, demands, Budget(_STEPS), self.demands) is not None

    def naming(self, demand: Demand) -> list[Cube]:
        """Give the cubes that name what may differ: what fails in one state alone fails by one of these."""
        if not watched(demand).vars & self.apart:
            return []
        return [cube for cube in demand if any(var in self.twins for var, _ in cube)]

    def turned(self, demand: Demand) -> list[Cube]:
        """Say of the other state what a demand says of the one."""
        twins = self.twins
        return [tuple(sorted((twins.get(var, var), mask) for var, mask in cube)) for cube in demand]


class Matters:
    """What the searches of one look share."""

    def __init__(self, advice: Advice) -> None:
        guide, state = advice.guide, advice.trusted
        self._guide = guide
        self._box: Box = list(state.box)
        allowed = propagate(self._box, [*demands_of(guide), agreeing(guide)])
        # Where nothing is allowed (answers disagree still) there is nothing to tell apart.
        self._allowed = [watched([])] if allowed is None else allowed
        possible = [guide.strategies[p.id] for p in advice.proposals if p.standing != "ruled_out"]
        place = {id: place for place, id in enumerate(guide.strategies)}
        # The orders in which what fits may stand, each with the demands under which it does.
        self._orders: list[tuple[list[RuledStrategy], list[Demand]]] = []
        for scales, orders in profiles(guide, state):
            demands: list[Demand] = [watched(demand) for demand in orders]
            ranked = sorted(possible, key=lambda r: fit_key(r.strategy, scales, place[r.strategy.id]))
            self._orders.append((ranked, demands))
        if all(ranked == self._orders[0][0] for ranked, _ in self._orders):
            self._orders = [(self._orders[0][0], [])]
        self._fit = {r.strategy.id: [watched(d) for d in fit_demands(guide, r)] for r in possible}
        self._unfit = {r.strategy.id: watched(unfit_demand(guide, r)) for r in possible}
        self._alarms = [(involves, watched(c.yes), watched(c.no)) for involves, c in guide.alarms]

    def matters(self, question: str) -> bool:
        """Whether two states alike but for this question's answer differ in what is proposed or warned of.

        With the answer goes what is not settled yet of the findings behind which it stands; which of their
        values go together is left to what the packs declare. A search that does not come to an end counts
        as yes: rather a question too many than one too few.
        """
        space = self._guide.space
        changing = [question, *(f for f, needs in self._guide.needs.items() if question in needs)]
        indices = [space.by_name[name].index for name in changing]
        pair = _Pair.apart_in(
            (i for i in indices if self._box[i] & self._box[i] - 1), self._box, self._allowed
        )
        try:
            return self._would_be_known(question) or (
                pair is not None
                and (
                    self._moves_a_warning(pair) or self._moves_the_first(pair) or self._turns_the_order(pair)
                )
            )
        except NotSettled:
            return True

    def may_lead(self, strategy: str) -> bool:
        """Whether there is a state in which this strategy stands first."""
        ruled = self._guide.strategies[strategy]
        try:
            return any(
                find_box(self._box, [*self._leading(ruled, ranked, demands), *self._allowed], Budget(_STEPS))
                for ranked, demands in self._orders
            )
        except NotSettled:
            return True

    def _moves_a_warning(self, pair: _Pair) -> bool:
        return any(
            pair.exists([met, *demands], [unmet])
            for involves, met, never in self._alarms
            if (unmet := pair.naming(never))
            for demands in self._brought(involves)
        )

    def _would_be_known(self, question: str) -> bool:
        """Whether a stop or a danger hangs on the mere knowing of the answer."""
        knowing = self._guide.space.knowing.get(question)
        if knowing is None or self._box[knowing] == 0b01:
            return False
        box = [*self._box]
        box[knowing] = 0b11
        pair = _Pair.apart_in([knowing], box, self._allowed)
        return pair is not None and self._moves_a_warning(pair)

    def _brought(self, involves: frozenset[str]) -> Iterable[list[Demand]]:
        """List the demands under which work that involves one of these leads; none for nothing involved."""
        if not involves:
            return [[]]
        return [
            self._leading(ruled, ranked, demands)
            for ranked, demands in self._orders
            for ruled in ranked
            if involves & ruled.strategy.involves
        ]

    def _leading(
        self, ruled: RuledStrategy, ranked: Sequence[RuledStrategy], demands: Iterable[Demand]
    ) -> list[Demand]:
        """Give the demands under which a strategy leads: it fits, and what stands above it does not."""
        above = [self._unfit[better.strategy.id] for better in ranked[: ranked.index(ruled)]]
        return [*self._fit[ruled.strategy.id], *above, *demands]

    def _moves_the_first(self, pair: _Pair) -> bool:
        """Whether what leads in one state does not fit in the other."""
        return any(
            pair.exists(self._leading(ruled, ranked, demands), [unmet])
            for ranked, demands in self._orders
            for ruled in ranked
            if (unmet := pair.naming(self._unfit[ruled.strategy.id]))
        )

    def _turns_the_order(self, pair: _Pair) -> bool:
        """Whether both states have the same that fit, but in another order, so that another leads."""
        if not any(condition and pair.naming(condition.yes) for _, condition in self._guide.profiles):
            return False
        return any(
            pair.exists(self._leading(first, one, demands), self._leading(instead, other, others))
            for (one, demands), (other, others) in permutations(self._orders, 2)
            for first, instead in permutations(one, 2)
            if one.index(first) < one.index(instead) and other.index(instead) < other.index(first)
        )
