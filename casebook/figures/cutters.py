"""Cutters for a hole in wood: those in the drawer, or the sizes that can be bought."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from casebook.figures.inputs import list_of
from casebook.quantity import drills, read_length

_TENTH = Fraction(1, 10)
# Further up a size is no neighbour any more, mm.
_NEAR = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class Cutter:
    """A cutter by its name and its diameter in mm."""

    name: str
    diameter: float


@cache
def in_drawer(typed: str) -> tuple[Cutter, ...]:
    """Read the cutters of a drawer, smallest first; `typed` was accepted as a list of sizes before."""
    found = [Cutter(part, float(read_length(part).value)) for part in list_of(typed)]
    return tuple(sorted(found, key=lambda cutter: cutter.diameter))


def best_of(cutters: tuple[Cutter, ...], least: float, most: float) -> Cutter:
    """Choose the smallest from `least` to `most` mm, else the one that misses least."""
    return min(
        cutters,
        key=lambda c: (max(least - c.diameter, c.diameter - most, 0.0), c.diameter),
    )


def on_sale(least: float) -> list[Cutter]:
    """List the cutters of `least` mm or little more: metric by 0.1 mm, number, letter, fraction sizes."""
    exact = Fraction(least).limit_denominator(10**6)
    tenth = -(-exact // _TENTH) * _TENTH
    found = [Cutter(f"{float(tenth):.1f} mm", float(tenth))]
    for name in ("number", "letter", "fraction"):
        wider = [(size, drill) for drill, size in drills(name) if exact <= size <= exact + _NEAR]
        if wider:
            size, drill = min(wider)
            found.append(Cutter(drill, float(size)))
    return sorted(found, key=lambda cutter: cutter.diameter)
