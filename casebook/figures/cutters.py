"""Cutters for a hole in wood: the one to take from the drawer, and the sizes that can be bought."""

from __future__ import annotations

from fractions import Fraction

from casebook.figures.drawer import Misfit, Piece
from casebook.quantity import drills

_TENTH = Fraction(1, 10)
# Further up a size is no neighbour any more, mm.
_NEAR = Fraction(1, 2)


def between(least: float, most: float) -> Misfit:
    """Prefer the smallest from `least` to `most` mm, then the one that misses least."""
    return lambda piece: (max(least - piece.mm, piece.mm - most, 0.0),)


def on_sale(least: float) -> list[Piece]:
    """List the cutters of `least` mm or little more: metric by 0.1 mm, number, letter, fraction sizes."""
    exact = Fraction(least).limit_denominator(10**6)
    tenth = -(-exact // _TENTH) * _TENTH
    found = [Piece(f"{float(tenth):.1f} mm", tenth)]
    for name in ("number", "letter", "fraction"):
        wider = [(size, drill) for drill, size in drills(name) if exact <= size <= exact + _NEAR]
        if wider:
            size, drill = min(wider)
            found.append(Piece(drill, size))
    return sorted(found, key=lambda piece: piece.size)
