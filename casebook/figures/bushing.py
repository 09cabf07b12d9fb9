"""The hidden bushing of a post: which sizes fit, what they leave of the wood, and how to make it."""

from __future__ import annotations

from casebook.figures.bushing_cutter import choose_cutter, cutter_rows
from casebook.figures.bushing_sizes import Sizes, sizes
from casebook.figures.bushing_steps import hole_steps, lathe_steps
from casebook.figures.bushing_stock import choose_stock
from casebook.figures.bushing_ways import ways_out
from casebook.figures.bushing_words import MEANS, SAID
from casebook.figures.cutting_speed import METALS
from casebook.figures.inputs import Input, Inputs
from casebook.figures.round_body import SEAT_HOW, keep_below, keep_body_sane, seat_kind
from casebook.figures.section import bushing_section
from casebook.figures.shank_thread import derive_thread
from casebook.figures.shared_inputs import (
    BODY,
    BORE,
    CLEAN_UP,
    COLLETS,
    CUTTERS,
    DRILLS,
    ENGAGED,
    ENGAGED_THREADS,
    FLANGE,
    FLANGE_THICKNESS,
    GAP,
    HOLE,
    HOLE_AS_CUT,
    LEAST_WOOD,
    LEAST_WOOD_SIDEWAYS,
    OFF_CENTRE,
    OFF_MIDDLE,
    PITCH,
    ROD,
    SEAT,
    SEAT_DEPTH,
    SET_DOWN,
    SHANK,
    SPEEDS,
    TAPS,
    THREAD,
    WALL,
)  # fmt: skip
from casebook.figures.wood_left import check_wall_agrees, measure_first
from casebook.figures.worksheet import Result, Worksheet

_TONE_HOLE = Input(
    "tone_hole", "length", "wood from the edge of the hole to the next opening, undercut counted",
    low="0 mm", high="200 mm",
)  # fmt: skip
_HIDE_MARGIN = Input(
    "hide_margin", "length", "how much narrower than the flange a bushing must be to hide, on the diameter",
    default="0.010 in", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip
_EXTRA = Input(
    "extra", "length", "room under the shank, so that it does not push the glue out",
    default="0.030 in", low="0 mm", high="10 mm", measured=False,
)  # fmt: skip
_GROOVE = Input(
    "groove", "length", "depth of the grooves for the glue",
    default="0.2 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_LEAST_METAL = Input(
    "least_metal", "length", "least metal round the thread, under the grooves",
    default="0.5 mm", low="0 mm", high="5 mm", measured=False,
)  # fmt: skip
_LEAST_THREADS = Input(
    "least_threads", "number", "least turns of thread that hold in metal",
    default="2", low="0.5", high="20", measured=False,
)  # fmt: skip
_METAL = Input("metal", "choice", "metal of the bushing", default="brass", choices=METALS)

# A hole with less wood under it than this, mm, is closed towards the bore (common practice, no source).
_CLOSED_UNDER = 2.0


def _run(inputs: Inputs) -> Result:
    keep_body_sane(inputs)
    keep_below(inputs, "seat_depth", "wall")
    derive_thread(inputs)
    result = Result(WORKSHEET.id, inputs)
    choose_cutter(result)
    chosen = sizes(inputs)
    _figures(result, chosen)
    _checks(result, chosen)
    check_wall_agrees(result)
    result.rows = cutter_rows(result)
    choose_stock(result)
    result.steps = _steps(result)
    result.drawing = bushing_section(result)
    return result


def _figures(result: Result, chosen: Sizes) -> None:
    for name, formula in chosen.figures.items():
        unit, how, source, checked = SAID[name]
        words = SEAT_HOW[seat_kind(result.inputs)] if name == "seat_depth" else how
        result.figure(name, formula, unit=unit, how=words, source=source, checked=checked)


def _checks(result: Result, chosen: Sizes) -> None:
    for name, margins in chosen.margins.items():
        unit, yes, no = MEANS[name]
        if name == "wood_to_bore":
            yes += measure_first(result, chosen.figures["wood_to_bore"])
        ways = ways_out(name, result.inputs, chosen.margins)
        result.check(name, *margins, unit=unit, yes=yes, no=no, ways_out=ways)


def _steps(result: Result) -> list[str]:
    failed = [name.replace("_", " ") for name, check in result.checks.items() if check.holds == "no"]
    if failed:
        return [f"Cut nothing yet. What does not hold: {', '.join(failed)}. See the ways out."]
    open_checks = [
        name.replace("_", " ")
        for name, check in result.checks.items()
        if check.holds == "unknown" and check.margin is not None
    ]
    first = [f"Settle first: {', '.join(open_checks)}, too close to call."] if open_checks else []
    first += [
        f"Measure before anything is cut: {', '.join(check.waits_on).replace('_', ' ')}."
        f" Without it nobody knows about: {name.replace('_', ' ')}."
        for name, check in result.checks.items()
        if check.holds == "unknown" and check.margin is None
    ]
    left = result.figures.get("wood_to_bore")
    closed = left is not None and left.value is not None and left.value < _CLOSED_UNDER
    return first + hole_steps(result) + lathe_steps(result, result.inputs.word("metal"), closed)


WORKSHEET = Worksheet(
    id="bushing",
    title="Hidden bushing: sizes that fit, wood left to the bore and sideways, how to make it",
    inputs=(
        FLANGE, THREAD, SHANK, PITCH, ENGAGED, ENGAGED_THREADS, HOLE, OFF_CENTRE, CLEAN_UP, BODY, BORE, WALL,
        OFF_MIDDLE, SEAT, FLANGE_THICKNESS, SET_DOWN, SEAT_DEPTH, _TONE_HOLE, _HIDE_MARGIN, _EXTRA, GAP,
        _GROOVE, _LEAST_METAL, LEAST_WOOD, LEAST_WOOD_SIDEWAYS, _LEAST_THREADS, _METAL, HOLE_AS_CUT, CUTTERS,
        DRILLS, TAPS, ROD, COLLETS, SPEEDS,
    ),
    run=_run,
    example="flange=0.250in thread=3-48 engaged=3mm hole=5.2mm body=27mm bore=14.6mm seat=recessed"
    " flange_thickness=0.8mm",
)  # fmt: skip
