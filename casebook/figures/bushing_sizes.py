"""The formulas of a bushing, in mm: what must be cut, what may hide, what is left. See `round_body`.

Three things bound the outside of a bushing: it must clean the hole and leave metal round the thread
(``outside_min``), and its ring of glue must hide under the flange (``outside_max``).
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Inputs
from casebook.figures.round_body import seat_formula, wall_formula
from casebook.figures.shank_thread import full_threads_formula

TRUED_HOLE = Formula(
    lambda hole, off_centre, clean_up: hole + 2 * off_centre + clean_up, rises="hole off_centre clean_up"
)
# The least outside that leaves metal round the thread, under the grooves.
METAL_MIN = Formula(
    lambda major, least_metal, groove: major + 2 * (least_metal + groove), rises="major least_metal groove"
)
# What the hole was before: a hole as cut that is no smaller has cleaned it.
_WIDEST = Formula(lambda hole, off_centre: hole + 2 * off_centre, rises="hole off_centre")
_TWO_GAPS = Formula(lambda gap: 2 * gap, rises="gap")
OUTSIDE_MIN = Formula(
    lambda major, least_metal, groove, hole, off_centre, clean_up, gap: max(
        major + 2 * (least_metal + groove), hole + 2 * off_centre + clean_up - 2 * gap
    ),
    rises="major least_metal groove hole off_centre clean_up",
    falls="gap",
)
OUTSIDE_MAX = Formula(lambda flange, hide_margin: flange - hide_margin, rises="flange", falls="hide_margin")
LENGTH = term("engaged") + term("extra")

# What the hole in the wood is at least cut to: outside_min and its glue.
LEAST_WOOD_HOLE = Formula(
    lambda major, least_metal, groove, hole, off_centre, clean_up, gap: max(
        major + 2 * (least_metal + groove) + 2 * gap, hole + 2 * off_centre + clean_up
    ),
    rises="major least_metal groove hole off_centre clean_up gap",
)
# Zero where the hole decides the size, and what the metal round the thread asks for beyond it.
_CLEANED = Formula(
    lambda major, least_metal, groove, hole, off_centre, clean_up, gap: max(
        major + 2 * (least_metal + groove) + 2 * gap - hole - 2 * off_centre - clean_up, 0.0
    ),
    rises="major least_metal groove gap",
    falls="hole off_centre clean_up",
)
# The hole grows evenly on both sides; a hole off the seat's middle costs its whole offset on one of them.
_TONE_WOOD = Formula(
    lambda tone_hole, major, least_metal, groove, hole, off_centre, clean_up, gap: (
        tone_hole
        - (max(major + 2 * (least_metal + groove) + 2 * gap, hole + 2 * off_centre + clean_up) - hole) / 2
        - off_centre
    ),
    rises="tone_hole hole",
    falls="major least_metal groove off_centre clean_up gap",
)
_TONE_WOOD_BY_CUTTER = Formula(
    lambda tone_hole, cutter, hole, off_centre: tone_hole - (cutter - hole) / 2 - off_centre,
    rises="tone_hole hole",
    falls="cutter off_centre",
)

# The point of a common drill (118 degrees) is D / (2 tan 59 degrees) long: 0.30 of its diameter.
_POINT = 0.3


class Sizes(NamedTuple):
    """The formulas as the inputs at hand allow them.

    Attributes:
        figures: by figure name.
        margins: by check name; all margins of a check must be at or above zero. They ask whether some size
            in the window passes; where a cutter was chosen, whether that one does.
    """

    figures: dict[str, Formula]
    margins: dict[str, tuple[Formula, ...]]


def sizes(inputs: Inputs) -> Sizes:
    """Choose the formulas by how seat and wall are known, whether a ``cutter`` was chosen, the hole cut."""
    by_cutter, as_cut = "cutter" in inputs.spans, "hole_as_cut" in inputs
    seat = seat_formula(inputs)
    depth = seat + LENGTH
    wood_to_bore = wall_formula(inputs) - depth
    wood_hole = term("cutter") if by_cutter else LEAST_WOOD_HOLE
    outside = term("cutter") - _TWO_GAPS if by_cutter else OUTSIDE_MIN
    tone_wood = _TONE_WOOD_BY_CUTTER if by_cutter else _TONE_WOOD
    turns = full_threads_formula(inputs)
    figures = {
        "trued_hole": TRUED_HOLE,
        "outside_min": OUTSIDE_MIN,
        "outside_max": OUTSIDE_MAX,
        "outside": outside,
        "wood_hole": wood_hole,
        "length": LENGTH,
        "seat_depth": seat,
        "depth": depth,
        "point_depth": joined(lambda deep, wide: deep + _POINT * wide, "++", depth, wood_hole),
        "wood_to_bore": wood_to_bore,
        "wood_at_edge": joined(_wood_at_edge, "++-", wood_to_bore, wood_hole, term("bore")),
        "wood_to_tone_hole": tone_wood,
        "full_threads": turns,
    }
    hidden: tuple[Formula, ...] = (OUTSIDE_MAX - TRUED_HOLE + _TWO_GAPS, term("flange") - TRUED_HOLE)
    metal: tuple[Formula, ...] = (OUTSIDE_MAX - METAL_MIN, term("flange") - METAL_MIN - _TWO_GAPS)
    cleaned: tuple[Formula, ...] = (_CLEANED,)
    if by_cutter:
        by_size = (OUTSIDE_MAX - outside, term("flange") - term("cutter"))
        hidden = by_size if as_cut else hidden + by_size
        metal += (outside - METAL_MIN,)
        cleaned = (term("cutter") - (_WIDEST if as_cut else TRUED_HOLE),)
    margins = {
        "hidden_by_flange": hidden,
        "hole_cleaned": cleaned,
        "wood_to_bore": (wall_formula(inputs, doubted=True) - depth - term("least_wood"),),
        "wood_to_tone_hole": (tone_wood - term("least_wood_sideways"),),
        "metal_around_thread": metal,
        "threads_engaged": (turns - term("least_threads"),),
    }
    return Sizes(figures, margins)


def _wood_at_edge(axis: float, wood_hole: float, bore: float) -> float:
    """Wood left over the bore at the edge of a flat-bottomed hole, where the bore curves away from it."""
    if axis < 0:
        return axis
    return sqrt((bore / 2 + axis) ** 2 + (wood_hole / 2) ** 2) - bore / 2
