"""How much the wood moves between the air it lies in now and the air it will live in."""

from __future__ import annotations

from math import pi

from casebook.figures.formula import joined, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.moisture import (
    CLIMATE,
    EQUILIBRIUM_SOURCE,
    FREE_MOVEMENT,
    LEAST_MOISTURE,
    MOISTURE_NOW,
    MOISTURE_THEN,
    MOST_MOISTURE,
    SPECIES,
    change_of,
    coefficients,
    derive_movement,
    moved_figure,
    movement_row,
)
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_SIZE = Input(
    "size", "length", "size across the grain: a width, a body, a bore, a tenon", low="0.3 mm", high="300 mm"
)
_APART = Input(
    "apart", "percent", "how far moisture now and then may lie apart when it is glued",
    default="1", low="0", high="10", measured=False,
)  # fmt: skip

# |then - now| <= apart, as two margins that each input moves one way only.
_GLUE_NOW = (
    term("apart") + MOISTURE_NOW - MOISTURE_THEN,
    term("apart") + MOISTURE_THEN - MOISTURE_NOW,
)
_IN_RANGE = tuple(
    joined(within, sign, moisture)
    for moisture in (MOISTURE_NOW, MOISTURE_THEN)
    for within, sign in ((lambda m: m - LEAST_MOISTURE, "+"), (lambda m: MOST_MOISTURE - m, "-"))
)
# Figure: shares of the radial and the tangential strain of the size that it is made of, and the formula.
_MOVEMENTS = {
    "change_radial": (1.0, 0.0, "size x {radial:.3g} x change of moisture, along the rays"),
    "change_tangential": (0.0, 1.0, "size x {tangential:.3g} x change of moisture, along the rings"),
    "out_of_round": (
        -1.0, 1.0,
        "tangential - radial: how far a bore or tenon along the grain goes oval (a hole on a radius of the"
        " body: the whole tangential change)",
    ),
    "grip": (
        0.5, 0.5,
        "mean change of the diameter in a ring or round a liner, which the air does not move (positive: the"
        " wood grows)",
    ),
    "crack_opens": (
        pi, -pi,
        "pi x (radial - tangential): what a crack along the body would open if nothing held it (negative: it"
        " closes)",
    ),
}  # fmt: skip


def _run(inputs: Inputs) -> Result:
    result = Result(WORKSHEET.id, inputs)
    for name, formula in (("moisture_now", MOISTURE_NOW), ("moisture_then", MOISTURE_THEN)):
        result.figure(
            name,
            formula,
            unit="percent",
            how="moisture of wood long in that air, by its temperature and humidity",
            source=EQUILIBRIUM_SOURCE,
            checked="page",
        )
    derive_movement(inputs)
    _movements(result)
    _checks(result)
    result.steps += [*_direction(result), FREE_MOVEMENT, *_NOTES]
    return result


def _movements(result: Result) -> None:
    row, spans = movement_row(result), result.inputs.spans
    known = coefficients(row) if row else None
    if row and not known:
        for name in ("change_radial", "change_tangential"):
            moved_figure(result, name, term("size"), how="")
    if not known or "tangential_strain" not in spans:
        return
    radial, tangential = (spans[name].value for name in ("radial_strain", "tangential_strain"))
    for name, (along_rays, along_rings, how) in _MOVEMENTS.items():
        moves = change_of("size", along_rays * radial + along_rings * tangential)
        moved_figure(result, name, moves, how=how.format(radial=known[0], tangential=known[1]))


def _checks(result: Result) -> None:
    result.check(
        "glue_now",
        *_GLUE_NOW,
        unit="percent",
        yes="the wood lies in the moisture it will live in: it may be fitted and glued now",
        no="the wood is not at the moisture it will live in: glued now it will be under strain later",
        ways_out=(
            "rest it first in the air it will live in, until three weighings in a week agree",
            "use a yielding filler or a removable packing until it has come to rest",
        ),
    )
    result.check(
        "coefficient_holds",
        *_IN_RANGE,
        unit="percent",
        yes="both moistures lie between 6 and 14 percent, where the coefficients hold",
        no="a moisture lies outside 6 to 14 percent: the movement is only rough",
        ways_out=("take the movement as a direction, not as a size",),
    )


def _direction(result: Result) -> list[str]:
    strain = result.inputs.spans.get("tangential_strain")
    if strain is None or strain.value == 0:
        return []
    if strain.value > 0:
        return ["It will swell: tenons and rings go tighter, bores and holes grow, cracks close."]
    return ["It will shrink: rings and caps come loose, sockets grip liners, cracks open."]


_NOTES = (
    f"Rest wood 1 to 2 weeks at 45 to 55 percent humidity before it is measured ({COMMON_PRACTICE}).",
    "Metal moves little: 20 degrees make 25 mm of brass 0.010 mm larger. Along the grain wood hardly moves.",
)

WORKSHEET = Worksheet(
    id="wood_movement",
    title="Wood movement: moisture now and later, and what that does across the grain",
    inputs=(SPECIES, _SIZE, *CLIMATE, _APART),
    run=_run,
    example="species=grenadilla size=25mm temperature_now=70F humidity_now=35 temperature_then=21C"
    " humidity_then=60",
)
