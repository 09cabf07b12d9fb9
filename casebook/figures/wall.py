"""The wall at a place of the body: as measured, or from body and bore, and whether the two agree."""

from __future__ import annotations

from casebook.figures.formula import term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.round_body import GEOMETRY, WALL_COMPUTED, keep_below, wall_formula
from casebook.figures.shared_inputs import BODY, BORE, LEAST_WOOD, OFF_MIDDLE, WALL
from casebook.figures.wood_left import check_agrees
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_MEASURED = Input("measured", "length", WALL.help, low=WALL.low, high=WALL.high)
_LEAST = Input(
    "least", "length", LEAST_WOOD.help, default=LEAST_WOOD.default, low=LEAST_WOOD.low, high=LEAST_WOOD.high,
    measured=False,
)  # fmt: skip

_OFF = f"{COMMON_PRACTICE}: old bores run off the middle"


def _run(inputs: Inputs) -> Result:
    keep_below(inputs, "bore", "body")
    keep_below(inputs, "measured", "body", 0.5)
    inputs.read_as["wall"] = "measured"
    result = Result(WORKSHEET.id, inputs)
    result.figure("computed", WALL_COMPUTED, how="(body - bore) / 2", source=GEOMETRY)
    if "measured" in inputs:
        wall = term("measured")
        result.figure("wall", wall, how="as measured", source="the reading")
    else:
        wall = wall_formula(inputs, doubted=True, read_as="measured")
        result.figure(
            "wall",
            wall,
            how="(body - bore) / 2, give or take how far the bore may run off the middle",
            source=_OFF,
            checked="common practice",
        )
    check_agrees(result, "agrees", "measured")
    result.check(
        "wall_enough",
        wall - term("least"),
        yes="the wall is thicker than the least wood to be left",
        no="the whole wall is thinner than the least wood to be left: cut nothing here",
        ways_out=("cut nothing here", "build the wood up from outside by a patch"),
    )
    return result


WORKSHEET = Worksheet(
    id="wall",
    title="Wall: as measured, or from body and bore, and whether they agree",
    inputs=(BODY, BORE, _MEASURED, OFF_MIDDLE, _LEAST),
    run=_run,
    example="body=27mm bore=14.6mm measured=6.1mm",
)
