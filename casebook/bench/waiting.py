"""What the repairs of one instrument wait for, and which waiting times can run together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from casebook.guide.pack import Wait
from casebook.quantity import show_time_span

_SAYS = {
    "cure": ("the glue", "cures"), "rest": ("the wood", "rests"),
    "dry": ("the place", "dries"), "part": ("the part", "is on order"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Waiting:
    """One damage's waiting time; `damage` is its number in the file."""

    damage: int
    wait: Wait


@dataclass(frozen=True, slots=True)
class Round:
    """Waiting times that run together; hours until the last of them is over."""

    waits: tuple[Waiting, ...]
    least: Fraction
    most: Fraction


@dataclass(frozen=True, slots=True)
class WaitingTimes:
    """The waiting over a whole instrument.

    Attributes:
        on_order: what is ordered at once, since it comes while everything else goes on.
        rounds: what waits after the hands are done, one round after the other.
        least: hours in all, at the least; at the most in `most`.
    """

    on_order: tuple[Waiting, ...]
    rounds: tuple[Round, ...]
    least: Fraction
    most: Fraction


def waiting_times(
    damages: Sequence[tuple[int, tuple[Wait, ...]]], after: Callable[[int, int], bool]
) -> WaitingTimes:
    """Put waiting times together that can run together.

    Args:
        damages: number and waits of every damage, in the order of work.
        after: whether the first of two damages can only begin when the second has waited.
    """
    on_order = tuple(Waiting(n, w) for n, waits in damages for w in waits if w.what == "part")
    placed: dict[int, int] = {}
    held: list[list[tuple[int, tuple[Wait, ...]]]] = []
    for number, waits in damages:
        own = tuple(w for w in waits if w.what != "part")
        if not own:
            continue
        place = max((placed[earlier] + 1 for earlier in placed if after(number, earlier)), default=0)
        placed[number] = place
        held.extend([] for _ in range(place + 1 - len(held)))
        held[place].append((number, own))
    rounds = tuple(_round(together) for together in held)
    return WaitingTimes(
        on_order,
        rounds,
        max([sum((r.least for r in rounds), Fraction(0)), *(w.wait.least for w in on_order)]),
        max([sum((r.most for r in rounds), Fraction(0)), *(w.wait.most for w in on_order)]),
    )


def _round(together: Sequence[tuple[int, tuple[Wait, ...]]]) -> Round:
    """Let damages wait side by side; what one damage waits for comes one after the other."""
    return Round(
        tuple(Waiting(number, wait) for number, own in together for wait in own),
        max(sum((wait.least for wait in own), Fraction(0)) for _, own in together),
        max(sum((wait.most for wait in own), Fraction(0)) for _, own in together),
    )


def wait_text(wait: Wait) -> str:
    """Word one waiting time: 'two-part epoxy cures 24 h to 3 days'."""
    usual, does = _SAYS[wait.what]
    return f"{wait.of or usual} {does} {span_text(wait.least, wait.most)}"


def span_text(least: Fraction, most: Fraction) -> str:
    """Word a least and a most time."""
    return show_time_span(least) if least == most else f"{show_time_span(least)} to {show_time_span(most)}"


def waiting_text(times: WaitingTimes) -> list[str]:
    """Word the waiting over an instrument, a line each."""
    lines = [f"order at once: damage {one.damage}, {wait_text(one.wait)}" for one in times.on_order]
    for place, one in enumerate(times.rounds):
        together = len({waiting.damage for waiting in one.waits}) > 1
        head = ("together" if together else "first") if place == 0 else f"then{' together' * together}"
        waits = "; ".join(f"damage {waiting.damage}, {wait_text(waiting.wait)}" for waiting in one.waits)
        lines.append(f"{head}: {waits}")
    if len(times.rounds) + len(times.on_order) > 1:
        lines.append(f"in all {span_text(times.least, times.most)}")
    return lines
