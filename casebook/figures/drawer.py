"""What the shop has, by shelf, and the choice of a real size from it: the one way every worksheet chooses.

An input with a `shelf` is filled from the shop's drawer where nothing was typed for it. `choose` then takes
the piece that misses least, and says when a better one is made but not in the drawer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from casebook.figures.inputs import Input, list_of
from casebook.quantity import Thread, read_length, read_thread

if TYPE_CHECKING:
    from casebook.figures.worksheet import Result

# How badly a piece misses: the first number counts, the further ones part pieces that miss alike.
Misfit = Callable[["Piece"], tuple[float, ...]]
_NOISE = 1e-9


class Shelf(NamedTuple):
    """One shelf of the drawer.

    Attributes:
        item: the input that lists it: its kind (sizes, threads or numbers) and sensible range.
        lacks: what is said of a piece that is not there.
    """

    item: Input
    lacks: str = "not in your drawer"


def _shelf(name: str, holds: str, low: str, high: str) -> Shelf:
    return Shelf(Input(name, "sizes", holds, low=low, high=high, measured=False, shelf=name))


# Ranges are ours, to catch a slip of the unit.
SHELVES: Mapping[str, Shelf] = MappingProxyType({
    "taps": Shelf(Input("taps", "threads", "taps in the drawer, as 3-48, M2.5", shelf="taps")),
    "dies": Shelf(Input("dies", "threads", "dies in the drawer, as 3-48, M2.5", shelf="dies")),
    "drills": _shelf("drills", "twist drills in the drawer", "0.1 mm", "40 mm"),
    "cutters": _shelf(
        "cutters", "cutters in the drawer, as 5 mm, 5.5 mm, 13/64; without them any size is taken",
        "0.3 mm", "60 mm",
    ),
    "collets": _shelf("collets", "collets of the lathe", "0.3 mm", "60 mm"),
    "rod": _shelf("rod", "metal rod and bar in the drawer, by diameter", "0.3 mm", "60 mm"),
    "sheet": _shelf("sheet", "thicknesses of sheet cork in the drawer", "0.1 mm", "20 mm"),
    "pads": _shelf("pads", "pads in the drawer, by diameter", "3 mm", "60 mm"),
    "needles": _shelf("needles", "needle springs in the drawer, by diameter", "0.1 mm", "3 mm"),
    "leaves": _shelf("leaves", "flat spring stock in the drawer, by thickness", "0.05 mm", "2 mm"),
    "shims": _shelf("shims", "papers and foils in the drawer", "0.003 mm", "2 mm"),
    "speeds": Shelf(
        Input(
            "speeds", "numbers", "spindle speeds of the lathe, rpm",
            low="20", high="60000", measured=False, shelf="speeds",
        ),
        "not a speed of your lathe",
    ),
})  # fmt: skip


class Piece(NamedTuple):
    """One thing of a shelf: what the shop calls it, and its size in mm (a speed: rpm), exact."""

    name: str
    size: Fraction

    @property
    def mm(self) -> float:
        """The size as a float, for the formulas."""
        return float(self.size)


class Chosen(NamedTuple):
    """What was chosen for one input.

    Attributes:
        piece: what to take.
        kept: whether a drawer, or a list typed in its place, was there to choose from.
        says: one line where the drawer lacks a better one, else empty.
        does: whether it misses nothing that it is wanted for.
    """

    piece: Piece
    kept: bool
    says: str = ""
    does: bool = True


@cache
def pieces(typed: str) -> tuple[Piece, ...]:
    """Give the pieces of a list of sizes, smallest first; `typed` was accepted as such a list before."""
    found = [Piece(part, read_length(part).value) for part in list_of(typed)]
    return tuple(sorted(found, key=lambda piece: piece.size))


@cache
def numbers(typed: str) -> tuple[Piece, ...]:
    """Give the pieces of a list of plain numbers, smallest first, which was accepted as such before."""
    found = [Piece(f"{part} rpm", Fraction(part.replace(",", "."))) for part in list_of(typed)]
    return tuple(sorted(found, key=lambda piece: piece.size))


@cache
def threads(typed: str) -> tuple[Thread, ...]:
    """Give the threads of a list of designations, which was accepted as such before."""
    return tuple(read_thread(part) for part in list_of(typed))


def on_hand(result: Result, item: Input) -> tuple[Piece, ...] | None:
    """Give what the shop has for `item`: from its drawer or as typed; None where neither is there."""
    if item.name not in result.inputs.given and item.name not in result.inputs.from_drawer:
        return None
    read = numbers if item.kind == "numbers" else pieces
    return read(result.inputs.word(item.name)) or None


def choose(result: Result, item: Input, misfit: Misfit, made: Iterable[Piece] = ()) -> Chosen | None:
    """Choose a piece for `item`, and keep the choice with the result.

    Args:
        result: what is being worked out.
        item: the input that lists what is there.
        misfit: how badly a piece misses.
        made: what is made, where the input's default does not list it.
    """
    listed = tuple(made) or (pieces(item.default) if item.default else ())
    chosen = pick(item.shelf, misfit, listed, on_hand(result, item))
    if chosen is not None:
        result.chosen[item.name] = chosen
    return chosen


def pick(shelf: str, misfit: Misfit, made: Iterable[Piece], have: Iterable[Piece] | None) -> Chosen | None:
    """Choose the piece that misses least, of those there are, else of those that are made.

    Args:
        shelf: where it lies in the drawer.
        misfit: how badly a piece misses; of two alike the smaller one is taken.
        made: what is made.
        have: what the shop has; None where it keeps no list.

    Returns:
        The choice; None where there is nothing to choose from.
    """
    best = min(made, key=lambda piece: (*misfit(piece), piece.size), default=None)
    if have is None:
        return None if best is None else Chosen(best, kept=False, does=misfit(best)[0] <= _NOISE)
    taken = min(have, key=lambda piece: (*misfit(piece), piece.size))
    says = ""
    if best is not None and misfit(best)[0] < misfit(taken)[0] - _NOISE:
        says = f"{best.name} is {SHELVES[shelf].lacks}; the nearest is {taken.name}"
    return Chosen(taken, kept=True, says=says, does=misfit(taken)[0] <= _NOISE)


def choose_thread(result: Result, item: Input, thread: Thread | None, otherwise: str) -> None:
    """Say whether the drawer has the tap or die of a thread; a near one is no substitute.

    Args:
        result: what is being worked out.
        item: the input that lists taps or dies.
        thread: the thread; None where it is not known yet.
        otherwise: what to do without.
    """
    have = threads(result.inputs.word(item.name))
    if thread is None or not have:
        return

    def apart(other: Thread) -> tuple[float, float]:
        return float(abs(other.major - thread.major)), float(abs(other.pitch - thread.pitch))

    nearest = min(have, key=apart)
    one = item.name.removesuffix("s")
    says = ""
    if apart(nearest) != (0, 0) or nearest.angle != thread.angle:
        says = (
            f"the {one} {thread.designation} is not in your drawer; the nearest is {nearest.designation},"
            f" which is no substitute: {otherwise}"
        )
    piece = nearest if not says else thread
    result.chosen[item.name] = Chosen(Piece(piece.designation, piece.major), kept=True, says=says)


def lacking(result: Result) -> Iterator[str]:
    """Give what the drawer lacks for this result, a line each."""
    yield from (chosen.says for chosen in result.chosen.values() if chosen.says)
