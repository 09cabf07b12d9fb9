"""Cutters for a hole in wood: the one to take from the drawer, and the sizes that can be bought."""

from __future__ import annotations

from bisect import bisect_left
from fractions import Fraction
from functools import cache

from casebook.figures.drawer import Misfit, Piece, choose, on_hand
from casebook.figures.shared_inputs import CUTTERS
from casebook.figures.worksheet import Result
from casebook.quantity import drills

_TENTH = Fraction(1, 10)
# Further up a size is no neighbour any more, mm.
_NEAR = Fraction(1, 2)
_NOISE = 1e-9
_SHOWN = 6


def between(least: float, most: float) -> Misfit:
    """Prefer the smallest from `least` to `most` mm, then the one that misses least."""
    return lambda piece: (outside(piece, least, most),)


def largest(least: float, most: float) -> Misfit:
    """Prefer the largest from `least` to `most` mm, then the one that misses least."""
    return lambda piece: (outside(piece, least, most), -piece.mm)


def outside(piece: Piece, least: float, most: float) -> float:
    """Give how far a piece lies outside `least` to `most`, in mm; 0 within."""
    off = max(least - piece.mm, piece.mm - most)
    return off if off > _NOISE else 0.0


def on_sale(least: float) -> list[Piece]:
    """List the cutters of `least` mm or little more: metric by 0.1 mm, number, letter, fraction sizes."""
    exact = Fraction(least).limit_denominator(10**6)
    tenth = -(-exact // _TENTH) * _TENTH
    found = [Piece(f"{float(tenth):.1f} mm", tenth)]
    for name in ("number", "letter", "fraction"):
        made = _by_size(name)
        at = bisect_left(made, exact, key=lambda piece: piece.size)
        if at < len(made) and made[at].size <= exact + _NEAR:
            found.append(made[at])
    return sorted(found, key=lambda piece: piece.size)


@cache
def _by_size(name: str) -> list[Piece]:
    mark = "letter " if name == "letter" else ""
    return sorted(
        (Piece(f"{mark}{drill}", size) for drill, size in drills(name)), key=lambda piece: piece.size
    )


def choose_cutter(result: Result, least: float, most: float, best: float | None = None) -> float | None:
    """Choose a cutter from `least` to `most` mm, keep the choice, list what was near.

    Args:
        result: what is being worked out.
        least: the least diameter that does, in mm.
        most: the largest that does.
        best: the diameter to come near to; the least where there is none.

    Returns:
        Its diameter in mm where the drawer has one that does; else None.
    """
    best = least if best is None else best
    made = on_sale(best)

    def misfit(piece: Piece) -> tuple[float, ...]:
        return outside(piece, least, most), abs(piece.mm - best)

    chosen = choose(result, CUTTERS, misfit, made)
    if chosen is None:
        return None
    taken = chosen.piece if chosen.kept and chosen.does else None
    near = sorted(on_hand(result, CUTTERS) or made, key=misfit)[:_SHOWN]
    for piece in sorted(near, key=lambda piece: piece.size):
        does = "no" if misfit(piece)[0] else "yes"
        result.rows.append({
            "cutter": piece.name, "diameter": piece.mm, "does": does, "chosen": piece == taken,
        })  # fmt: skip
    return None if taken is None else taken.mm
