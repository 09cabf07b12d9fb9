"""Wood left over the bore: judged alike in every sheet, and never plainly on a wall that nobody measured."""

from __future__ import annotations

from collections.abc import Iterable

from casebook.figures.formula import Formula, term
from casebook.figures.round_body import WALL_COMPUTED, wall_formula
from casebook.figures.worksheet import Result

# With a computed wall and less wood left than this, mm, it is to be measured (common practice, no source).
_MEASURE_UNDER = 2.0


def measure_first(result: Result, left: Formula) -> str:
    """Give the words that ask for the wall to be measured, where it is computed and little wood is left."""
    span = left(result.inputs.spans)
    if "wall" in result.inputs or span is None or span.value >= _MEASURE_UNDER:
        return ""
    return "; the wall is computed: measure it at this hole before you set the stop"


def check_wood_left(
    result: Result, name: str, depth: Formula, *, yes: str, no: str, ways_out: Iterable[str]
) -> None:
    """Judge whether a cut of `depth`, in mm from the high line, leaves the least wood over the bore."""
    wall = wall_formula(result.inputs, doubted=True)
    yes += measure_first(result, wall_formula(result.inputs) - depth)
    result.check(name, wall - depth - term("least_wood"), yes=yes, no=no, ways_out=ways_out)


def check_wall_agrees(result: Result) -> None:
    """Judge a measured wall against body and bore, where all three were read."""
    if {"wall", "body", "bore"} <= result.inputs.values.keys():
        check_agrees(result, "wall_agrees", "wall")


def check_agrees(result: Result, name: str, wall: str) -> None:
    """Judge the input `wall` against body and bore as the check `name`."""
    # |measured - computed| <= off_middle, as two margins that each input moves one way only.
    result.check(
        name,
        term("off_middle") + WALL_COMPUTED - term(wall),
        term("off_middle") + term(wall) - WALL_COMPUTED,
        yes="the measured wall agrees with body and bore",
        no="the measured wall does not agree with body and bore: one reading is wrong, or the bore runs off"
        " the middle by more than old bores do",
        ways_out=("measure the wall again at this very place", "measure body and bore again, both ways"),
    )
