"""A small worksheet that never changes, for pictures of the screens."""

from __future__ import annotations

from casebook.figures.formula import Formula
from casebook.figures.inputs import Input, Inputs
from casebook.figures.section import centred, circle, drawing
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_OUTSIDE = Formula(lambda hole, clean_up: hole + clean_up, rises="hole clean_up")
_HIDDEN = Formula(
    lambda flange, hole, clean_up: flange - hole - clean_up, rises="flange", falls="hole clean_up"
)


def _run(inputs: Inputs) -> Result:
    result = Result("bushing", inputs)
    outside = result.figure("outside_max", _OUTSIDE, how="hole + clean-up", source=COMMON_PRACTICE)
    result.check("hidden_by_flange", _HIDDEN, yes="the flange hides it", no="it would show round the flange")
    if outside is not None and "body" in inputs.spans:
        half = inputs.spans["body"].value / 2
        result.drawing = drawing(
            "across the body at the post",
            [
                circle("body", "body", 0, 0, half),
                centred("bushing", "bushing", half, outside.value, half / 3),
            ],
        )
    result.steps.append("Measure the hole as cut.")
    return result


FROZEN = Worksheet(
    "bushing",
    "Hidden bushing: a small one, frozen",
    (
        Input("flange", "length", "diameter of the flange"),
        Input("hole", "length", "the hole, at its widest"),
        Input("body", "length", "outside diameter of the body there"),
        Input("clean_up", "length", "what truing takes, on the diameter", default="0.1 mm"),
    ),
    _run,
    "flange=7.5mm hole=5.2mm",
)
