"""What the repairs of one instrument wait for, and which waiting times can run together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from casebook.guide.pack import Wait
from casebook.quantity import show_time_span

_SAYS = {
    "cure": ("the glue", "cures"), "rest": ("the wood", "rests"),
    "dry": ("the place", "dries"), "part": ("the part", "is on order"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Waits:
    """What one damage waits for, one after the other.

    Attributes:
        damage: its number in the file.
        settled: whether the repair that leads there fits, or is only the likeliest so far.
    """

    damage: int
    settled: bool
    waits: tuple[Wait, ...]

    @property
    def least(self) -> Fraction:
        """Hours at the least."""
        return sum((wait.least for wait in self.waits), Fraction(0))

    @property
    def most(self) -> Fraction:
        """Hours at the most."""
        return sum((wait.most for wait in self.waits), Fraction(0))


@dataclass(frozen=True, slots=True)
class Round:
    """Damages that wait side by side."""

    damages: tuple[Waits, ...]

    @property
    def least(self) -> Fraction:
        """Hours until the last of them is over, at the least."""
        return max(one.least for one in self.damages)

    @property
    def most(self) -> Fraction:
        """The same at the most."""
        return max(one.most for one in self.damages)


@dataclass(frozen=True, slots=True)
class WaitingTimes:
    """The waiting over a whole instrument.

    Attributes:
        on_order: what is ordered at once, since it comes while everything else goes on.
        rounds: what waits after the hands are done, one round after the other.
    """

    on_order: tuple[Waits, ...]
    rounds: tuple[Round, ...]

    @property
    def least(self) -> Fraction:
        """Hours in all, at the least."""
        in_turn = sum((one.least for one in self.rounds), Fraction(0))
        return max([in_turn, *(one.least for one in self.on_order)])

    @property
    def most(self) -> Fraction:
        """Hours in all, at the most."""
        in_turn = sum((one.most for one in self.rounds), Fraction(0))
        return max([in_turn, *(one.most for one in self.on_order)])


def waiting_times(damages: Sequence[Waits], after: Callable[[int, int], bool]) -> WaitingTimes:
    """Put waiting times together that can run together.

    Args:
        damages: the waits of every damage, in the order of work.
        after: whether the first of two damages can only begin when the second has waited.
    """
    placed: dict[int, int] = {}
    held: list[list[Waits]] = []
    for one in damages:
        own = replace(one, waits=tuple(wait for wait in one.waits if wait.what != "part"))
        if own.waits:
            place = max((placed[past] + 1 for past in placed if after(one.damage, past)), default=0)
            placed[one.damage] = place
            held.extend([] for _ in range(place + 1 - len(held)))
            held[place].append(own)
    ordered = (replace(one, waits=tuple(w for w in one.waits if w.what == "part")) for one in damages)
    return WaitingTimes(tuple(one for one in ordered if one.waits), tuple(Round(tuple(h)) for h in held))


def wait_text(wait: Wait) -> str:
    """Word one waiting time: 'two-part epoxy cures 24 h to 3 days'."""
    usual, does = _SAYS[wait.what]
    return f"{wait.of or usual} {does} {span_text(wait.least, wait.most)}"


def span_text(least: Fraction, most: Fraction) -> str:
    """Word a least and a most time."""
    return show_time_span(least) if least == most else f"{show_time_span(least)} to {show_time_span(most)}"


def waiting_text(times: WaitingTimes) -> list[str]:
    """Word the waiting over an instrument, a line each."""
    lines = [f"order at once: {_damage_text(one)}" for one in times.on_order]
    for place, one in enumerate(times.rounds):
        together = len(one.damages) > 1
        head = ("together" if together else "first") if place == 0 else f"then{' together' * together}"
        lines.append(f"{head}: {'; '.join(_damage_text(waits) for waits in one.damages)}")
    if len(times.rounds) + len(times.on_order) > 1:
        lines.append(f"in all {span_text(times.least, times.most)}")
    return lines


def _damage_text(one: Waits) -> str:
    doubt = "" if one.settled else ", if it comes to that"
    return f"damage {one.damage}{doubt}: {', then '.join(wait_text(wait) for wait in one.waits)}"
