"""Moisture of wood at rest in an air, and what a change of it does across the grain.

The air gives the moisture (equation of the Wood Handbook, made for Sitka spruce); the moisture gives a
strain, radial and tangential, by a species' coefficients. Wood held by a ring or by glue cannot move freely:
this is the free movement.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from casebook.figures.formula import Formula
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.worksheet import Result
from casebook.tables import Row, load

SPECIES = Input(
    "species", "choice", "wood of the body",
    choices=(
        "grenadilla", "boxwood", "rosewood", "ebony", "cocus", "maple", "red_maple", "apple", "beech",
        "birch", "cherry", "honeylocust", "persimmon", "walnut", "african_blackwood", "blackwood",
        "sugar_maple", "indian_rosewood", "coromandel_ebony", "cocuswood",
    ),
)  # fmt: skip
# Other names by which a wood of the table is asked for.
_SAME = {
    "african_blackwood": "grenadilla",
    "blackwood": "grenadilla",
    "sugar_maple": "maple",
    "indian_rosewood": "rosewood",
    "coromandel_ebony": "ebony",
    "cocuswood": "cocus",
}
# The printed table ends at 30 F and at 5 and 95 percent; warmer than 60 C no instrument is kept.
_COLDEST, _WARMEST = "-1.2C", "60C"
_DRIEST, _DAMPEST = "5", "95"
CLIMATE = (
    Input(
        "temperature_now", "temperature", "temperature where it lies now, as 21C or 70F",
        low=_COLDEST, high=_WARMEST, measured=False,
    ),
    Input(
        "humidity_now", "humidity", "relative humidity where it lies now, percent",
        low=_DRIEST, high=_DAMPEST, measured=False,
    ),
    Input(
        "temperature_then", "temperature", "temperature where it will live, as 21C or 70F",
        low=_COLDEST, high=_WARMEST, measured=False,
    ),
    Input(
        "humidity_then", "humidity", "relative humidity where it will live, percent",
        low=_DRIEST, high=_DAMPEST, measured=False,
    ),
)  # fmt: skip

EQUILIBRIUM_SOURCE = "Wood Handbook FPL-GTR-282, chapter 4, equation 4-5 (Sitka spruce)"
# The coefficients hold between these moistures, percent (Wood Handbook, chapter 13).
LEAST_MOISTURE, MOST_MOISTURE = 6.0, 14.0


def equilibrium(celsius: float, humidity: float) -> float:
    """Give the moisture, percent of dry weight, of wood at rest.

    Args:
        celsius: temperature of the air, degrees Celsius.
        humidity: relative humidity, percent.
    """
    w, k, k1, k2 = (c0 + c1 * celsius + c2 * celsius**2 for c0, c1, c2 in _coefficients())
    kh = k * humidity / 100
    layers = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + layers)


@cache
def _coefficients() -> tuple[tuple[float, float, float], ...]:
    return tuple(
        (
            float(row.number("constant_ratio")),
            float(row.number("linear_ratio")),
            float(row.number("square_ratio")),
        )
        for row in load("moisture")["equilibrium"]
    )


MOISTURE_NOW = Formula(
    lambda temperature_now, humidity_now: equilibrium(temperature_now, humidity_now), rises="humidity_now"
)
MOISTURE_THEN = Formula(
    lambda temperature_then, humidity_then: equilibrium(temperature_then, humidity_then),
    rises="humidity_then",
)


def species_row(species: str) -> Row:
    """Give the row of a wood: published coefficients, or the shrinkage that one is derived from."""
    table = load("moisture")
    name = _SAME.get(species, species)
    return next(row for part in ("movement", "shrinkage") for row in table[part] if row["species"] == name)


def coefficients(row: Row) -> tuple[float, float] | None:
    """Give the radial and the tangential change of size for each percent of moisture; None: nobody knows.

    From a shrinkage S in percent: 1 / (3000 / S - 20), which is the Wood Handbook's longer formula at 10
    percent of moisture, and gives its table for single species.
    """
    if "radial_per_percent" in row:
        return float(row.number("radial_per_percent")), float(row.number("tangential_per_percent"))
    if "radial_percent" in row:
        radial, tangential = (row.number(f"{way}_percent") for way in ("radial", "tangential"))
        return _from_shrinkage(radial), _from_shrinkage(tangential)
    return None


def _from_shrinkage(percent: Fraction) -> float:
    return float(1 / (3000 / percent - 20))


def derive_movement(inputs: Inputs) -> None:
    """Put ``radial_strain`` and ``tangential_strain`` (then against now, as a share) among the numbers.

    Nothing is put there while the wood or an air is missing, or where nobody knows how that wood moves.
    """
    for strain in ("radial_strain", "tangential_strain"):
        inputs.read_as[strain] = "species"
    now, then = MOISTURE_NOW(inputs.spans), MOISTURE_THEN(inputs.spans)
    species = inputs.word("species")
    moves = coefficients(species_row(species)) if species else None
    if now is None or then is None or moves is None:
        missing = [item.name for item in CLIMATE if item.name not in inputs]
        if species and missing:
            inputs.read_as |= {"radial_strain": missing[0], "tangential_strain": missing[0]}
        return
    for name, coefficient in zip(("radial_strain", "tangential_strain"), moves, strict=True):
        inputs.derive(name, Span.exact(coefficient * (then.value - now.value)), "species")


def change_of(size: str, strain: float) -> Formula:
    """Give the change, in mm, of the input `size` by a strain (a share, known without doubt)."""
    way = {"rises": size} if strain >= 0 else {"falls": size}
    return Formula(lambda **given: strain * given[size], names=(size,), **way)


def after(size: str, strain: str) -> Formula:
    """Give the size, in mm, of the input `size` once the wood has moved by the number called `strain`."""
    return Formula(
        lambda **given: given[size] * (1 + given[strain]), rises=f"{size} {strain}", names=(size, strain)
    )


def has_climate(inputs: Inputs) -> bool:
    """Whether a change of air was asked about, so that the fit after it is judged too."""
    return "species" in inputs or any(item.name in inputs for item in CLIMATE)


def movement_row(result: Result) -> Row | None:
    """Give the row of the wood that was named."""
    species = result.inputs.word("species")
    return species_row(species) if species else None


def moved_figure(result: Result, name: str, formula: Formula, *, how: str) -> None:
    """Keep a figure in mm of wood once it has moved; where nobody knows how that wood moves, say so.

    Outside the moistures in which the coefficients hold it is marked as unverified.
    """
    row, spans = movement_row(result), result.inputs.spans
    if row is None:
        return
    if coefficients(row) is None:
        result.unknown_figure(name, unit="mm", why=row.text("source"), source="none found")
        return
    moistures = (MOISTURE_NOW(spans), MOISTURE_THEN(spans))
    within = all(m is not None and LEAST_MOISTURE <= m.value <= MOST_MOISTURE for m in moistures)
    doubt = "" if "radial_per_percent" in row else "; coefficient derived from shrinkage"
    doubt += "" if within else "; outside 6 to 14 percent of moisture, so only rough"
    result.figure(
        name, formula, how=how + doubt, source=row.text("source"), checked=row.checked if within else "memory"
    )


FREE_MOVEMENT = (
    "Movement is about right in direction and rough size only: species and boards differ, and wood that dries"
    " holds 1 to 4 percent more moisture than wood that takes it up in the same air."
)
