"""The truth of many conditions at once, as bits of one large integer.

The cubes of a condition lie side by side in a field of bits with one spare bit above them, those of its
negation in another such field a block further up. For each variable and what is possible for it, one
integer holds the cubes it does not meet. Adding all ones to the cubes that are left carries into the spare
bit of every field in which there is one. So a few operations on integers tell for all conditions together
which may still hold (a cube of the condition is left) and which may still fail (one of its negation is).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from itertools import accumulate
from operator import and_, or_

from casebook.guide.logic import Condition, Cube


class _Killed(dict[int, int]):
    """What is possible for one variable -> the cubes it does not meet; worked out when first asked for."""

    def __init__(self, values: Sequence[int]) -> None:
        super().__init__()
        self.values_kill = values

    def __missing__(self, mask: int) -> int:
        kills = (kill for bit, kill in enumerate(self.values_kill) if mask >> bit & 1)
        self[mask] = dead = reduce(and_, kills)
        return dead


class Truths:
    """Conditions made ready to be judged together; `bits` holds for each the bit that stands for it."""

    def __init__(self, conditions: Sequence[Condition], full: Sequence[int]) -> None:
        widths = [max(len(condition.yes), len(condition.no)) + 1 for condition in conditions]
        ends = list(accumulate(widths))
        self.bits = [1 << end - 1 for end in ends]
        self._block = ends[-1] if ends else 0
        self._low = (1 << self._block) - 1
        self._spare = sum(self.bits) * ((1 << self._block) + 1)
        # The carry runs through a field's cubes only: below the spare bit, up from where the field begins.
        ones = sum(bit - (1 << end - width) for bit, end, width in zip(self.bits, ends, widths, strict=True))
        self._ones = ones * ((1 << self._block) + 1)
        self._whole = 0
        kills = {var: [0] * full[var].bit_length() for condition in conditions for var in condition.vars}
        for condition, end, width in zip(conditions, ends, widths, strict=True):
            self._lay(condition.yes, end - width, kills)
            self._lay(condition.no, self._block + end - width, kills)
        self._killed = [(var, _Killed(kills[var])) for var in sorted(kills)]

    def _lay(self, cubes: Sequence[Cube], start: int, kills: dict[int, list[int]]) -> None:
        for place, cube in enumerate(cubes, start):
            self._whole |= 1 << place
            for var, mask in cube:
                for value in range(len(kills[var])):
                    if not mask >> value & 1:
                        kills[var][value] |= 1 << place

    def _left(self, dead: int) -> tuple[int, int]:
        left = ((self._whole & ~dead) + self._ones) & self._spare
        return left & self._low, left >> self._block

    def judge(self, box: Sequence[int]) -> tuple[int, int]:
        """Give the bits of the conditions that may hold in `box`, and of those that may fail."""
        dead = 0
        for var, killed in self._killed:
            dead |= killed[box[var]]
        return self._left(dead)

    def if_settled(
        self, box: Sequence[int], among: Sequence[int] | None = None
    ) -> Iterator[tuple[int, Iterator[tuple[int, int, int]]]]:
        """Judge `box` anew for every single value that a variable named here could be settled on.

        Args:
            box: what is possible.
            among: the values to try; those that `box` leaves when not given.

        Yields:
            A variable with several values to try, and for each of them its place and what `judge` would give.
        """
        dead = [killed[box[var]] for var, killed in self._killed]
        before = list(accumulate(dead, or_, initial=0))
        after = list(accumulate(reversed(dead), or_, initial=0))[::-1]
        for n, (var, killed) in enumerate(self._killed):
            mask = box[var] if among is None else among[var]
            if mask & mask - 1:
                yield var, self._one_by_one(before[n] | after[n + 1], killed.values_kill, mask)

    def _one_by_one(
        self, others: int, values_kill: Sequence[int], mask: int
    ) -> Iterator[tuple[int, int, int]]:
        for value, kill in enumerate(values_kill):
            if mask >> value & 1:
                may_hold, may_fail = self._left(others | kill)
                yield value, may_hold, may_fail


def joined(bits: Iterable[int]) -> int:
    """Put bits together."""
    return reduce(or_, bits, 0)
