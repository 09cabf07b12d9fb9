"""An insert for a tone hole's broken seat: how wide, how deep, what is left round it and under it."""

from __future__ import annotations

from math import inf, sqrt

from casebook.figures.cutters import choose_cutter
from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.round_body import GEOMETRY, keep_below, keep_body_sane, wall_formula
from casebook.figures.shared_inputs import (
    BODY,
    BORE,
    CLEAN_UP,
    CUTTERS,
    GAP,
    HOLE_AS_CUT,
    LEAST_WOOD,
    LEAST_WOOD_SIDEWAYS,
    OFF_MIDDLE,
    WALL,
)
from casebook.figures.wood_left import check_wall_agrees, check_wood_left
from casebook.figures.worksheet import Result, Worksheet

_HOLE = Input("hole", "length", "diameter of the tone hole at its top", low="1 mm", high="40 mm")
_DAMAGE = Input(
    "damage",
    "length",
    "diameter of the circle round the hole that takes in all damage",
    low="1 mm",
    high="60 mm",
)
_OUTSIDE = Input(
    "outside", "length", "outside diameter of the insert, where a cutter fixes it", low="1 mm", high="60 mm",
    measured=False,
)  # fmt: skip
_DEPTH = Input(
    "depth", "length", "depth to cut for it, from the high line", low="0.2 mm", high="40 mm", measured=False
)
_STANDS = Input("stands", "length", "how far the seat stands above the high line", low="0 mm", high="20 mm")
_UNDERCUT = Input(
    "undercut", "length", "how far up from the bore the undercut reaches", low="0 mm", high="30 mm"
)
_NEIGHBOUR = Input(
    "neighbour", "length", "wood from the edge of the hole to the next hole or post, undercut counted",
    low="0 mm", high="200 mm",
)  # fmt: skip
_LEAST_RING = Input(
    "least_ring", "length", "least wall of the insert",
    default="1.2 mm", low="0.2 mm", high="10 mm", measured=False,
)  # fmt: skip

# How wide the insert is: as a cutter fixes it; by the damage it must take in, if its own wall allows; or by
# its own wall alone. The hole moves width and ring against each other, so each case is written out.
_BY_CUTTER = {
    "outside": term("outside"),
    "wood_hole": Formula(lambda outside, gap: outside + 2 * gap, rises="outside gap"),
    "ring_wall": Formula(lambda outside, hole: (outside - hole) / 2, rises="outside", falls="hole"),
    "wood_to_neighbour": Formula(
        lambda neighbour, outside, gap, hole: neighbour - (outside + 2 * gap - hole) / 2,
        rises="neighbour hole",
        falls="outside gap",
    ),
}
_BY_DAMAGE = {
    "outside": Formula(
        lambda hole, least_ring, damage, clean_up, gap: max(
            hole + 2 * least_ring, damage + clean_up - 2 * gap
        ),
        rises="hole least_ring damage clean_up",
        falls="gap",
    ),
    "wood_hole": Formula(
        lambda hole, least_ring, damage, clean_up, gap: max(
            hole + 2 * least_ring + 2 * gap, damage + clean_up
        ),
        rises="hole least_ring damage clean_up gap",
    ),
    "ring_wall": Formula(
        lambda hole, least_ring, damage, clean_up, gap: max(
            least_ring, (damage + clean_up - 2 * gap - hole) / 2
        ),
        rises="least_ring damage clean_up",
        falls="gap hole",
    ),
    "wood_to_neighbour": Formula(
        lambda neighbour, hole, least_ring, damage, clean_up, gap: (
            neighbour - max(least_ring + gap, (damage + clean_up - hole) / 2)
        ),
        rises="neighbour hole",
        falls="least_ring damage clean_up gap",
    ),
}
_BY_WALL = {
    "outside": Formula(lambda hole, least_ring: hole + 2 * least_ring, rises="hole least_ring"),
    "wood_hole": Formula(
        lambda hole, least_ring, gap: hole + 2 * least_ring + 2 * gap, rises="hole least_ring gap"
    ),
    "ring_wall": term("least_ring"),
    "wood_to_neighbour": Formula(
        lambda neighbour, least_ring, gap: neighbour - least_ring - gap,
        rises="neighbour",
        falls="least_ring gap",
    ),
}
_RING_SPARE = _BY_CUTTER["ring_wall"] - term("least_ring")
_TAKES_IN_DAMAGE = Formula(
    lambda outside, gap, damage, clean_up: outside + 2 * gap - damage - clean_up,
    rises="outside gap",
    falls="damage clean_up",
)
_HOW = {
    "outside": "as the hole was cut or a cutter fixes it; else what takes in the damage with wall enough",
    "wood_hole": "outside + 2 x glue gap: the hole to cut",
    "ring_wall": "(outside - hole) / 2: wall of the insert",
    "wood_to_neighbour": "wood to the next hole - what the cut takes of it",
}


_WIDEST_CUT = Formula(
    lambda hole, neighbour, least_wood_sideways: hole + 2 * (neighbour - least_wood_sideways),
    rises="hole neighbour",
    falls="least_wood_sideways",
)


def _widths(result: Result) -> dict[str, Formula]:
    """Give what fixes the width: the hole as cut, the width asked for, a cutter, else what it must be."""
    inputs = result.inputs
    gaps = 2 * inputs.spans["gap"].value
    if "hole_as_cut" in inputs:
        cut = inputs.spans["hole_as_cut"]
        inputs.derive("outside", Span(cut.low - gaps, cut.value - gaps, cut.high - gaps), "hole_as_cut")
        return _BY_CUTTER
    if "outside" in inputs:
        return _BY_CUTTER
    widths = _BY_DAMAGE if "damage" in inputs else _BY_WALL
    least, most = widths["wood_hole"](inputs.spans), _WIDEST_CUT(inputs.spans)
    if least is None:
        return widths
    cutter = choose_cutter(result, least.value, max(most.value, least.value) if most else inf)
    if cutter is None:
        return widths
    inputs.derive("outside", Span.exact(cutter - gaps), "cutters")
    return _BY_CUTTER


def _fall_away(body: float, wide: float) -> float:
    return body / 2 - sqrt((body / 2) ** 2 - (wide / 2) ** 2)


def _run(inputs: Inputs) -> Result:
    keep_body_sane(inputs)
    keep_below(inputs, "hole", "damage", may_touch=True)
    keep_below(inputs, "hole", "outside")
    keep_below(inputs, "hole", "hole_as_cut")
    for wide in ("damage", "outside", "hole_as_cut"):
        keep_below(inputs, wide, "body")
    keep_below(inputs, "undercut", "wall")
    result = Result(WORKSHEET.id, inputs)
    widths, wall = _widths(result), wall_formula(inputs)
    for name, formula in widths.items():
        result.figure(name, formula, how=_HOW[name], source=GEOMETRY)
    for name, formula, how in (
        (
            "sagitta",
            joined(_fall_away, "-+", term("body"), widths["wood_hole"]),
            "R - sqrt(R^2 - (hole to cut / 2)^2): a cut less deep does not hold the insert all round",
        ),
        ("insert_height", term("depth") + term("stands"), "depth + how far the seat stands out"),
        ("chimney", wall + term("stands"), "wall + how far the seat stands out: keep it as it was"),
        ("wood_left", wall - term("depth"), "wall - depth, on the axis"),
        (
            "undercut_lost",
            joined(lambda deep, thick: max(deep - thick, 0.0), "+-", term("depth") + term("undercut"), wall),
            "depth + undercut - wall: height of undercut that the cut takes and the insert must restore",
        ),
    ):
        result.figure(name, formula, how=how, source=GEOMETRY)
    _checks(result, widths)
    result.steps += _STEPS
    return result


def _checks(result: Result, widths: dict[str, Formula]) -> None:
    inputs = result.inputs
    wall = wall_formula(inputs, doubted=True)
    if widths is _BY_CUTTER:
        result.check(
            "ring_wall_enough",
            _RING_SPARE,
            yes="the insert has wall enough round the hole",
            no="the insert's wall is too thin round the hole",
            ways_out=("a larger cutter, if the neighbours allow it",),
        )
        result.check(
            "damage_taken_in",
            _TAKES_IN_DAMAGE,
            yes="the cut takes in all the damage",
            no="damage is left outside the cut",
            ways_out=("a larger cutter", "fill what is left outside the insert"),
        )
    result.check(
        "wood_to_neighbour",
        widths["wood_to_neighbour"] - term("least_wood_sideways"),
        yes="the cut stays clear of the next hole or post",
        no="the cut comes too near the next hole or post",
        ways_out=(
            "a smaller insert that takes in less of the damage, and fill the rest",
            "fill and level the seat instead of an insert",
        ),
    )
    check_wall_agrees(result)
    check_wood_left(
        result,
        "wood_under_insert",
        term("depth"),
        yes="enough wood is left under the insert",
        no="too little wood is left under the insert",
        ways_out=(
            "cut less deep",
            "fill the seat instead",
            "go through on purpose, with the undercut restored",
        ),
    )
    if "body" in inputs:
        result.check(
            "held_all_round",
            term("depth") - joined(_fall_away, "-+", term("body"), widths["wood_hole"]),
            yes="the cut holds the insert all round",
            no="the cut runs out at the sides: the insert is not held all round",
            ways_out=("cut deeper, if the wood allows it", "a narrower insert"),
        )
    if "undercut" in inputs:
        result.check(
            "undercut_untouched",
            wall - term("depth") - term("undercut"),
            yes="the undercut stays untouched",
            no="the cut takes part of the undercut: tuning and voice change unless it is restored",
            ways_out=("mould the undercut before cutting, and restore it in the insert", "cut less deep"),
        )


_STEPS = (
    "Crack before seat; fill before level; level before insert.",
    "Mould the undercut before anything is cut; note height and tilt of the seat against its neighbours.",
    "Cut flat with a piloted cutter to a stop; grain of the insert along the body.",
    "Bore the tone hole in the insert small, then open it to the mould; the seat is levelled last.",
    "Dust of dense woods irritates and sensitises: extraction, and a fitted mask.",
)

WORKSHEET = Worksheet(
    id="tone_hole_insert",
    title="Tone-hole insert: width, depth, chimney, undercut and the wood left",
    inputs=(
        _HOLE, _DAMAGE, _OUTSIDE, _DEPTH, _STANDS, _UNDERCUT, _NEIGHBOUR, BODY, BORE, WALL, OFF_MIDDLE,
        CLEAN_UP, GAP, _LEAST_RING, LEAST_WOOD, LEAST_WOOD_SIDEWAYS, HOLE_AS_CUT, CUTTERS,
    ),
    run=_run,
    example="hole=8mm damage=10.5mm depth=3mm body=27mm bore=14.6mm undercut=1.5mm neighbour=4mm",
)  # fmt: skip
