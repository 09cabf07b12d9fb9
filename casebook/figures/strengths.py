"""Strengths of metals, woods and adhesives from the published table, as ranges in MPa for the formulas."""

from __future__ import annotations

from casebook.figures.inputs import Inputs, Span
from casebook.figures.worksheet import Checked
from casebook.tables import Row, load

METALS = ("brass", "nickel_silver", "silver", "steel", "cast_nickel_silver")
WOODS = ("grenadilla", "boxwood", "cocus", "rosewood", "maple", "ebony")
ADHESIVES = ("epoxy", "epoxy_5_minute", "cyanoacrylate", "animal_glue", "shellac")

# Worst last: a figure is checked no better than its least checked part.
TRUST: tuple[Checked, ...] = ("formula", "page", "package", "common practice", "memory")
# Section of the table of materials: the choice that names the row, and the number the formulas know it by.
_STRENGTHS = (
    ("tensile", "metal", "tensile_shank"),
    ("shear", "metal", "shear_shank"),
    ("shear", "bushing_metal", "shear_bushing"),
    ("adhesive", "adhesive", "shear_glue"),
    ("wood", "wood", "shear_wood"),
)


def derive_strengths(inputs: Inputs) -> dict[str, Row]:
    """Put the known strengths (MPa) among the numbers and give the rows they come from, by number."""
    table = load("materials")
    found: dict[str, Row] = {}
    for section, choice, number in _STRENGTHS:
        inputs.read_as[number] = choice
        row = next((row for row in table[section] if row["material"] == inputs.word(choice)), None)
        if row is not None:
            found[number] = row
            if "low_mpa" in row:
                inputs.derive(number, _range(row, "mpa"), choice)
    found["rolling_ratio"] = table["rolling"][0]
    inputs.derive("rolling_ratio", _range(found["rolling_ratio"], "ratio"), "wood")
    return found


def _range(row: Row, unit: str) -> Span:
    low, high = float(row.number(f"low_{unit}")), float(row.number(f"high_{unit}"))
    return Span(low, (low + high) / 2, high)


def trust(row: Row) -> Checked:
    """Give how far a row of the table was checked."""
    return next(state for state in TRUST if state == row["checked"])


def is_known(row: Row) -> bool:
    """Whether the table has a figure for it at all."""
    return "low_mpa" in row or "low_ratio" in row
