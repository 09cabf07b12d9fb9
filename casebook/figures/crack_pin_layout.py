"""Pins across a crack: depth, length, how many and where; and how far closing it strains the wood."""

from __future__ import annotations

from math import ceil, pi, sqrt

from casebook.figures.crack_pin_stock import choose_pin, choose_tools
from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.round_body import GEOMETRY, keep_below, keep_body_sane, wall_formula
from casebook.figures.section import pin_section
from casebook.figures.shared_inputs import (
    BODY,
    BORE,
    DIES,
    DRILLS,
    OFF_MIDDLE,
    ROD,
    WALL,
)
from casebook.figures.wood_left import check_wall_agrees
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_PIN = Input("pin", "length", "diameter of the pin, over its thread", low="0.2 mm", high="5 mm")
_THREAD = Input("thread", "thread", "thread cut on the pin, as 0-80 or M1.2; a plain pin has none")
_COVER = Input(
    "cover", "length", "least wood over the pin and under it",
    default="0.8 mm", low="0 mm", high="10 mm", measured=False,
)  # fmt: skip
_DEPTH = Input(
    "depth",
    "length",
    "depth of the pin's middle under the high line; else midway",
    low="0.2 mm",
    high="60 mm",
    measured=False,
)
_CRACK = Input("crack", "length", "length of the crack between its marked ends", low="1 mm", high="600 mm")
_WIDTH = Input("width", "length", "width of the crack at its widest", low="0 mm", high="6 mm")
_SPACING = Input(
    "spacing", "length", "most distance from pin to pin",
    default="12 mm", low="3 mm", high="60 mm", measured=False,
)  # fmt: skip
_BEYOND = Input(
    "beyond", "length", "how far past each end of the crack the first pin goes",
    default="8 mm", low="0 mm", high="40 mm", measured=False,
)  # fmt: skip
_LEAST_WALL = Input(
    "least_wall", "length", "least wall to be pinned at all",
    default="3 mm", low="0 mm", high="30 mm", measured=False,
)  # fmt: skip
_PINS_IN_WALL = Input(
    "pins_in_wall", "number", "how many times the pin the wall is to be thick",
    default="3", low="1", high="10", measured=False,
)  # fmt: skip
_MOST_STRAIN = Input(
    "most_strain", "number", "most strain, percent, by which a crack is drawn shut",
    default="0.5", low="0.01", high="5", measured=False,
)  # fmt: skip

_DEPTH_MIN = Formula(lambda pin, cover: pin / 2 + cover, rises="pin cover")
_CHORD = Formula(lambda body, depth: 2 * sqrt((body / 2) ** 2 - (body / 2 - depth) ** 2), rises="body depth")
# Midway in the wall the depth moves with body and bore: 2 sqrt(R^2 - ((R + r) / 2)^2).
_CHORD_MIDWAY = Formula(
    lambda body, bore: 2 * sqrt((body / 2) ** 2 - ((body + bore) / 4) ** 2), rises="body", falls="bore"
)
_CHORD_IN_WALL = Formula(
    lambda body, wall: 2 * sqrt((body / 2) ** 2 - ((body - wall) / 2) ** 2), rises="body wall"
)
# Rounded up, but for what is a float's own noise.
_COUNT = Formula(
    lambda crack, beyond, spacing: ceil((crack + 2 * beyond) / spacing - 1e-9) + 1,
    rises="crack beyond",
    falls="spacing",
)
_STRAIN = Formula(lambda width, body: 100 * width / (pi * body), rises="width", falls="body")
_STRAIN_SPARE = Formula(
    lambda width, body, most_strain: most_strain / 100 * pi * body - width,
    rises="body most_strain",
    falls="width",
)
_TIMES_PIN = Formula(lambda pins_in_wall, pin: pins_in_wall * pin, rises="pins_in_wall pin")


def _run(inputs: Inputs) -> Result:
    keep_body_sane(inputs)
    keep_below(inputs, "depth", "body", 0.5)
    result = Result(WORKSHEET.id, inputs)
    wall = wall_formula(inputs)
    result.figure(
        "thickest_pin",
        _thickest(wall),
        how="the lesser of wall / pins in the wall and wall - 2 x cover",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    choose_pin(result, _thickest(wall_formula(inputs, doubted=True)))
    result.figure("depth_min", _DEPTH_MIN, how="pin / 2 + cover, under the high line", source=GEOMETRY)
    result.figure(
        "depth_max", wall - _DEPTH_MIN, how="R - r - pin / 2 - cover, under the high line", source=GEOMETRY
    )
    if "depth" in inputs:
        chord, how = _CHORD, "2 sqrt(R^2 - (R - depth)^2): straight across, surface to surface"
    elif "wall" in inputs:
        chord, how = _CHORD_IN_WALL, "2 sqrt(R^2 - (R - wall / 2)^2): straight across, midway in the wall"
    else:
        chord, how = _CHORD_MIDWAY, "2 sqrt(R^2 - ((R + r) / 2)^2): straight across, midway in the wall"
    result.figure("pin_length", chord, how=how, source=GEOMETRY)
    result.figure(
        "count",
        _COUNT,
        unit="count",
        how="(crack + 2 x beyond) / spacing, rounded up, and one more",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    result.figure(
        "strain_to_close",
        _STRAIN,
        unit="percent",
        how="width / (pi x body): strain to close it",
        source=GEOMETRY,
    )
    check_wall_agrees(result)
    _checks(result)
    _places(result)
    choose_tools(result)
    if result.checks["pin_fits"].holds != "no":
        result.drawing = pin_section(result)
    result.steps += _STEPS
    return result


def _thickest(wall: Formula) -> Formula:
    return joined(
        lambda thick, cover, pins: min(thick / pins, thick - 2 * cover),
        "+--",
        wall,
        term("cover"),
        term("pins_in_wall"),
    )


def _checks(result: Result) -> None:
    inputs = result.inputs
    wall = wall_formula(inputs, doubted=True)
    result.check(
        "pin_fits",
        wall - _DEPTH_MIN - _DEPTH_MIN,
        yes="there is a depth at which the pin has wood enough over it and under it",
        no="no pin fits: the wall is thinner than the pin and its cover on both sides",
        ways_out=("a thinner pin", "a band let into the outside", "glue or a spline alone, no metal"),
    )
    if "depth" in inputs:
        result.check(
            "depth_right",
            term("depth") - _DEPTH_MIN,
            wall - _DEPTH_MIN - term("depth"),
            yes="at this depth the pin has wood enough over it and under it",
            no="at this depth the pin comes too near the surface or the bore",
            ways_out=("drill midway between the least and the most depth", "a thinner pin"),
        )
    result.check(
        "wall_enough",
        wall - term("least_wall"),
        wall - _TIMES_PIN,
        yes="the wall is thick enough to be pinned",
        no="the wall is too thin to be pinned: a pin would split it or show",
        ways_out=("a band or whipping", "glue alone, at rest", "a spline of like wood"),
    )
    result.check(
        "closes_without_force",
        _STRAIN_SPARE,
        yes="the crack is narrow enough to be drawn shut, if the wood is at rest",
        no="the crack is too wide to be drawn shut: forced, it opens beside the pins",
        ways_out=("fill it with a spline of like wood, and pin over it", "rest it longer in moister air"),
    )


def _places(result: Result) -> None:
    """Spread the pins evenly from one end to the other, alternating in direction."""
    spans = result.inputs.spans
    figure = result.figures.get("count")
    if figure is None or figure.value is None or result.checks["pin_fits"].holds == "no":
        return
    count, beyond = round(figure.value), spans["beyond"].value
    apart = (spans["crack"].value + 2 * beyond) / (count - 1)
    for number in range(count):
        result.rows.append({
            "pin": number + 1,
            "from_end_length": round(number * apart - beyond, 2),
            "drilled_from": "left" if number % 2 == 0 else "right",
        })  # fmt: skip


_STEPS = (
    "Map both ends by side light and a breath of moisture; a ring or post over it comes off first.",
    "Mark the places from the crack's end; minus lies before it. Keep clear of tone holes and posts.",
    "Drill straight across in a jig, to the depth figured; alternate the side you drill from.",
    "Turn the pin in waxed with thin cyanoacrylate or shellac, cut it short and fill over the end.",
    "Dust, solvents and glue vapour: extraction, mask and gloves, as the data sheets and local rules say.",
)

WORKSHEET = Worksheet(
    id="crack_pin_layout",
    title="Crack pins: depth, length, number and places; strain to close the crack",
    inputs=(
        BODY, BORE, WALL, _PIN, _COVER, _DEPTH, _CRACK, _WIDTH, _SPACING, _BEYOND, _LEAST_WALL, _PINS_IN_WALL,
        _MOST_STRAIN, OFF_MIDDLE, _THREAD, ROD, DIES, DRILLS,
    ),
    run=_run,
    example="body=27mm bore=14.6mm pin=1.2mm crack=45mm width=0.1mm",
)  # fmt: skip
