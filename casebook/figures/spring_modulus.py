"""How stiff the material of a spring is; wire is less stiff the thicker it is."""

from __future__ import annotations

from math import inf

from casebook.figures.inputs import Span
from casebook.quantity import INCH
from casebook.tables import Row, load


def modulus_of(material: str, thick: Span | None) -> tuple[Span, Row]:
    """Give the modulus of a material, GPa, and its row: for wire of `thick` mm, or of any thickness."""
    rows = [row for row in load("springs")["modulus"] if row["material"] == material]
    if thick is None:
        return _around(rows, rows), rows[0]
    upto = [float(row.number("over_in") * INCH) for row in rows[1:]] + [inf]
    held = [row for row, most in zip(rows, upto, strict=True) if thick.value <= most][:1]
    meant = [
        row
        for row, most in zip(rows, upto, strict=True)
        if thick.low <= most and row.number("over_in") * INCH < thick.high
    ]
    return _around(held, meant), held[0]


def _around(held: list[Row], meant: list[Row]) -> Span:
    """Give the middle of the rows that hold, with the bounds of all that may be meant, GPa."""
    inner, outer = (
        [float(row.number(f"{end}_gpa")) for row in rows for end in ("low", "high")] for rows in (held, meant)
    )
    return Span(min(outer), (min(inner) + max(inner)) / 2, max(outer))
