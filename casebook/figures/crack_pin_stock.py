"""What crack pins are made with: rod, die and drill, from the drawer where one is kept."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from casebook.figures.cutters import between, largest, on_sale
from casebook.figures.drawer import Chosen, Piece, choose, choose_thread, on_hand
from casebook.figures.formula import Formula
from casebook.figures.inputs import Span
from casebook.figures.shared_inputs import DIES, DRILLS, ROD
from casebook.figures.tap_drill import PERCENT, pick_drill
from casebook.figures.worksheet import COMMON_PRACTICE, Result

# Rod this much thicker or thinner than the pin still makes it, mm; a plain pin's hole is up to so much wider
# (common practice, no source).
_ROD_OFF = 0.05
_HOLE_OVER = 0.1
_STEP = 0.1
_NO_DIE = "take a thread whose die is there, or a plain pin"


def choose_pin(result: Result, thickest: Formula) -> None:
    """Put the pin among the numbers where none was typed: its thread's, else the thickest rod that does."""
    inputs, thread = result.inputs, result.inputs.thread()
    if "pin" in inputs:
        return
    if thread is not None:
        inputs.derive("pin", Span.exact(float(thread.major)), "thread")
        return
    most = thickest(inputs.spans)
    if most is None or most.low <= 0 or on_hand(result, ROD) is None:
        return
    tenths = Fraction(floor(most.low / _STEP + 1e-9), 10)
    chosen = choose(result, ROD, largest(0.0, most.low), [Piece(f"{float(tenths):g} mm", tenths)])
    if chosen is not None and chosen.does:
        inputs.derive("pin", Span.exact(chosen.piece.mm), "rod")


def choose_tools(result: Result) -> None:
    """Choose rod, die and drill for the pin."""
    inputs, thread = result.inputs, result.inputs.thread()
    pin = inputs.spans.get("pin")
    if thread is not None:
        choose_thread(result, DIES, thread, _NO_DIE)
        percent = Fraction(PERCENT["wood"])
        drill = result.chosen["drills"] = pick_drill(thread, percent, have=on_hand(result, DRILLS))
        _keep_drill(result, drill, float(thread.hole(percent)), f"tap drill of {thread.designation} in wood")
    elif pin is not None:
        plain = choose(result, DRILLS, between(pin.value, pin.value + _HOLE_OVER), on_sale(pin.value))
        if plain is not None:
            _keep_drill(result, plain, pin.value, "as wide as the plain pin, or a little wider for the glue")
    if pin is not None and "rod" not in result.chosen:
        exact = Piece(f"{pin.value:.4g} mm", Fraction(pin.value).limit_denominator(10**6))
        choose(result, ROD, between(pin.value - _ROD_OFF, pin.value + _ROD_OFF), [exact])


def _keep_drill(result: Result, drill: Chosen, wanted: float, what: str) -> None:
    """Keep the drill as a figure: the one chosen, or the hole wanted where a better one is made."""
    size, called = (wanted, "the hole wanted") if drill.says else (drill.piece.mm, drill.piece.name)
    result.table_figure(
        "drill", size, how=f"{called}: {what}", source=COMMON_PRACTICE, checked="common practice"
    )
