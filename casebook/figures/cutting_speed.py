"""Cutting speed to spindle speed: rpm = 1000 V / (pi D), V in m/min and D in mm."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor, log10, pi
from typing import NamedTuple

from casebook.figures.drawer import Misfit, Piece, pick
from casebook.figures.formula import Formula
from casebook.tables import Checked, load

SPINDLE_SPEED = Formula(
    lambda surface_speed, diameter: 1000 * surface_speed / (pi * diameter),
    rises="surface_speed",
    falls="diameter",
)
_FOOT_M = 0.3048

METALS = ("brass", "nickel_silver", "silver", "steel")
# A slow cap for a tap under power, so that the hand is quicker than the tap (common practice, no source).
TAPPING_RPM = 60


class Speed(NamedTuple):
    """A range of surface speeds in m/min, with where it is from and how far that was checked."""

    low: float
    high: float
    source: str
    checked: Checked

    def rpm(self, diameter: float) -> tuple[int, int]:
        """Give the spindle speeds, low and high, for a diameter in mm, to two figures."""
        return tuple(  # type: ignore[return-value]
            _two_figures(SPINDLE_SPEED.compute(surface_speed=v, diameter=diameter))
            for v in (self.low, self.high)
        )


def surface_speed(material: str, operation: str) -> Speed:
    """Give the published cutting speed for high-speed steel.

    Args:
        material: brass, nickel_silver, silver, steel or wood.
        operation: turn or drill.

    Raises:
        KeyError: no figure for that.
    """
    for row in load("speeds")[operation]:
        if row["material"] == material:
            low, high = (float(row.number(key)) * _FOOT_M for key in ("low_ft_min", "high_ft_min"))
            return Speed(low, high, row.text("source"), row.checked)
    raise KeyError(material)


def within(low: float, high: float) -> Misfit:
    """Prefer a spindle speed from `low` to `high` rpm, the fastest of them; too slow before too fast."""
    return lambda piece: (max(low - piece.mm, 2 * (piece.mm - high), 0.0) / high, -piece.mm)


def speed_words(speed: Speed, diameter: float, have: Iterable[Piece] | None) -> str:
    """Word the spindle speed for a diameter in mm, with the lathe's own speed where those are known."""
    low, high = speed.rpm(diameter)
    doubt = " (unverified)" if speed.checked == "memory" else ""
    own = pick("speeds", within(low, high), (), have)
    here = f"; on your lathe {own.piece.name}" if own else ""
    return f"about {low} to {high} rpm{doubt}{here}"


def _two_figures(number: float) -> int:
    step: int = 10 ** max(floor(log10(number)) - 1, 0)
    return round(number / step) * step
