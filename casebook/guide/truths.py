"""The truth of many conditions at once, as bits of two large integers.

The cubes of a condition lie side by side in a field of bits with one spare bit above them. For each value
of each variable one integer holds the cubes that the value does not meet; what is still possible kills a
cube when every value left is among those. Adding all ones to the cubes still alive carries into the spare
bit of every field in which at least one is. So a few operations on integers tell for all conditions
together which may still hold (a cube of the condition alive) and which may still fail (one of its negation).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import and_, or_

from casebook.guide.logic import Condition, Cube


@dataclass(slots=True)
class _Side:
    """One side of all conditions: the conditions themselves, or their negations.

    Attributes:
        whole: every cube's bit.
        ones: every bit of every field but the spare one.
        spare: the spare bits.
        kills: per variable and value: the cubes that it does not meet.
        known: what was worked out already, per variable and mask.
    """

    whole: int
    ones: int
    spare: int
    kills: list[list[int]]
    known: dict[tuple[int, int], int]

    def killed(self, var: int, mask: int) -> int:
        """Give the cubes that none of the values in `mask` meets."""
        got = self.known.get((var, mask))
        if got is None:
            values = [kill for bit, kill in enumerate(self.kills[var]) if mask >> bit & 1]
            got = self.known[var, mask] = reduce(and_, values)
        return got

    def alive(self, dead: int) -> int:
        """Give the spare bits of the fields in which a cube is not dead."""
        return ((self.whole & ~dead) + self.ones) & self.spare


class Truths:
    """Conditions made ready to be judged together; `bits` holds for each the bit that stands for it."""

    def __init__(self, conditions: Sequence[Condition], full: Sequence[int]) -> None:
        self._full = list(full)
        starts = []
        place = 0
        for condition in conditions:
            starts.append(place)
            place += max(len(condition.yes), len(condition.no)) + 1
        self.bits = [1 << end - 1 for end in [*starts[1:], place]] if conditions else []
        self._yes = self._side(starts, [c.yes for c in conditions])
        self._no = self._side(starts, [c.no for c in conditions])
        self._named = sorted({var for condition in conditions for var in condition.vars})

    def _side(self, starts: Sequence[int], groups: Iterable[Sequence[Cube]]) -> _Side:
        kills = [[0] * full.bit_length() for full in self._full]
        whole = 0
        for start, cubes in zip(starts, groups, strict=True):
            for place, cube in enumerate(cubes, start):
                whole |= 1 << place
                for var, mask in cube:
                    for value in range(len(kills[var])):
                        if not mask >> value & 1:
                            kills[var][value] |= 1 << place
        spare = sum(self.bits)
        ones = sum(bit - (1 << start) for bit, start in zip(self.bits, starts, strict=True))
        return _Side(whole, ones, spare, kills, {})

    def judge(self, box: Sequence[int]) -> tuple[int, int]:
        """Give the bits of the conditions that may hold in `box`, and of those that may fail."""
        yes = no = 0
        for var in self._named:
            mask = box[var]
            if mask != self._full[var]:
                yes |= self._yes.killed(var, mask)
                no |= self._no.killed(var, mask)
        return self._yes.alive(yes), self._no.alive(no)

    def if_settled(self, box: Sequence[int]) -> Iterator[tuple[int, list[tuple[int, int, int]]]]:
        """Judge `box` anew for every single value that a variable named here could still be settled on.

        Yields:
            A variable, and for each value left to it the value's place and what `judge` would give.
        """
        per_side = []
        for side in (self._yes, self._no):
            dead = [side.killed(var, box[var]) for var in self._named]
            before = [0]
            for one in dead:
                before.append(before[-1] | one)
            after = 0
            others = [0] * len(dead)
            for n in range(len(dead) - 1, -1, -1):
                others[n] = before[n] | after
                after |= dead[n]
            per_side.append(others)
        for n, var in enumerate(self._named):
            mask = box[var]
            if mask & mask - 1:
                yes, no = (others[n] for others in per_side)
                yield (
                    var,
                    [
                        (value, self._yes.alive(yes | kill), self._no.alive(no | kill_no))
                        for value, (kill, kill_no) in enumerate(
                            zip(self._yes.kills[var], self._no.kills[var], strict=True)
                        )
                        if mask >> value & 1
                    ],
                )


def joined(bits: Iterable[int]) -> int:
    """Put bits together."""
    return reduce(or_, bits, 0)
