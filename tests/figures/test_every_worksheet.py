"""What every worksheet promises, whatever it works out: read from its own example, and broken on purpose."""

from __future__ import annotations

import shlex
from fractions import Fraction
from math import isfinite

import pytest

from casebook.figures import IDS, worksheet
from casebook.figures.as_json import result_json
from casebook.figures.as_text import result_text
from casebook.figures.inputs import BadInput, Input, read
from casebook.figures.worksheet import Check, Result
from casebook.quantity import Reading
from casebook.tables import CHECKED

_LONG = "999999 mm"
_WRONG = {
    "length": ("0 mm", _LONG, "-1 mm", "wide"),
    "pitch": ("0 mm", _LONG, "fine"),
    "temperature": ("500C", "21"),
    "humidity": ("101", "-3"),
    "percent": ("-1",),
    "number": ("-1", "many"),
    "count": ("-1", "2.5"),
    "angle": ("-4", "400"),
    "force": ("-1 N",),
    "choice": ("marmalade",),
    "sets": ("marmalade",),
    "sizes": ("5 mm, wide",),
    "threads": ("3-48, wide",),
    "numbers": ("60, fast",),
}
_SIZED = ("length", "pitch", "temperature", "humidity", "number", "count")


def _example(id: str, error: str = "0.02") -> Result:
    sheet = worksheet(id)
    typed = dict(word.split("=", 1) for word in shlex.split(sheet.example))
    return sheet.run(read(sheet.inputs, typed, error=Fraction(error)))


def _inputs() -> list[tuple[str, Input]]:
    return [(id, item) for id in IDS for item in worksheet(id).inputs]


@pytest.mark.parametrize("id", IDS)
def test_its_example_works(id: str) -> None:
    """The example on its help gives figures or checks, as text and as JSON."""
    result = _example(id)
    assert result.figures or result.checks
    assert result_text(result, "thou")
    assert result_json(result)["worksheet"] == id


@pytest.mark.parametrize("id", IDS)
def test_every_figure_says_how_and_from_where(id: str) -> None:
    """No figure without its formula in words, its source, how that was checked, and bounds in order."""
    for name, figure in _example(id).figures.items():
        assert figure.how, name
        assert figure.source, name
        assert figure.checked in CHECKED, name
        if figure.value is not None and figure.low is not None and figure.high is not None:
            assert figure.low <= figure.value <= figure.high, name
            assert isfinite(figure.high), name


@pytest.mark.parametrize("id", IDS)
def test_a_check_that_does_not_hold_names_a_way_out(id: str) -> None:
    """Every check says what it means; one that does not hold says what to do instead."""
    for name, check in _example(id).checks.items():
        assert check.says, name
        # Holding one size against another judges nothing, so it knows no way out.
        assert check.holds == "yes" or check.ways_out or check.waits_on or id == "compare", name


@pytest.mark.parametrize("id", IDS)
def test_a_larger_reading_error_only_blurs(id: str) -> None:
    """With more doubt yes or no may become unknown, never the other way round, and no interval narrows."""
    sharp, blurred = _example(id, "0"), _example(id, "0.3")
    for name, check in blurred.checks.items():
        before: Check = sharp.checks[name]
        assert check.holds in (before.holds, "unknown"), name
    for name, figure in blurred.figures.items():
        exact = sharp.figures[name]
        if exact.low is None or exact.high is None or figure.low is None or figure.high is None:
            assert exact.value == figure.value, name
            continue
        assert figure.low <= exact.low, name
        assert figure.high >= exact.high, name


@pytest.mark.parametrize("id", IDS)
def test_without_inputs_nothing_is_guessed(id: str) -> None:
    """With defaults alone no check holds or fails, and no worksheet breaks."""
    sheet = worksheet(id)
    result = sheet.run(read(sheet.inputs, {}))
    assert {check.holds for check in result.checks.values()} <= {"unknown"}


@pytest.mark.parametrize(
    ("id", "item", "typed"),
    [
        pytest.param(id, item, typed, id=f"{id} {item.name}={typed}")
        for id, item in _inputs()
        for typed in _WRONG.get(item.kind, ())
        if not (typed == "0 mm" and (item.default is not None or item.low is not None))
    ],
)
def test_a_senseless_input_is_refused_by_name(id: str, item: Input, typed: str) -> None:
    """One clear refusal that names the input, before anything is worked out."""
    if typed == _LONG and item.high is None:
        pytest.skip("sizes of a thread have no upper end of their own")
    with pytest.raises(BadInput) as refused:
        read(worksheet(id).inputs, {item.name: typed})
    assert refused.value.name == item.name
    assert len(str(refused.value).splitlines()) == 1


@pytest.mark.parametrize(
    "item", [pytest.param(item, id=f"{id} {item.name}") for id, item in _inputs() if item.high]
)
def test_a_refusal_says_the_sensible_range(item: Input) -> None:
    """A value over the upper end is refused with that end in words."""
    assert item.high is not None
    top = item.read(item.high)
    if isinstance(top, str):
        # A list: each part of it has the range.
        with pytest.raises(BadInput, match="sensible"):
            item.read("9" + item.high)
        return
    assert isinstance(top, Reading)
    over = Reading.exact(top.value + 1, unit=top.unit)
    with pytest.raises(BadInput, match="sensible"):
        item.keep_in_range(over)
