"""The cutter for a bushing's hole: chosen from the drawer, or the next sizes that can be bought."""

from __future__ import annotations

from casebook.figures.bushing_sizes import LEAST_WOOD_HOLE
from casebook.figures.cutters import between, on_sale
from casebook.figures.drawer import choose, on_hand
from casebook.figures.inputs import Inputs, Span
from casebook.figures.shared_inputs import CUTTERS
from casebook.figures.worksheet import Result


def choose_cutter(result: Result) -> None:
    """Put what the hole is cut to among the numbers: as cut, else by the best cutter of the drawer.

    Without either the bushing may be of any size.
    """
    inputs = result.inputs
    if "hole_as_cut" in inputs:
        inputs.derive("cutter", inputs.spans["hole_as_cut"], "hole_as_cut")
        return
    least = _least_wood_hole(inputs)
    if least is None:
        return
    flange = inputs.spans.get("flange")
    most = float("inf")
    if flange is not None:
        spare = max(inputs.spans["hide_margin"].value - 2 * inputs.spans["gap"].value, 0.0)
        most = flange.value - spare
    chosen = choose(result, CUTTERS, between(least, most), on_sale(least))
    if chosen is not None and chosen.kept:
        inputs.derive("cutter", Span.exact(chosen.piece.mm), "cutters")


def cutter_rows(result: Result) -> list[dict[str, object]]:
    """List the cutters that come in question: those of the drawer, else the next sizes that can be bought."""
    least = _least_wood_hole(result.inputs)
    if least is None:
        return []
    gap = result.inputs.spans["gap"].value
    widest = result.figures.get("outside_max")
    chosen = result.chosen.get("cutters")
    rows: list[dict[str, object]] = []
    for cutter in on_hand(result, CUTTERS) or on_sale(least):
        outside = cutter.mm - 2 * gap
        hides = "" if widest is None or widest.value is None else _yes(outside <= widest.value)
        rows.append({
            "cutter": cutter.name,
            "diameter": cutter.mm,
            "outside": outside,
            "cleans": _yes(cutter.mm >= least),
            "hides": hides,
            "chosen": chosen is not None and chosen.kept and cutter == chosen.piece,
        })  # fmt: skip
    return rows


def _yes(holds: bool) -> str:
    return "yes" if holds else "no"


def _least_wood_hole(inputs: Inputs) -> float | None:
    span = LEAST_WOOD_HOLE(inputs.spans)
    return None if span is None else span.value
