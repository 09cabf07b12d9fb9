"""A band let into the outside of a body: groove, length of the band, wood left under it."""

from __future__ import annotations

from math import pi

from casebook.figures.formula import Formula, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.round_body import GEOMETRY, keep_below, keep_body_sane, wall_formula
from casebook.figures.shared_inputs import BODY, BORE, LEAST_WOOD, OFF_MIDDLE, SET_DOWN, WALL
from casebook.figures.wood_left import check_wall_agrees, check_wood_left
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_THICKNESS = Input(
    "thickness",
    "length",
    "thickness of the band, or of the lapped wire or thread",
    low="0.05 mm",
    high="5 mm",
)
_WIDTH = Input("width", "length", "width of the band", low="0.3 mm", high="30 mm")
_SIDE_ROOM = Input(
    "side_room", "length", "how much wider than the band the groove is",
    default="0.05 mm", low="0 mm", high="1 mm", measured=False,
)  # fmt: skip

_DEPTH = Formula(lambda thickness, set_down: thickness + set_down, rises="thickness set_down")
# The band lies set down under the surface: its middle circle is body - 2 set_down - thickness.
_LENGTH = Formula(
    lambda body, thickness, set_down: pi * (body - 2 * set_down - thickness),
    rises="body",
    falls="thickness set_down",
)
_BOTTOM = Formula(
    lambda body, thickness, set_down: body - 2 * (thickness + set_down),
    rises="body",
    falls="thickness set_down",
)


def _run(inputs: Inputs) -> Result:
    keep_body_sane(inputs)
    keep_below(inputs, "thickness", "wall")
    keep_below(inputs, "thickness", "body", 0.5)
    result = Result(WORKSHEET.id, inputs)
    wall = wall_formula(inputs)
    for name, formula, how in (
        ("groove_depth", _DEPTH, "thickness + set-down, a side"),
        ("groove_width", term("width") + term("side_room"), "width + room"),
        ("groove_bottom", _BOTTOM, "body - 2 x groove depth: diameter to turn to"),
        (
            "band_length",
            _LENGTH,
            "pi x (body - 2 x set-down - thickness), at the middle of the band's thickness",
        ),
        ("wood_left", wall - _DEPTH, "wall - groove depth"),
    ):
        result.figure(name, formula, how=how, source=GEOMETRY)
    check_wall_agrees(result)
    check_wood_left(
        result,
        "wood_under_band",
        _DEPTH,
        yes="enough wood is left under the band",
        no="too little wood is left under the band",
        ways_out=("a thinner band", "a band on the surface, not let in", "pins or glue alone"),
    )
    result.steps += _STEPS
    return result


_STEPS = (
    "Ring and posts in the way come off first; wood at rest, the crack closed before the groove is turned.",
    "Turn the groove slow, soft jaws, a steady at the far end; on a taper set the depth at the smaller end.",
    "Solder the band off the body, never on it, then draw it on by its last hundredths.",
    f"Set well under the surface a band can be filled over with shellac or wood ({COMMON_PRACTICE}).",
)

WORKSHEET = Worksheet(
    id="band_depth",
    title="Sunk band: groove, length of the band and the wood left under it",
    inputs=(BODY, BORE, WALL, OFF_MIDDLE, _THICKNESS, _WIDTH, _SIDE_ROOM, SET_DOWN, LEAST_WOOD),
    run=_run,
    example="body=30mm bore=15mm thickness=0.6mm width=3mm",
)
