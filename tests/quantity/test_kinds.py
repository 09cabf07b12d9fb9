"""Counts, temperatures, forces and the rest, by kind."""

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.quantity import NotUnderstood, Reading, read_quantity

# Signs that quantities are typed with, so that random text comes near to meaning something.
SIGNS = "0123456789.,/ #-+±x*mMinthoudrlBASWtpi'\"½%°CFg"


@pytest.mark.parametrize(
    ("kind", "typed", "value", "unit"),
    [
        ("count", "3", "3", "count"),
        ("percent", "75", "75", "percent"),
        ("percent", "72,5 %", "72.5", "percent"),
        ("humidity", "45%", "45", "percent"),
        ("humidity", "45 % RH", "45", "percent"),
        ("angle", "10", "10", "deg"),
        ("angle", "47.5°", "47.5", "deg"),
        ("temperature", "21C", "21", "celsius"),
        ("temperature", "21 °C", "21", "celsius"),
        ("temperature", "21℃", "21", "celsius"),
        ("temperature", "-5 °C", "-5", "celsius"),
        ("temperature", "70F", "190/9", "celsius"),
        ("temperature", "-40 F", "-40", "celsius"),
        ("force", "3", "3", "N"),
        ("force", "3 N", "3", "N"),
        ("force", "300 g", "2.941995", "N"),
        ("force", "300gf", "2.941995", "N"),
        ("number", "1,5", "1.5", "number"),
        ("any_size", "3", "3", "count"),
        ("any_size", "3 mm", "3", "mm"),
        ("pitch", "48 tpi", "127/240", "mm"),
        ("length", "3 mm", "3", "mm"),
    ],
)
def test_a_quantity_is_read_exactly_in_the_unit_of_its_kind(
    kind: str, typed: str, value: str, unit: str
) -> None:
    reading = read_quantity(kind, typed)
    assert isinstance(reading, Reading)
    assert (reading.value, reading.unit) == (Fraction(value), unit)


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        ("count", "2.5"), ("count", "-1"), ("count", "1e5"), ("count", "3 mm"), ("count", "99999999"),
        ("percent", "-5"), ("percent", "nan"), ("percent", ""), ("humidity", "101"), ("humidity", "-1"),
        ("angle", "400"), ("angle", "10 mm"), ("temperature", "70"), ("temperature", "-300C"),
        ("temperature", "9999F"), ("temperature", "21K"), ("force", "heavy"), ("force", "-3 N"),
        ("number", "inf"), ("number", "1/2/3"), ("any_size", "3.5"), ("any_size", "-3"), ("pitch", "0 tpi"),
        ("pitch", "48"), ("thread", "48"),
    ],
)  # fmt: skip
def test_what_is_no_such_quantity_is_refused(kind: str, typed: str) -> None:
    with pytest.raises(NotUnderstood) as refused:
        read_quantity(kind, typed)
    assert refused.value.instead


@given(
    st.sampled_from(("count", "percent", "humidity", "angle", "temperature", "force", "number", "any_size")),
    st.text(max_size=70) | st.text(SIGNS, max_size=10),
)
def test_nothing_typed_ends_in_anything_but_a_reading_or_a_refusal(kind: str, typed: str) -> None:
    with suppress(NotUnderstood):
        assert isinstance(read_quantity(kind, typed), Reading)
