"""The drawer shelf by shelf: as the shop wrote it on one line, and what that is understood as."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from casebook.bench.desk import Desk
from casebook.bench.shop_drawer import ShelfOf
from casebook.bench.shop_keeping import NotKept
from casebook.figures.drawer import SHELVES
from casebook.figures.inputs import list_of
from casebook.quantity import Unit
from casebook.strict_yaml import BrokenFile, Mapping, Sequence, Text

# How a shelf may be written.
_EXAMPLES = {
    "taps": "2-56, 3-48, M2.5x0.45, 6BA",
    "dies": "3-48",
    "drills": "number set, 1 mm to 6 mm by 0.1 mm",
    "speeds": "120, 250, 500, 900",
}
_EXAMPLE = "2 mm to 10 mm by 0.5 mm, 1/4"


@dataclass(frozen=True, slots=True)
class ShelfLine:
    """One shelf.

    Attributes:
        name: the shelf.
        holds: what lies there, in words.
        written: as the shop wrote it, on one line; empty where it keeps none.
        pieces: what that is understood as.
        example: how it may be written.
        sensible: the sensible range of one piece; empty where there is none.
    """

    name: str
    holds: str
    written: str
    pieces: tuple[str, ...]
    example: str
    sensible: str


def shelves_of(desk: Desk) -> Iterator[ShelfLine]:
    """Give every shelf there may be, those the shop keeps none of among them."""
    written = desk.shop_file.written.get("drawer") if desk.shop_file else None
    drawer = desk.shop.drawer if desk.shop else {}
    for name, shelf in SHELVES.items():
        item = shelf.item
        line = _on_one_line(written.get(name)) if isinstance(written, Mapping) else drawer.get(name, "")
        pieces = tuple(list_of(drawer.get(name, "")))
        sensible = f"{item.low} to {item.high}" if item.low else ""
        yield ShelfLine(name, item.help, line, pieces, _EXAMPLES.get(name, _EXAMPLE), sensible)


def _on_one_line(node: object) -> str:
    if isinstance(node, Sequence):
        # A decimal comma wants another sign between two sizes.
        return ("; " if any("," in part for part in node) else ", ").join(" ".join(p.split()) for p in node)
    return " ".join(node.split()) if isinstance(node, Text) and not node.is_null else ""


def understood(name: str, typed: str, unit: Unit) -> tuple[str, ...]:
    """Give the pieces that a line for a shelf stands for.

    Args:
        name: the shelf.
        typed: the line.
        unit: of a bare size.

    Raises:
        NotKept: a piece that is not understood or makes no sense, by name, with what would be sensible.
    """
    if not typed.strip():
        return ()
    try:
        return tuple(list_of(ShelfOf(name, unit).read(Text(typed, 1, quoted=True), "", name)))
    except BrokenFile as error:
        raise NotKept(error.problem) from None


def words_for_pieces(pieces: tuple[str, ...]) -> str:
    """Word how many pieces there are, and the first and last of a longer row."""
    if len(pieces) < 2:
        return f"1 piece: {pieces[0]}" if pieces else "nothing"
    return f"{len(pieces)} pieces, {pieces[0]} ... {pieces[-1]}"
