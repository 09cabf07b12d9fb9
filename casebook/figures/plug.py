"""The plug of like wood: the hole to cut for it, its size, the void it or a filler must fill."""

from __future__ import annotations

from math import pi

from casebook.figures.cutters import choose_cutter
from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.round_body import GEOMETRY, keep_body_sane, wall_formula
from casebook.figures.section import plug_section
from casebook.figures.shared_inputs import (
    BODY,
    BORE,
    CLEAN_UP,
    CUTTERS,
    FLANGE,
    GAP,
    HOLE,
    HOLE_AS_CUT,
    LEAST_WOOD,
    OFF_MIDDLE,
    WALL,
)
from casebook.figures.wood_left import check_wall_agrees, check_wood_left
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_HOLE_BOTTOM = Input(
    "hole_bottom",
    "length",
    "diameter of the hole at its bottom, where it is coned",
    low="0.1 mm",
    high="40 mm",
)
_DEPTH = Input("depth", "length", "depth of the hole", low="0.1 mm", high="60 mm")
_WASTE = Input(
    "waste", "percent", "how much more filler or adhesive to mix than the void takes",
    default="30", low="0", high="500", measured=False,
)  # fmt: skip
_TO_TRIM = Input(
    "to_trim", "length", "what a plug stands out, to be scraped level",
    default="1 mm", low="0 mm", high="10 mm", measured=False,
)  # fmt: skip

_CYLINDER = Formula(lambda hole, depth: pi / 4 * hole**2 * depth, rises="hole depth")
_CONE = Formula(
    lambda hole, hole_bottom, depth: pi / 12 * depth * (hole**2 + hole * hole_bottom + hole_bottom**2),
    rises="hole hole_bottom depth",
)
_WIDEST = Formula(lambda hole, hole_bottom: max(hole, hole_bottom), rises="hole hole_bottom")
# By what the hole is cut to, whatever the clean-up; a cutter below the hole takes nothing.
_REMOVED_BY_CUTTER = Formula(
    lambda cutter, hole, depth: max(pi / 4 * (cutter**2 - hole**2) * depth, 0.0),
    rises="cutter depth",
    falls="hole",
)
_REMOVED_CONED_BY_CUTTER = Formula(
    lambda cutter, hole, hole_bottom, depth: max(
        pi / 4 * cutter**2 * depth - pi / 12 * depth * (hole**2 + hole * hole_bottom + hole_bottom**2), 0.0
    ),
    rises="cutter depth",
    falls="hole hole_bottom",
)
_REMOVED_CUT = (_REMOVED_BY_CUTTER, _REMOVED_CONED_BY_CUTTER)
_TWO_GAPS = Formula(lambda gap: 2 * gap, rises="gap")
# Cut hole less old hole, written out since the old hole moves both.
_REMOVED_ROUND = Formula(
    lambda hole, clean_up, depth: pi / 4 * ((hole + clean_up) ** 2 - hole**2) * depth,
    rises="hole clean_up depth",
)
# What a cone lacks to the full cylinder of its wider end, plus the clean-up. A wider top takes more for the
# cylinder than it adds to the cone (slope D/2 - (2 D + d)/12 > 0); a wider bottom only fills the cone.
_REMOVED_CONED = Formula(
    lambda hole, hole_bottom, clean_up, depth: (
        pi / 4 * (hole + clean_up) ** 2 * depth
        - pi / 12 * depth * (hole**2 + hole * hole_bottom + hole_bottom**2)
    ),
    rises="hole clean_up depth",
    falls="hole_bottom",
)


def _run(inputs: Inputs) -> Result:
    keep_body_sane(inputs)
    result = Result(WORKSHEET.id, inputs)
    coned = "hole_bottom" in inputs
    cut = _cut_to(result, (_WIDEST if coned else term("hole")) + term("clean_up"))
    void = _CONE if coned else _CYLINDER
    result.figure(
        "wood_hole",
        cut,
        how="widest hole + clean-up: the hole to cut; else by the cutter, or as it was cut",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    result.figure(
        "diameter",
        cut - _TWO_GAPS,
        how="hole to cut - 2 x glue film",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    result.figure("length", term("depth"), how="depth of the hole, level with the wood", source=GEOMETRY)
    result.figure(
        "length_to_cut",
        term("depth") + term("to_trim"),
        how="length + what is scraped level",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    words = "cone frustum: pi depth (D^2 + D d + d^2) / 12" if coned else "cylinder: pi D^2 depth / 4"
    result.figure("void_volume", void, unit="mm3", how=words, source=GEOMETRY)
    result.figure(
        "batch",
        joined(lambda volume, waste: volume * (1 + waste / 100), "++", void, term("waste")),
        unit="mm3",
        how="void + waste, where the void is filled and not plugged",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    _wood(result, coned, cut)
    result.steps += _STEPS
    result.drawing = plug_section(result)
    return result


def _cut_to(result: Result, trued: Formula) -> Formula:
    """Give what the hole is cut to: as cut, by the cutter of the drawer, else as it must be at least."""
    inputs = result.inputs
    least, flange = trued(inputs.spans), inputs.spans.get("flange")
    if "hole_as_cut" in inputs:
        inputs.derive("cutter", inputs.spans["hole_as_cut"], "hole_as_cut")
    elif least is not None:
        most = max(flange.value, least.value) if flange else float("inf")
        cutter = choose_cutter(result, least.value, most)
        if cutter is not None:
            inputs.derive("cutter", Span.exact(cutter), "cutters")
    return term("cutter") if "cutter" in inputs.spans else trued


def _wood(result: Result, coned: bool, cut: Formula) -> None:
    """Say what wood is cut away and what is left."""
    inputs = result.inputs
    by_cutter = "cutter" in inputs.spans
    removed = _REMOVED_CUT if by_cutter else (_REMOVED_ROUND, _REMOVED_CONED)
    top, bottom = inputs.spans.get("hole"), inputs.spans.get("hole_bottom")
    if top is not None and bottom is not None and bottom.high > top.low:
        result.unknown_figure(
            "wood_removed",
            unit="mm3",
            why="the hole is wider below than above (or the two readings do not tell which): measure again",
            source=GEOMETRY,
        )
    else:
        result.figure(
            "wood_removed",
            removed[coned],
            unit="mm3",
            how="cylinder of the hole to cut - void",
            source=GEOMETRY,
        )
    result.figure("wood_left", wall_formula(inputs) - term("depth"), how="wall - depth", source=GEOMETRY)
    check_wall_agrees(result)
    check_wood_left(
        result,
        "wood_to_bore",
        term("depth"),
        yes="enough wood is left under the plug",
        no="too little wood is left under the plug",
        ways_out=(
            "plug right through, flush with the bore, if the hole opens there already",
            "cut the hole for the plug less deep and fill what lies below it with shellac",
        ),
    )
    result.check(
        "hidden_by_flange",
        term("flange") - cut,
        yes="the glue line hides under the flange",
        no="the glue line shows beside the flange: match grain and colour with care",
        ways_out=(
            "match grain and colour with care",
            "an inlay shaped to the damage instead of a plug",
        ),
    )


_STEPS = (
    "Choose old, dry wood of the same kind; grain along the body, never a dowel with its end grain up.",
    "Let wood and body come to rest in the same room before the hole is cut.",
    "True the hole no more than needed, with an end mill in a jig, to a stop.",
    "Turn or cut the plug to a light push, so that the glue film has room.",
    "Glue: animal glue on important work; epoxy or cyanoacrylate on oily working instruments, with gloves and"
    " fresh air, as their data sheets say.",
    "When cured scrape level, on the plug only, to the round of the body. Dust: extraction and a mask.",
)

WORKSHEET = Worksheet(
    id="plug",
    title="Wood plug: hole to cut, diameter, length, volume of the void, wood left",
    inputs=(
        HOLE, _HOLE_BOTTOM, _DEPTH, CLEAN_UP, GAP, _WASTE, _TO_TRIM, WALL, BODY, BORE, OFF_MIDDLE,
        LEAST_WOOD, FLANGE, HOLE_AS_CUT, CUTTERS,
    ),
    run=_run,
    example="hole=5.8mm hole_bottom=4.6mm depth=6mm wall=7.5mm",
)  # fmt: skip
