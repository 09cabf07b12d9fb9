"""What the searches of earlier looks have shown, and what of it still holds.

Worlds that show something (that a strategy may lead, that an answer can matter) show it in every later look
that leaves them possible; and what cannot be in one look cannot be in any that leaves less possible. So a
guide remembers both, and most of what is asked after an answer is known without a search.
"""

from __future__ import annotations

from collections.abc import Collection, Hashable, Iterable, Iterator, Sequence
from itertools import accumulate
from operator import lshift

from casebook.guide.guide import Guide
from casebook.guide.logic import Box
from casebook.guide.outcomes import Outcomes
from casebook.guide.worlds import Demands

# How much is kept of one kind; what was of use last stands first, and the last goes.
_KEPT = 16
_KEPT_WORLDS = 64


class Remembered:
    """What is remembered of one guide. A box is kept as one integer, all its variables side by side.

    Attributes:
        demands: what searches may demand.
        outcomes: what worlds come to.
        warns: the variables that say whether something is known and of which a stop or a danger asks.
        ranks: those of which the ranking asks.
    """

    def __init__(self, guide: Guide) -> None:
        self.demands = Demands(guide)
        self.outcomes = Outcomes(guide, self.demands)
        full = guide.space.full_box()
        self._places = list(accumulate((mask.bit_length() for mask in full), initial=0))[:-1]
        knowing = {index: name for name, index in guide.space.knowing.items()}
        self._knowing = frozenset(knowing)
        self.warns = self._knowing & {var for _, condition in guide.alarms for var in condition.vars}
        self.ranks = self._knowing & {var for _, c in guide.profiles if c for var in c.vars}
        # Whether something is known counts only where it is asked: in the ranking, or by a warning too.
        self._if_ranked = self._without(full, self._knowing - self.ranks)
        self._if_warned = self._without(full, self._knowing - self.ranks - self.warns)
        self._of_the_world = self._without(full, self._knowing)
        # The questions whose answer may move a variable, and the other way round.
        self._behind = [
            guide.needs.get(v.name, frozenset([knowing.get(v.index, v.name)])) for v in guide.space.variables
        ]
        self.moved_by = {
            name: [var for var, questions in enumerate(self._behind) if name in questions]
            for name in guide.questions
        }
        self._worlds: dict[int, Box] = {}
        self._shown: dict[Hashable, list[int]] = {}
        self._refuted: dict[Hashable, list[int]] = {}

    def _without(self, box: Sequence[int], gone: Collection[int]) -> int:
        return self.packed(0 if var in gone else mask for var, mask in enumerate(box))

    def packed(self, box: Iterable[int]) -> int:
        """Pack a box into one integer."""
        return sum(map(lshift, box, self._places))

    def known(self, what: Hashable, possible: int) -> bool | None:
        """Say whether something was shown or refuted that holds in this (packed) box; None for neither."""
        for needs in self._shown.get(what, ()):
            if not needs & ~possible:
                return True
        possible &= self._if_warned
        for box in self._refuted.get(what, ()):
            if not possible & ~box:
                return False
        return None

    def refute(self, what: Hashable, box: Sequence[int]) -> None:
        """Remember that it cannot be where no more than this is possible."""
        _keep(self._refuted, what, self.packed(box))

    def worlds(self, box: Sequence[int], possible: int) -> Iterator[Box]:
        """Give remembered worlds, the latest first, made to agree with this look where they can be."""
        for needs, world in reversed(list(self._worlds.items())):
            one = self.as_known(world, box)
            if needs & ~possible:
                one = [value if value & mask else mask & -mask for value, mask in zip(one, box, strict=True)]
                if not self.outcomes.allowed(one):
                    continue
            yield one

    def as_known(self, world: Sequence[int], box: Sequence[int]) -> Box:
        """Give a world with what is known of it as in a look."""
        return [box[var] if var in self._knowing else value for var, value in enumerate(world)]

    def learn_lead(self, world: Box, shut: tuple[str, ...]) -> None:
        """Remember a world that the packs allow, known as in the look, and what leads it."""
        packed = self.packed(world)
        key = packed & self._of_the_world
        self._worlds.pop(key, None)
        self._worlds[key] = world
        if len(self._worlds) > _KEPT_WORLDS:
            del self._worlds[next(iter(self._worlds))]
        leads, _ = self.outcomes.of(world, shut)
        _keep(self._shown, ("leads", leads, shut), packed & self._if_ranked)

    def learn_turns(
        self, world: Box, box: Sequence[int], shut: tuple[str, ...], about: Iterable[str]
    ) -> None:
        """Remember which of the questions `about` matter in a world, by one value changed within `box`."""
        among = [0b1] * len(box)
        for question in about:
            for var in self.moved_by[question]:
                if var not in self._knowing:
                    among[var] = box[var]
                elif var in self.warns - self.ranks and box[var] == 0b10:
                    # A warning may hang on the mere knowing of the answer.
                    among[var] = 0b11
        leads, _ = self.outcomes.of(world, shut)
        packed = self.packed(world)
        for var, place, (other, _) in self.outcomes.turned(world, among, shut):
            both = packed if var in self._knowing else packed | 1 << self._places[var] + place
            needs = both & (self._if_warned if leads == other else self._if_ranked)
            for question in self._behind[var]:
                _keep(self._shown, ("matters", question, shut), needs)
            _keep(self._shown, ("leads", other, shut), both & self._if_ranked)

    def learn_pair(
        self, what: Hashable, one: Box, other: Box, box: Sequence[int], shut: tuple[str, ...]
    ) -> None:
        """Remember two worlds that show that a question matters."""
        same = self.outcomes.of(one, shut)[0] == self.outcomes.of(other, shut)[0]
        knowing = self.packed(box) & ~self._of_the_world
        needs = (self.packed(one) | self.packed(other)) & self._of_the_world | knowing
        _keep(self._shown, what, needs & (self._if_warned if same else self._if_ranked))


def remembered_of(guide: Guide) -> Remembered:
    """Give what is remembered of a guide, for as long as there is the guide."""
    if guide.remembered is None:
        guide.remembered = Remembered(guide)
    return guide.remembered


def _keep(all_kept: dict[Hashable, list[int]], what: Hashable, one: int) -> None:
    kept = all_kept.setdefault(what, [])
    if one not in kept:
        kept.insert(0, one)
        del kept[_KEPT:]
