"""Whether an answer can matter: whether two states of the world, alike but for it, come to different things.

Both are states that the packs allow, without contradictions. They come to different things when they differ
in the first proposal, in a stop or in a danger. What was shown before is remembered (`remembered.py`); then
worlds known to be possible are tried with one value changed (`outcomes.py`); the rest is searched for
(`pairs.py`). The last alone decides that something cannot be.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import replace
from functools import cached_property
from itertools import islice

from casebook.guide.advice import Advice
from casebook.guide.guide import Guide
from casebook.guide.logic import Box
from casebook.guide.pairs import Order, Pairs
from casebook.guide.ranking import fit_key, profiles
from casebook.guide.remembered import remembered_of
from casebook.guide.search import NotSettled, watched
from casebook.guide.state import State

# So many remembered worlds are tried before anything is searched for.
_TRIED = 12


class Matters:
    """What the questions of one look share."""

    def __init__(self, advice: Advice) -> None:
        guide, state = advice.guide, advice.trusted
        self._guide = guide
        self._remembered = remembered_of(guide)
        self._state = state
        ruled_out = [p.id for p in advice.proposals if p.standing == "ruled_out"]
        # Where answers disagree, what is proposed on call goes by all of them, not by those that are trusted.
        self._shut = tuple(
            id
            for id in ruled_out
            if advice.contradictions and guide.strategies[id].fits.truth(state.box) is not False
        )
        self._possible_ids = guide.strategies.keys() - ruled_out
        self._strict = self._pairs_in((), self.may_lead)
        box = self._strict.box or state.box
        self._possible = self._remembered.packed(box)
        self._open: set[str] = set()

    @cached_property
    def _loose(self) -> Pairs:
        """The look with it left open whether things are known: what cannot be here, cannot be later."""
        asked = self._remembered.warns | self._remembered.ranks
        return self._pairs_in(var for var in asked if self._state.box[var] == 0b10)

    def _pairs_in(self, left_open: Iterable[int], may_lead: Callable[[str], bool] = lambda _: True) -> Pairs:
        box = list(self._state.box)
        for var in left_open:
            box[var] = 0b11
        involved = {id: ruled.strategy.involves for id, ruled in self._guide.strategies.items()}
        orders = _orders(self._guide, replace(self._state, box=box), self._possible_ids)
        return Pairs(box, self._remembered.demands, orders, involved, may_lead)

    def among(self, questions: Iterable[str]) -> set[str]:
        """Name those questions whose answer alone can change what is proposed or warned of.

        With the answer goes what is not settled yet of the findings behind which it stands; which of their
        values go together is left to what the packs declare. A search that does not come to an end counts
        as yes: rather a question too many than one too few.
        """
        if self._strict.box is None:
            # Answers disagree still: nothing is allowed, and so there is nothing to tell apart.
            return set()
        self._open = {question for question in questions if self._known(question) is None}
        for world in islice(self._remembered.worlds(self._strict.box, self._possible), _TRIED):
            self._learn(world)
        unsettled = set()
        for question in questions:
            if question in self._open:
                try:
                    self._search(question)
                except NotSettled:
                    unsettled.add(question)
        return {q for q in questions if q in unsettled or self._known(q)}

    def may_lead(self, strategy: str) -> bool:
        """Whether there is a state in which this strategy stands first."""
        what = ("leads", strategy, self._shut)
        known = self._remembered.known(what, self._possible)
        if known is not None:
            return known
        try:
            world = self._strict.led_by(strategy)
        except NotSettled:
            return True
        if world is None:
            self._remembered.refute(what, self._strict.box or ())
            return False
        self._learn(world)
        return True

    def _known(self, question: str) -> bool | None:
        return self._remembered.known(("matters", question, self._shut), self._possible)

    def _learn(self, world: Box) -> None:
        """Learn what a world that is possible tells of the questions still open."""
        world = self._remembered.as_known(world, self._state.box)
        self._remembered.learn_lead(world, self._shut)
        if self._open:
            self._remembered.learn_turns(world, self._strict.box or (), self._shut, self._open)
            self._open = {question for question in self._open if self._known(question) is None}

    def _search(self, question: str) -> None:
        """Search for two states that show that a question matters; remember them, or that there are none."""
        what = ("matters", question, self._shut)
        pair = self._differing(self._strict, question)
        if pair is not None:
            self._remembered.learn_pair(what, *pair, self._state.box, self._shut)
            self._learn(pair[0])
            return
        self._remembered.refute(what, self._strict.box or ())
        # Where the ranking has nothing left to ask, only the warnings are another matter there.
        warned = all(self._state.box[var] != 0b10 for var in self._remembered.ranks)
        if self._loose.box is not None and self._differing(self._loose, question, warned=warned) is None:
            self._remembered.refute(what, self._loose.box)

    def _differing(self, pairs: Pairs, question: str, *, warned: bool = False) -> tuple[Box, Box] | None:
        own = self._guide.space.knowing.get(question)
        box = pairs.box or ()
        pair = None
        if own in self._remembered.warns and box[own] != 0b01:
            # A stop or a danger may hang on the mere knowing of the answer.
            pair = (pairs if box[own] == 0b11 else self._pairs_in([own])).differing([own], warned=True)
        moved = self._remembered.moved_by[question]
        apart = [var for var in moved if var != own and box[var] & box[var] - 1]
        return pair or pairs.differing(apart, warned=warned)


def _orders(guide: Guide, state: State, possible: Collection[str]) -> list[Order]:
    """List the orders in which what fits may stand."""
    strategies = guide.strategies
    place = {id: place for place, id in enumerate(strategies)}
    orders: list[Order] = []
    for scales, demands in profiles(guide, state):
        keys = {id: fit_key(strategies[id].strategy, scales, place[id]) for id in possible}
        orders.append(Order(sorted(keys, key=keys.__getitem__), [watched(demand) for demand in demands]))
    if all(order.ids == orders[0].ids for order in orders):
        return [Order(orders[0].ids, [])]
    return orders
