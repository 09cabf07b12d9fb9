"""Tenon in its socket: play of wood in wood, and the cork or thread that fills the groove."""

from __future__ import annotations

from math import ceil, pi

from casebook.figures.drawer import Piece, choose, on_hand, pieces
from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.moisture import CLIMATE, SPECIES, after, derive_movement, has_climate, moved_figure
from casebook.figures.round_body import GEOMETRY, keep_below
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_SOCKET = Input("socket", "length", "diameter of the socket at its mouth", low="4 mm", high="120 mm")
_TENON = Input(
    "tenon", "length", "diameter of the tenon on the wood, at the shoulder", low="4 mm", high="120 mm"
)
_GROOVE = Input(
    "groove_diameter", "length", "diameter at the bottom of the groove", low="3 mm", high="120 mm"
)
_GROOVE_LENGTH = Input("groove_length", "length", "length of the groove", low="1 mm", high="60 mm")
_COMPRESSION = Input(
    "compression", "percent", "how much the cork is squeezed",
    default="25", low="0", high="60", measured=False,
)  # fmt: skip
_SHEETS = Input(
    "sheets", "sizes", "thicknesses of sheet cork in the drawer",
    default="0.5 mm, 0.8 mm, 1 mm, 1.2 mm, 1.5 mm, 1.6 mm, 1.8 mm, 2 mm, 2.2 mm, 2.5 mm, 3 mm",
    low="0.1 mm", high="20 mm", measured=False, shelf="sheet",
)  # fmt: skip
_SHEET_IN_HAND = Input(
    "sheet_in_hand", "length", "thickness of the sheet that is really taken, by micrometer",
    low="0.1 mm", high="20 mm",
)  # fmt: skip
_THREAD = Input(
    "lapping_thread", "length", "diameter of the waxed thread, by wraps laid side by side",
    low="0.05 mm", high="2 mm", measured=False,
)  # fmt: skip
_LEAST_PLAY = Input(
    "least_play", "length", "least play of the wood, on the diameter",
    default="0.05 mm", low="0 mm", high="1 mm", measured=False,
)  # fmt: skip
_MOST_PLAY = Input(
    "most_play", "length", "most play of a good fit, on the diameter",
    default="0.15 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_ROCKS_OVER = Input(
    "rocks_over", "length", "play from which the joint rocks whatever the lapping",
    default="0.3 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip

# So much a sheet is sanded down without a thought (common practice, no source); a thinner one holds less.
_MOST_SANDED = 0.5
_THINNER = 100.0

CLEARANCE = term("socket") - term("tenon")
_SPACE = Formula(
    lambda socket, groove_diameter: (socket - groove_diameter) / 2, rises="socket", falls="groove_diameter"
)
_CORK = Formula(
    lambda socket, groove_diameter, compression: (socket - groove_diameter) / 2 / (1 - compression / 100),
    rises="socket compression",
    falls="groove_diameter",
)
_SQUEEZED = Formula(
    lambda socket, groove_diameter, sheet_in_hand: 100 * (1 - (socket - groove_diameter) / 2 / sheet_in_hand),
    rises="groove_diameter sheet_in_hand",
    falls="socket",
)
_LAYERS = Formula(
    lambda socket, groove_diameter, lapping_thread: (socket - groove_diameter) / 2 / lapping_thread,
    rises="socket",
    falls="groove_diameter lapping_thread",
)
_WRAPS = joined(
    lambda layers, turns: layers * turns,
    "++",
    _LAYERS,
    Formula(
        lambda groove_length, lapping_thread: groove_length / lapping_thread,
        rises="groove_length",
        falls="lapping_thread",
    ),
)
# Wraps lie round the groove's middle circle: (pi/4) (socket^2 - groove^2) groove_length / thread^2.
_THREAD_LENGTH = Formula(
    lambda socket, groove_diameter, groove_length, lapping_thread: (
        pi / 4 * (socket**2 - groove_diameter**2) * groove_length / lapping_thread**2
    ),
    rises="socket groove_length",
    falls="groove_diameter lapping_thread",
)
# The tenon takes up the player's moisture, the socket about it hardly: the worst case for a tight joint.
_CLEARANCE_AFTER = term("socket") - after("tenon", "tangential_strain")


def _run(inputs: Inputs) -> Result:
    keep_below(inputs, "groove_diameter", "socket")
    keep_below(inputs, "groove_diameter", "tenon", may_touch=True)
    derive_movement(inputs)
    result = Result(WORKSHEET.id, inputs)
    result.figure("clearance", CLEARANCE, how="socket - tenon, on the diameter", source=GEOMETRY)
    result.figure("space", _SPACE, how="(socket - groove) / 2: room for the lapping, a side", source=GEOMETRY)
    result.figure("cork", _CORK, how="space / (1 - compression): cork before it is squeezed", source=GEOMETRY)
    _sheets(result)
    for name, formula, unit, how in (
        ("layers", _LAYERS, "count", "space / thread: layers of thread"),
        ("wraps", _WRAPS, "count", "layers x groove length / thread"),
        ("thread_length", _THREAD_LENGTH, "mm", "space to fill / square of the thread's diameter"),
    ):
        result.figure(name, formula, unit=unit, how=how, source=GEOMETRY)
    moved_figure(
        result,
        "clearance_after",
        _CLEARANCE_AFTER,
        how="socket - tenon once the tenon alone has moved along the rings",
    )
    _checks(result)
    result.steps += _STEPS
    return result


def _sheets(result: Result) -> None:
    """Choose the thinnest sheet that is squeezed no less than wanted, else the thickest there is."""
    space, cork = _SPACE(result.inputs.spans), _CORK(result.inputs.spans)
    if space is None or cork is None:
        return
    wanted = cork.value

    def misfit(piece: Piece) -> tuple[float, ...]:
        over = piece.mm - wanted + 1e-9
        return (max(over - _MOST_SANDED, 0.0),) if over >= 0 else (_THINNER - over,)

    best = choose(result, _SHEETS, misfit)
    if best is None:
        return
    chosen = best.piece.mm
    for piece in on_hand(result, _SHEETS) or pieces(_SHEETS.default or ""):
        squeezed = 100 * (1 - space.value / piece.mm)
        if abs(piece.mm - chosen) <= 0.5:
            row = {"sheet_size": piece.mm, "percent_squeezed": squeezed, "chosen": piece.mm == chosen}
            result.rows.append(row)
    result.figure(
        "squeezed",
        _SQUEEZED,
        unit="percent",
        how="1 - space / sheet, with the sheet in hand",
        source=GEOMETRY,
    )
    result.table_figure(
        "sheet",
        chosen,
        how="thinnest sheet that is squeezed as wanted (sand it to fit), else the thickest there is",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    wraps = result.figures.get("layers")
    if wraps is not None and wraps.value is not None:
        result.steps.append(f"Thread: about {ceil(wraps.value)} layers, crossed, each waxed.")


def _checks(result: Result) -> None:
    result.check(
        "goes_in",
        CLEARANCE - term("least_play"),
        yes="the wood has play enough in its socket",
        no="the wood has too little play: it will seize when it swells",
        ways_out=(
            "rest both joints and measure again before any wood is turned",
            "ease the high spots of the tenon, with the owner's consent",
        ),
    )
    result.check(
        "close_fit",
        term("most_play") - CLEARANCE,
        yes="the wood fits closely",
        no="the wood fits loosely",
        ways_out=("lapping to suit, as long as the joint does not rock", "build up the tenon or the socket"),
    )
    result.check(
        "does_not_rock",
        term("rocks_over") - CLEARANCE,
        yes="the play is small enough that the lapping can hold the joint",
        no="the joint rocks whatever the lapping",
        ways_out=("build up the tenon with a thin wood or thread sleeve", "sleeve the socket"),
    )
    if has_climate(result.inputs):
        result.check(
            "goes_in_after",
            _CLEARANCE_AFTER,
            yes="the tenon still goes in after it has moved",
            no="the tenon will seize in its socket after it has moved",
            ways_out=("leave more play than now seems needed", "rest it in the air it will live in first"),
        )


_STEPS = (
    "Measure tenon and socket along and across the grain: more than 0.15 mm apart means moved wood, so rest"
    f" it first ({COMMON_PRACTICE}).",
    "Lapping before wood: try what cork or thread can do before anything is turned.",
    "Thin walls take thread, wound without crushing; cork is for later instruments.",
)

WORKSHEET = Worksheet(
    id="tenon_fit",
    title="Tenon fit: play in the socket, cork or wraps of thread for the groove",
    inputs=(
        _SOCKET, _TENON, _GROOVE, _GROOVE_LENGTH, _COMPRESSION, _SHEETS, _SHEET_IN_HAND, _THREAD, _LEAST_PLAY,
        _MOST_PLAY, _ROCKS_OVER, SPECIES, *CLIMATE,
    ),
    run=_run,
    example="socket=22.2mm tenon=22.1mm groove_diameter=19.5mm groove_length=12mm lapping_thread=0.3mm",
)  # fmt: skip
