"""The cutter for a bushing's hole: chosen from the drawer, or the next sizes that can be bought."""

from __future__ import annotations

from casebook.figures.bushing_sizes import LEAST_WOOD_HOLE
from casebook.figures.cutters import best_of, in_drawer, on_sale
from casebook.figures.inputs import Inputs, Span
from casebook.figures.worksheet import Result


def choose_cutter(inputs: Inputs) -> None:
    """Put the cutter of the drawer that suits best among the numbers, where a drawer was given."""
    cutters = in_drawer(inputs.word("cutters"))
    least = _least_wood_hole(inputs)
    if not cutters or least is None:
        return
    flange = inputs.spans.get("flange")
    most = float("inf")
    if flange is not None:
        spare = max(inputs.spans["hide_margin"].value - 2 * inputs.spans["gap"].value, 0.0)
        most = flange.value - spare
    inputs.derive("cutter", Span.exact(best_of(cutters, least, most).diameter), "cutters")


def cutter_rows(result: Result) -> list[dict[str, object]]:
    """List the cutters that come in question: those of the drawer, else the next sizes that can be bought."""
    least = _least_wood_hole(result.inputs)
    if least is None:
        return []
    gap = result.inputs.spans["gap"].value
    widest = result.figures.get("outside_max")
    chosen = result.inputs.spans.get("cutter")
    rows: list[dict[str, object]] = []
    for cutter in in_drawer(result.inputs.word("cutters")) or on_sale(least):
        outside = cutter.diameter - 2 * gap
        hides = "" if widest is None or widest.value is None else _yes(outside <= widest.value)
        rows.append({
            "cutter": cutter.name,
            "diameter": cutter.diameter,
            "outside": outside,
            "cleans": _yes(cutter.diameter >= least),
            "hides": hides,
            "chosen": chosen is not None and cutter.diameter == chosen.value,
        })  # fmt: skip
    return rows


def _yes(holds: bool) -> str:
    return "yes" if holds else "no"


def _least_wood_hole(inputs: Inputs) -> float | None:
    span = LEAST_WOOD_HOLE(inputs.spans)
    return None if span is None else span.value
