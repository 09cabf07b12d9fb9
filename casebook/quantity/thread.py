"""A screw thread: its designation, its sizes, and the standard ones by table."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import pi
from typing import Literal, NamedTuple

from casebook.quantity.size import INCH
from casebook.tables import Checked, Row, load

System = Literal["unified", "metric", "ba", "whitworth", "other"]


class Thread(NamedTuple):
    """One screw thread. All diameters and lengths are exact, in mm.

    Attributes:
        designation: how it is called: ``3-48``, ``M2.5x0.45``, ``6BA``, ``1/8-40 BSW``, ``2.8 mm x 48 tpi``.
        system: unified, metric, ba, whitworth; other for a major diameter by a pitch that nobody named.
        series: coarse, fine, UNC, UNF ... as its table calls it; empty for none.
        major: major diameter.
        pitch: pitch.
        angle: included flank angle in degrees.
        pitch_diameter: basic pitch (effective) diameter.
        minor_diameter: basic minor diameter, of the nut for the 60 degree forms.
        full_depth: what 100 percent of thread takes off the major diameter.
        area_pitches: how many pitches the circle of the stress area is smaller than the major diameter;
            None where the mean of pitch and minor diameter is taken instead.
        source: the standard or table.
        checked: how far that was checked (memory: unverified).
    """

    designation: str
    system: System
    series: str
    major: Fraction
    pitch: Fraction
    angle: Fraction
    pitch_diameter: Fraction
    minor_diameter: Fraction
    full_depth: Fraction
    area_pitches: Fraction | None
    source: str
    checked: Checked

    @property
    def stress_area(self) -> float:
        """Tensile stress area in mm2, by the formula of the thread's own standard."""
        if self.area_pitches is None:
            across = (self.pitch_diameter + self.minor_diameter) / 2
        else:
            across = self.major - self.area_pitches * self.pitch
        return pi / 4 * float(across) ** 2

    @property
    def angle_words(self) -> str:
        """The form in words: ``60 degree form``."""
        return f"{float(self.angle):g} degree form"

    def hole(self, percent: Fraction) -> Fraction:
        """Give the diameter in mm of the hole that leaves `percent` of thread."""
        return self.major - self.full_depth * percent / 100

    def percent(self, hole: Fraction) -> Fraction:
        """Give the percent of thread that a hole of so many mm leaves (below 0: none)."""
        return (self.major - hole) / self.full_depth * 100


def make(
    designation: str,
    system: System,
    major: Fraction,
    pitch: Fraction,
    *,
    series: str = "",
    source: str = "",
    checked: Checked | None = None,
    rounded: Row | None = None,
) -> Thread:
    """Make a thread of the form of its system; `rounded` gives diameters that the standard itself rounds."""
    form = next(row for row in load("threads")["forms"] if row["form"] == system)
    pitch_diameter = major - form.number("pitch_diameter_pitches") * pitch
    minor_diameter = major - form.number("minor_diameter_pitches") * pitch
    if rounded is not None:
        pitch_diameter = rounded.number("pitch_diameter_mm")
        minor_diameter = rounded.number("minor_diameter_mm")
    area = form.get("area_pitches")
    return Thread(
        designation=designation,
        system=system,
        series=series,
        major=major,
        pitch=pitch,
        angle=form.number("angle_deg"),
        pitch_diameter=pitch_diameter,
        minor_diameter=minor_diameter,
        full_depth=form.number("full_pitches") * pitch,
        area_pitches=area if isinstance(area, Fraction) else None,
        source=source or form.text("source"),
        checked=checked or form.checked,
    )


_SYSTEM_OF: dict[str, System] = {
    "unified": "unified", "metric": "metric", "ba": "ba", "whitworth": "whitworth",
    "old_unified": "unified", "old_metric": "metric",
}  # fmt: skip


def _from_row(row: Row, system: System) -> Thread:
    inches = "major_in" in row
    return make(
        row.text("designation"),
        system,
        row.number("major_in") * INCH if inches else row.number("major_mm"),
        INCH / row.number("tpi") if inches else row.number("pitch_mm"),
        series=str(row.get("series", "")),
        source=row.text("source"),
        checked=row.checked,
        rounded=row if "minor_diameter_mm" in row else None,
    )


@cache
def _rows() -> dict[str, tuple[Row, System]]:
    table = load("threads")
    return {
        row.text("designation"): (row, system) for name, system in _SYSTEM_OF.items() for row in table[name]
    }


@cache
def standard_thread(designation: str) -> Thread | None:
    """Give the thread of the tables that is called so, or None."""
    found = _rows().get(designation)
    return _from_row(*found) if found else None


@cache
def standard_threads() -> dict[str, Thread]:
    """Give every thread of the tables, by its designation."""
    return {name: thread for name in _rows() if (thread := standard_thread(name)) is not None}


def number_size(size: str) -> Fraction:
    """Give the major diameter in mm of a numbered unified screw: ``3``, ``10``, ``00``."""
    row = load("threads")["number_sizes"][0]
    steps = int(size) if size.strip("0") or size == "0" else 1 - len(size)
    return (row.number("zero_in") + row.number("step_in") * steps) * INCH
