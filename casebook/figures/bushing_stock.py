"""What a bushing is made with: tap, drill, bar and collet, from the drawer where one is kept."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from casebook.figures.drawer import Piece, choose, choose_thread, on_hand
from casebook.figures.shared_inputs import COLLETS, DRILLS, ROD, TAPS
from casebook.figures.tap_drill import NO_TAP, PERCENT, pick_drill
from casebook.figures.worksheet import Result

# Common practice, no source: a little more bar than the bushing is wide; bar is sold by the half millimetre.
_BAR_ALLOWANCE_MM = 0.5
_BAR_STEP_MM = 0.5
# A collet closes on a bar this much thinner or thicker than its name, mm (common practice, no source).
_COLLET_TAKES_MM = 0.1


def bar(outside: float) -> Piece:
    """Give the bar on sale to start from, for a bushing of `outside` mm."""
    size = ceil((outside + _BAR_ALLOWANCE_MM) / _BAR_STEP_MM - 1e-9) * Fraction(_BAR_STEP_MM)
    return Piece(f"{float(size):.1f} mm", size)


def choose_stock(result: Result) -> None:
    """Choose the tap's drill, the bar and the collet, and see whether the tap is there."""
    thread, outside = result.inputs.thread(), result.figures.get("outside")
    if thread is not None:
        percent = Fraction(PERCENT[result.inputs.word("metal")])
        result.chosen["drills"] = pick_drill(thread, percent, have=on_hand(result, DRILLS))
        choose_thread(result, TAPS, thread, NO_TAP)
    if outside is None or outside.value is None:
        return
    needed = outside.value + _BAR_ALLOWANCE_MM
    stock = choose(result, ROD, lambda piece: (max(needed - piece.mm, 0.0),), [bar(outside.value)])
    if stock is not None and on_hand(result, COLLETS):
        held = stock.piece
        choose(
            result,
            COLLETS,
            lambda piece: (max(abs(piece.mm - held.mm) - _COLLET_TAKES_MM, 0.0), abs(piece.mm - held.mm)),
            [Piece(f"a collet of {held.name}", held.size)],
        )
