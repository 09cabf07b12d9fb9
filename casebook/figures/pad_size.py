"""The pad for a cup and its seat: diameter, thickness, and the nearest real sizes."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from casebook.figures.drawer import SHELVES, Misfit, Piece, choose
from casebook.figures.formula import Formula, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.round_body import GEOMETRY, keep_below
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_CUP = Input("cup", "length", "inside diameter of the cup", low="3 mm", high="60 mm")
_CUP_DEPTH = Input("cup_depth", "length", "depth of the cup inside", low="0.3 mm", high="10 mm")
_CUP_TO_SEAT = Input(
    "cup_to_seat", "length", "rim of the cup to the seat, key held closed and level",
    low="0 mm", high="8 mm",
)  # fmt: skip
_SEAT = Input("seat", "length", "outside diameter of the seat's rim", low="2 mm", high="60 mm")
_PAD = Input("pad", "length", "diameter of the pad in hand", low="3 mm", high="60 mm")
_PAD_THICKNESS = Input("pad_thickness", "length", "thickness of the pad in hand", low="0.5 mm", high="12 mm")
_UNDER = Input(
    "under", "length", "how much smaller than the cup a pad is, on the diameter",
    default="0.2 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_LEAST_UNDER = Input(
    "least_under", "length", "least that it is smaller, so that it does not bulge",
    default="0.1 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_MOST_UNDER = Input(
    "most_under", "length", "most that it is smaller, so that it cannot wander",
    default="0.3 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip
_BED = Input(
    "bed", "length", "bed of shellac or glue under the pad",
    default="0.3 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip
_SINK = Input(
    "sink", "length", "how deep the seat presses into the pad when it closes",
    default="0.1 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_OVERLAP = Input(
    "overlap", "length", "how far the pad reaches past the seat all round",
    default="0.5 mm", low="0 mm", high="5 mm", measured=False,
)  # fmt: skip
_OFF_THICKNESS = Input(
    "off_thickness", "length", "how far the pad's thickness may be off, to be made up by the bed",
    default="0.2 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip

_PADS = SHELVES["pads"].item

# Pads are sold in steps of half a millimetre (common practice, no source).
_STEP = Fraction(1, 2)

_DIAMETER = term("cup") - term("under")
_THICKNESS = Formula(
    lambda cup_depth, cup_to_seat, bed, sink: cup_depth + cup_to_seat - bed + sink,
    rises="cup_depth cup_to_seat sink",
    falls="bed",
)
_COVERS = Formula(
    lambda cup, under, seat, overlap: cup - under - seat - 2 * overlap,
    rises="cup",
    falls="under seat overlap",
)
_FITS = (
    term("cup") - term("least_under") - term("pad"),
    term("pad") + term("most_under") - term("cup"),
)
_THICK_ENOUGH = (
    term("pad_thickness") + term("off_thickness") - _THICKNESS,
    _THICKNESS + term("off_thickness") - term("pad_thickness"),
)


def _run(inputs: Inputs) -> Result:
    keep_below(inputs, "seat", "cup", may_touch=True)
    result = Result(WORKSHEET.id, inputs)
    diameter = result.figure(
        "diameter",
        _DIAMETER,
        how="cup - play round the pad",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    result.figure(
        "thickness",
        _THICKNESS,
        how="depth of the cup + rim to seat - bed + what the seat sinks in: parallel when it just closes",
        source=GEOMETRY,
    )
    if diameter is not None:
        _pads(result, diameter.value)
    _checks(result)
    result.steps += _STEPS
    return result


def _pads(result: Result, diameter: float) -> None:
    """List the real pads on either side of the figured diameter, and choose."""
    spans = result.inputs.spans
    steps = float(_STEP)
    sizes = {floor(diameter / steps + 1e-9) * _STEP, ceil(diameter / steps - 1e-9) * _STEP}
    made = [Piece(f"{float(size):g} mm", size) for size in sorted(sizes)]
    least = spans["cup"].value - spans["most_under"].value
    most = spans["cup"].value - spans["least_under"].value
    chosen = choose(result, _PADS, _pad_misfit(diameter, least, most), made)
    assert chosen is not None
    for piece in made if chosen.piece in made else sorted([*made, chosen.piece], key=lambda p: p.size):
        play = spans["cup"].value - piece.mm
        result.rows.append({"pad_diameter": piece.mm, "play_size": play, "chosen": piece == chosen.piece})


def _pad_misfit(diameter: float, least: float, most: float) -> Misfit:
    """Prefer a pad with the right play; a small one can be bedded, a large one bulges."""

    def misfit(piece: Piece) -> tuple[float, ...]:
        too_large = piece.mm - most
        missing = 100 + too_large if too_large > 1e-9 else max(least - piece.mm, 0.0)
        return missing, piece.mm > diameter + 1e-9, abs(piece.mm - diameter)

    return misfit


def _checks(result: Result) -> None:
    result.check(
        "covers_seat",
        _COVERS,
        yes="the pad covers the seat all round",
        no="the pad does not reach far enough past the seat: cup and hole do not go together here",
        ways_out=("centre the cup over the hole first", "ask whether the cup is of this instrument"),
    )
    if "pad" in result.inputs:
        result.check(
            "fits_cup",
            *_FITS,
            yes="the pad fits the cup",
            no="the pad bulges in the cup or wanders in it",
            ways_out=("the next size of pad",),
        )
    if "pad_thickness" in result.inputs:
        result.check(
            "thickness_right",
            *_THICK_ENOUGH,
            yes="the pad closes level, its bed making up the rest",
            no="the pad is too thick or too thin: it touches first at the back or at the front",
            ways_out=("a pad of the thickness figured", "card behind a thin pad, never bend the key for it"),
        )


_STEPS = (
    "Cause before pad: posts, rod, hinge, cup and seat first. A sound pad that leaks is not the fault.",
    "Warm the cup, not the pad; keep flame from the body. Test with a feeler strip at four places.",
)

WORKSHEET = Worksheet(
    id="pad_size",
    title="Pad: diameter and thickness for a cup and its seat",
    inputs=(
        _CUP, _CUP_DEPTH, _CUP_TO_SEAT, _SEAT, _PAD, _PAD_THICKNESS, _UNDER, _LEAST_UNDER, _MOST_UNDER, _BED,
        _SINK, _OVERLAP, _OFF_THICKNESS, _PADS,
    ),
    run=_run,
    example="cup=11.2mm cup_depth=1.8mm cup_to_seat=1.1mm seat=9mm pad=11mm",
)  # fmt: skip
