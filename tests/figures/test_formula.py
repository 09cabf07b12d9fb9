"""Formulas: the declared directions are the true ones, and the bounds are as narrow as they can be."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import BadInput, Span
from tests.figures.drawn import OTHERWISE, RANGES, all_formulas, sensible

_TWO_WAYS = ("_ARC_RISING", "_ARC_FALLING")
_FORMULAS = {f"{label}": formula for label, formula in all_formulas()}
_ONE_WAY = {label: f for label, f in _FORMULAS.items() if not label.endswith(_TWO_WAYS)}


def _numbers(formula: Formula, random: Random) -> dict[str, float]:
    while True:
        found = {name: random.uniform(*RANGES.get(name, OTHERWISE)) for name in formula.names}
        if sensible(found):
            return found


def _computed(formula: Formula, numbers: dict[str, float]) -> float | None:
    try:
        return formula.compute(**numbers)
    except (ValueError, ZeroDivisionError):
        return None


@pytest.mark.parametrize("label", _ONE_WAY)
def test_each_input_moves_the_result_the_way_that_is_declared(label: str) -> None:
    """On random numbers, growing one input alone never moves the result against its declared direction."""
    formula, random = _ONE_WAY[label], Random(label)
    for _ in range(60):
        before = _numbers(formula, random)
        for name in (n for n in formula.names if n in formula.rises | formula.falls):
            low, high = RANGES.get(name, OTHERWISE)
            after = {**before, name: random.uniform(before[name], high) if low < high else high}
            if not sensible(after):
                continue
            a, b = _computed(formula, before), _computed(formula, after)
            if a is None or b is None or low == high:
                continue
            noise = 1e-9 * max(1.0, abs(a), abs(b))
            assert b >= a - noise if name in formula.rises else b <= a + noise, (name, before, after)


@pytest.mark.parametrize("label", _ONE_WAY)
def test_bounds_are_those_of_the_true_range(label: str) -> None:
    """The bounds of a formula are the least and the greatest value over all corners of the readings."""
    formula, random = _ONE_WAY[label], Random(label)
    for _ in range(8):
        middle = _numbers(formula, random)
        spans = {
            name: Span(v - d, v, v + d) if name in formula.rises | formula.falls else Span.exact(v)
            for name, v in middle.items()
            for d in [random.uniform(0.0, 0.05) * abs(v)]
        }
        ends = [(span.low, span.high) if span.low < span.high else (span.low,) for span in spans.values()]
        corners = [dict(zip(formula.names, corner, strict=True)) for corner in product(*ends)]
        if not all(sensible(corner) for corner in corners):
            continue
        try:
            found = formula(spans)
        except BadInput:
            continue
        values = [formula.compute(**corner) for corner in corners]
        assert found is not None
        assert found.low == pytest.approx(min(values), rel=1e-9, abs=1e-9)
        assert found.high == pytest.approx(max(values), rel=1e-9, abs=1e-9)


def test_a_missing_input_gives_nothing_and_is_named() -> None:
    """Without all its inputs a formula gives None and names what is missing, never a guess."""
    formula = term("wall") - term("depth")
    assert formula({"wall": Span.exact(6.0)}) is None
    assert formula.missing({"wall": Span.exact(6.0)}) == ["depth"]


def test_joining_against_itself_is_refused() -> None:
    """An input that would move the whole both ways must be written out, not joined."""
    with pytest.raises(ValueError, match="directions"):
        term("hole") - term("hole")


def test_one_sign_a_part() -> None:
    """Joining asks for exactly one sign a part."""
    with pytest.raises(ValueError, match="zip"):
        joined(lambda a, b: a + b, "+", term("a"), term("b"))


def test_numbers_outside_the_formula_are_bad_input() -> None:
    """A square root of less than nothing becomes one clear refusal that names the inputs."""
    root = Formula(lambda body: (-body) ** 0.5 if body < 0 else _raise(), rises="body")
    with pytest.raises(BadInput, match="body"):
        root({"body": Span.exact(1.0)})


def _raise() -> float:
    raise ValueError
