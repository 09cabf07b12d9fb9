"""A new tenon grafted on: how thick and long its spigot is, and the wood left on both sides of the glue."""

from __future__ import annotations

from fractions import Fraction
from math import pi

from casebook.figures.cutters import choose_cutter, largest
from casebook.figures.drawer import Piece, choose
from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.round_body import GEOMETRY, keep_below, keep_body_sane, wall_formula
from casebook.figures.shared_inputs import (
    BODY,
    BORE,
    CUTTERS,
    DRILLS,
    GAP,
    OFF_MIDDLE,
    WALL,
)
from casebook.figures.wood_left import check_wall_agrees
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_SPIGOT = Input(
    "spigot", "length", "outside diameter of the spigot, where a cutter fixes it", low="3 mm", high="120 mm",
    measured=False,
)  # fmt: skip
_AS_CUT = Input(
    "hole_as_cut", "length", "counterbore of the body as really cut, measured; the spigot follows it",
    low="3 mm", high="120 mm",
)  # fmt: skip
_LENGTH = Input(
    "length", "length", "length of the spigot in the body; else as long as wide", low="2 mm", high="120 mm",
    measured=False,
)  # fmt: skip
_HOLE_IN_WAY = Input(
    "to_tone_hole", "length", "from the end of the body to the edge of the first tone hole",
    low="0 mm", high="300 mm",
)  # fmt: skip
_LEAST_SPIGOT = Input(
    "least_spigot", "length", "least wall of the spigot",
    default="2 mm", low="0.2 mm", high="20 mm", measured=False,
)  # fmt: skip
_LEAST_SOCKET = Input(
    "least_socket", "length", "least wall of the body round the spigot",
    default="2.5 mm", low="0.2 mm", high="20 mm", measured=False,
)  # fmt: skip

_SPIGOT_MIN = Formula(lambda bore, least_spigot: bore + 2 * least_spigot, rises="bore least_spigot")
_SPIGOT_MAX = Formula(
    lambda body, least_socket, gap: body - 2 * least_socket - 2 * gap, rises="body", falls="least_socket gap"
)
# The wall that remains is shared between spigot and socket in proportion to what each needs at least.
_ROOM_TAKEN = Formula(
    lambda least_spigot, least_socket, gap: least_spigot + least_socket + gap,
    rises="least_spigot least_socket gap",
)
_SPIGOT_CHOSEN = Formula(
    lambda body, bore, least_spigot, least_socket, gap: (
        bore + (body - bore - 2 * gap) * least_spigot / (least_spigot + least_socket)
    ),
    rises="body bore least_spigot",
    falls="least_socket gap",
)
_SPIGOT_WALL = {
    True: Formula(lambda spigot, bore: (spigot - bore) / 2, rises="spigot", falls="bore"),
    False: Formula(
        lambda body, bore, least_spigot, least_socket, gap: (
            ((body - bore) / 2 - gap) * least_spigot / (least_spigot + least_socket)
        ),
        rises="body least_spigot",
        falls="bore least_socket gap",
    ),
}
_SOCKET_WALL = {
    True: Formula(lambda body, spigot, gap: (body - spigot) / 2 - gap, rises="body", falls="spigot gap"),
    False: Formula(
        lambda body, bore, least_spigot, least_socket, gap: (
            ((body - bore) / 2 - gap) * least_socket / (least_spigot + least_socket)
        ),
        rises="body least_socket",
        falls="bore least_spigot gap",
    ),
}
_COUNTERBORE = {
    True: Formula(lambda spigot, gap: spigot + 2 * gap, rises="spigot gap"),
    False: Formula(
        lambda body, bore, least_spigot, least_socket, gap: (
            bore + 2 * gap + (body - bore - 2 * gap) * least_spigot / (least_spigot + least_socket)
        ),
        rises="body bore least_spigot gap",
        falls="least_socket",
    ),
}
# What is left in the graft's bore to be opened to the old one, mm (common practice, no source).
_LEFT_TO_OPEN = 0.5
_DRILL_STEP = Fraction(1, 2)


def _run(inputs: Inputs) -> Result:
    keep_body_sane(inputs)
    keep_below(inputs, "bore", "spigot")
    keep_below(inputs, "spigot", "body")
    keep_below(inputs, "bore", "hole_as_cut")
    keep_below(inputs, "hole_as_cut", "body")
    result = Result(WORKSHEET.id, inputs)
    fixed = _fix_spigot(result)
    spigot = term("spigot") if fixed else _SPIGOT_CHOSEN
    for name, formula, how in (
        ("spigot_min", _SPIGOT_MIN, "bore + 2 x least wall of the spigot"),
        ("spigot_max", _SPIGOT_MAX, "body - 2 x least wall of the body - 2 x glue gap"),
        ("spigot", spigot, "as the counterbore or a cutter fixes it, else bore + its share of the wall"),
        ("counterbore", _COUNTERBORE[fixed], "spigot + 2 x glue gap: hole to cut in the body"),
        ("spigot_wall", _SPIGOT_WALL[fixed], "(spigot - bore) / 2"),
        ("socket_wall", _SOCKET_WALL[fixed], "(body - spigot) / 2 - glue gap: wood left round it"),
    ):
        result.figure(name, formula, how=how, source=GEOMETRY)
    _length(result, spigot)
    check_wall_agrees(result)
    _checks(result, fixed)
    result.steps += _steps(result)
    return result


def _fix_spigot(result: Result) -> bool:
    """Put the spigot among the numbers where the hole as cut, or a cutter of the drawer, fixes it."""
    inputs = result.inputs
    gaps = 2 * inputs.spans["gap"].value
    if "hole_as_cut" in inputs:
        cut = inputs.spans["hole_as_cut"]
        inputs.derive("spigot", Span(cut.low - gaps, cut.value - gaps, cut.high - gaps), "hole_as_cut")
        return True
    least, most = _SPIGOT_MIN(inputs.spans), _SPIGOT_MAX(inputs.spans)
    best = _COUNTERBORE[False](inputs.spans)
    if "spigot" not in inputs and least and most and best and least.value <= most.value:
        cutter = choose_cutter(result, least.value + gaps, most.value + gaps, best.value)
        if cutter is not None:
            inputs.derive("spigot", Span.exact(cutter - gaps), "cutters")
    return "spigot" in inputs.spans


def _length(result: Result, spigot: Formula) -> None:
    given = "length" in result.inputs
    length = term("length") if given else spigot
    result.figure(
        "length",
        length,
        how="as given" if given else "as long as it is wide",
        source="the decision given" if given else COMMON_PRACTICE,
        checked="common practice",
    )
    area = joined(lambda wide, long: pi * wide * long, "++", spigot, length)
    result.figure("glue_area", area, unit="mm2", how="pi x spigot x length", source=GEOMETRY)
    if "to_tone_hole" in result.inputs:
        result.check(
            "clear_of_tone_hole",
            term("to_tone_hole") - length,
            yes="the spigot ends before the first tone hole",
            no="the spigot reaches the first tone hole: it must be bored and undercut again",
            ways_out=("a shorter spigot", "mould the hole first and restore it in the graft"),
        )


def _checks(result: Result, fixed: bool) -> None:
    inputs = result.inputs
    room = wall_formula(inputs, doubted=True) - _ROOM_TAKEN
    result.check(
        "room",
        room,
        yes="the wall has room for a spigot with wood enough round it",
        no="the wall is too thin for a spigot and wood round it",
        ways_out=(
            "glue the broken piece back, if it is complete",
            "a thin metal sleeve inside or outside, with consent",
            "a new joint, the old one kept",
        ),
    )
    if not fixed:
        return
    for name, formula, least in (
        ("spigot_wall_enough", _SPIGOT_WALL[True], "least_spigot"),
        ("socket_wall_enough", _SOCKET_WALL[True], "least_socket"),
    ):
        what = "spigot has" if least == "least_spigot" else "body has"
        result.check(
            name,
            formula - term(least),
            yes=f"the {what} wall enough",
            no=f"the {what} too thin a wall",
            ways_out=("another cutter, between spigot min and spigot max",),
        )


def _steps(result: Result) -> list[str]:
    """Word the work, with the drill for the graft's bore: of the drawer, else the next by the half mm."""
    bore, drill = result.inputs.spans.get("bore"), ""
    if bore is not None and bore.value > 2 * _LEFT_TO_OPEN:
        most = bore.value - _LEFT_TO_OPEN
        size = Fraction(most) // _DRILL_STEP * _DRILL_STEP
        made = [Piece(f"{float(size):.1f} mm", size)]
        chosen = choose(result, DRILLS, largest(most - 2 * _LEFT_TO_OPEN, most), made)
        if chosen is not None and chosen.does:
            drill = f" ({chosen.piece.name})"
    return [step.replace("{drill}", drill) for step in _STEPS]


_STEPS = (
    "A complete broken piece is glued back first: a graft stays possible afterwards.",
    "Record lengths, bore, tone holes and the maker's stamp before anything is cut; ask for consent.",
    "Bore the graft small{drill} and open it to the old bore only when the glue has cured.",
    "Old, dry wood of the same kind, at rest in the same room as the body; grooves for the glue.",
    "Work in the lathe: soft jaws, slow, steady the far end; eye protection, extraction and a mask.",
)

WORKSHEET = Worksheet(
    id="tenon_graft",
    title="Tenon graft: spigot, counterbore, length, glue area and the wood left",
    inputs=(
        BODY, BORE, WALL, OFF_MIDDLE, _SPIGOT, _LENGTH, _HOLE_IN_WAY, GAP, _LEAST_SPIGOT, _LEAST_SOCKET,
        _AS_CUT, CUTTERS, DRILLS,
    ),
    run=_run,
    example="body=26mm bore=14.8mm length=22mm to_tone_hole=30mm",
)  # fmt: skip
