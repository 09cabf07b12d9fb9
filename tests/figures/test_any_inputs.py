"""Every worksheet on random sensible inputs: a result or one clear refusal, and doubt that only blurs."""

from __future__ import annotations

from fractions import Fraction
from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casebook.figures import IDS, worksheet
from casebook.figures.as_json import result_json
from casebook.figures.as_text import result_text
from casebook.figures.inputs import BadInput, Input, read
from casebook.figures.worksheet import Result
from casebook.quantity import Reading

_UNIT = {"mm": " mm", "celsius": "C", "N": " N"}
_WORDS = {
    "thread": ("3-48", "M2.5x0.45", "6BA"),
    "threads": ("3-48, M2.5", "6BA"),
    "numbers": ("60, 120, 250", "900"),
    "sizes": ("5 mm", "3/16, 5.5 mm", "12 mm, 13 mm, 14 mm"),
    "text": ("0.5/1/2", "0.5/1/2, 1/1.5/3"),
    "any_size": ("5 mm", "3"),
}
_WIDEST = {
    "length": ("0 mm", "80 mm"),
    "pitch": ("0.1 mm", "2 mm"),
    "angle": ("0", "360"),
    "count": ("0", "40"),
}


def _typed(item: Input) -> st.SearchStrategy[str]:
    """Draw what somebody may sensibly type for an input."""
    if item.choices:
        return st.sampled_from(item.choices)
    if item.kind in _WORDS:
        return st.sampled_from(_WORDS[item.kind])
    least, most = _WIDEST.get(item.kind, ("0", "100"))
    low, high = item.read(item.low or least), item.read(item.high or most)
    assert isinstance(low, Reading)
    assert isinstance(high, Reading)
    unit = _UNIT.get(low.unit, "")
    if item.kind == "count":
        return st.integers(int(low.value), int(high.value)).map(str)
    bottom, top = float(low.value), float(high.value)
    # Most sizes of a bench lie near the lower end of what is sensible.
    span = min(top - bottom, 40.0)
    return st.integers(0, 200).map(lambda part: f"{bottom + span * (part / 200) ** 2:.3f}{unit}")


def _run(id: str, typed: dict[str, str], error: str) -> Result | BadInput:
    sheet = worksheet(id)
    try:
        return sheet.run(read(sheet.inputs, typed, error=Fraction(error)))
    except BadInput as refused:
        return refused


@pytest.mark.parametrize("id", IDS)
@given(data=st.data())
@settings(max_examples=30)
def test_any_sensible_inputs_give_a_result_or_one_refusal(id: str, data: st.DataObject) -> None:
    """No mix of inputs breaks a worksheet, what it gives is finite and can be shown, and doubt only blurs."""
    items = {item.name: item for item in worksheet(id).inputs}
    chosen = data.draw(st.lists(st.sampled_from(list(items)), unique=True, max_size=len(items)))
    typed = {name: data.draw(_typed(items[name]), label=name) for name in chosen}
    sharp, blurred = _run(id, typed, "0.01"), _run(id, typed, "0.05")
    for got in (sharp, blurred):
        if isinstance(got, BadInput):
            assert got.name in items, got
            assert "\n" not in str(got)
    if isinstance(sharp, BadInput) or isinstance(blurred, BadInput):
        return
    for figure in sharp.figures.values():
        assert figure.value is None or isfinite(figure.value)
    assert result_text(sharp, "in")
    assert result_json(sharp)["figures"].keys() == sharp.figures.keys()
    for name, check in blurred.checks.items():
        if name in sharp.checks:
            assert check.holds in (sharp.checks[name].holds, "unknown"), name
