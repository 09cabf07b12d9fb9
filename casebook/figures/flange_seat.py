"""The seat a flat flange needs on a round body: depth from the high line, cutter, wood left under it."""

from __future__ import annotations

from casebook.figures.cutters import choose_cutter
from casebook.figures.formula import term
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.round_body import (
    GEOMETRY,
    SAGITTA,
    SEAT_HOW,
    keep_body_sane,
    seat_formula,
    seat_kind,
    wall_formula,
)
from casebook.figures.section import seat_section
from casebook.figures.shared_inputs import (
    BODY,
    BORE,
    CUTTERS,
    FLANGE,
    FLANGE_THICKNESS,
    HINGE_HEIGHT,
    LEAST_WOOD,
    OFF_MIDDLE,
    SEAT,
    SET_DOWN,
    WALL,
)
from casebook.figures.wood_left import check_wall_agrees, check_wood_left
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet
from casebook.quantity import TOOL_ERRORS

_OLD_SEAT = Input(
    "old_seat", "length", "depth of the seat as it is, from the high line", low="0 mm", high="20 mm"
)
# A flange 'at or just below the surface' may sit this much deeper than its thickness asks for.
_MOST_SET_DOWN = Input(
    "most_set_down", "length", "how deep below the wood a recessed flange may sit in an old seat",
    default="0.5 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip
# What a depth rod may be out by, mm.
_ROD = float(TOOL_ERRORS["depth_rod"].above)
_PLAY = Input(
    "play", "length", "room for the flange in its seat, on the diameter",
    default="0.1 mm", low="0 mm", high="1 mm", measured=False,
)  # fmt: skip
_MOST_PLAY = Input(
    "most_play", "length", "most room for the flange: in a wider seat it shows and wanders",
    default="0.4 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip
_SEAT_AS_CUT = Input(
    "seat_as_cut", "length", "depth of the seat as really cut, from the high line; the rest follows it",
    low="0 mm", high="20 mm",
)  # fmt: skip
_LEAST_CUTTER = term("flange") + term("play")
_MOST_CUTTER = term("flange") + term("most_play")


def _run(inputs: Inputs) -> Result:
    keep_body_sane(inputs)
    result = Result(WORKSHEET.id, inputs)
    cut = "seat_as_cut" in inputs
    seat = term("seat_as_cut") if cut else seat_formula(inputs)
    result.figure(
        "sagitta", SAGITTA, how="R - sqrt(R^2 - (flange / 2)^2): fall-away under the flange", source=GEOMETRY
    )
    how, source = ("as it was cut", "the reading") if cut else (SEAT_HOW[seat_kind(inputs)], GEOMETRY)
    result.figure("seat_depth", seat, how=how, source=source)
    if seat_kind(inputs) == "recessed":
        result.figure(
            "top_under_high_line",
            seat - term("flange_thickness") if cut else SAGITTA + term("set_down"),
            how="seat depth - flange thickness: how deep the flange's top lies in the high line",
            source=GEOMETRY,
        )
    elif seat_kind(inputs) == "proud":
        result.figure(
            "stands_above",
            term("flange_thickness") - seat,
            how="flange thickness - seat depth: how far the flange stands above the high line",
            source=GEOMETRY,
        )
    _cutter(result)
    _seat_here(result)
    drop = result.figure(
        "rod_drop",
        seat - term("old_seat"),
        how="new seat - old seat: how much lower the rod will lie (negative: higher)",
        source=GEOMETRY,
    )
    result.figure(
        "rod_height_after",
        term("hinge_height") - (seat - term("old_seat")),
        how="rod height as it is - what the seat goes down",
        source=GEOMETRY,
    )
    result.figure(
        "wood_under_seat", wall_formula(inputs) - seat, how="wall - seat depth, on the axis", source=GEOMETRY
    )
    check_wall_agrees(result)
    check_wood_left(
        result,
        "wood_under_seat",
        seat,
        yes="enough wood is left under the seat",
        no="too little wood is left under the seat",
        ways_out=(
            "let the flange stand on the wood (proud): only the fall-away is cut",
            "thin the flange of a copy post, never of an original",
            "set the flange down less",
        ),
    )
    if cut:
        result.check(
            "bears_all_round",
            seat - SAGITTA,
            yes="the seat is cut as deep as the wood falls away, so the flange bears all round",
            no="the seat is less deep than the wood falls away: the flange bears along the high line only",
            ways_out=("cut deeper, as far as the rod's height and the wood allow",),
        )
    result.steps += _STEPS
    if drop is not None and drop.value > 0:
        result.steps.append(
            "This lowers the rod: its mate's seat goes down by as much, or a thin washer goes under it."
        )
    result.drawing = seat_section(result)
    return result


def _cutter(result: Result) -> None:
    """Name the flat cutter: of the drawer where one does, else as wide as it must be."""
    inputs = result.inputs
    least, most = _LEAST_CUTTER(inputs.spans), _MOST_CUTTER(inputs.spans)
    if least is None or most is None:
        return
    taken = choose_cutter(result, least.value, max(least.value, most.value))
    if taken is not None:
        inputs.derive("cutter", Span.exact(taken), "cutters")
    result.figure(
        "cutter",
        _LEAST_CUTTER if taken is None else term("cutter"),
        how="flange + play: diameter of the flat cutter; else of the drawer, the smallest that clears it",
        source=COMMON_PRACTICE,
        checked="common practice",
    )


def _seat_here(result: Result) -> None:
    """The seat that is there: as measured, or as flange and body make it likely, with that doubt."""
    inputs = result.inputs
    inputs.derive("rod", Span.exact(_ROD), "old_seat")
    least = SAGITTA + term("flange_thickness") if seat_kind(inputs) == "recessed" else SAGITTA
    if "old_seat" in inputs:
        result.figure(
            "seat_here", term("old_seat"), how="as measured from the high line", source="the reading"
        )
    elif seat_kind(inputs) == "recessed":
        usual, most = inputs.spans["set_down"].value, inputs.spans["most_set_down"].value
        inputs.derive("set_down_here", Span(-_ROD, usual, max(usual, most) + _ROD), "old_seat")
        how = "fall-away under the flange + flange thickness + what an old seat may be set down"
        result.figure(
            "seat_here",
            least + term("set_down_here"),
            how=how,
            source=COMMON_PRACTICE,
            checked="common practice",
        )
    elif seat_kind(inputs) == "proud":
        result.figure("seat_here", SAGITTA, how=SEAT_HOW["proud"], source=GEOMETRY)
    result.check(
        "old_seat_agrees",
        term("old_seat") - least + term("rod"),
        least + term("most_set_down") + term("rod") - term("old_seat"),
        yes="the seat as measured goes with flange, body and how the flange sits",
        no="the seat as measured does not go with flange, body and how the flange sits",
        ways_out=("measure the seat again from the high line", "look again how the flange sits"),
    )


_STEPS = (
    "Measure from the rod hole to the wood at this post and at its mate before the seat is touched.",
    "Cut flat with a cutter piloted in the hole, to a stop; on a taper set the depth at the larger end.",
    "Try the flange with marking ink: it must bear all round before the shank is drawn up.",
)

WORKSHEET = Worksheet(
    id="flange_seat",
    title="Flange seat: how deep a flat flange sits in a round body",
    inputs=(
        BODY, FLANGE, FLANGE_THICKNESS, SET_DOWN, SEAT, _OLD_SEAT, HINGE_HEIGHT, WALL, BORE, OFF_MIDDLE,
        LEAST_WOOD, _MOST_SET_DOWN, _PLAY, _MOST_PLAY, _SEAT_AS_CUT, CUTTERS,
    ),
    run=_run,
    example="body=27mm flange=7mm flange_thickness=0.8mm seat=recessed",
)  # fmt: skip
