"""The compare worksheet."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures import worksheet
from casebook.figures.inputs import BadInput, read
from casebook.figures.worksheet import Result


def run(**typed: str) -> Result:
    sheet = worksheet("compare")
    return sheet.run(read(sheet.inputs, typed))


@pytest.mark.parametrize(
    ("this", "other", "by", "at_most", "at_least"),
    [
        ("4.5 mm", "0.190 in", "0", "yes", "no"),
        ("5.2 mm", "0.190 in", "0", "no", "yes"),
        ("5.0 mm", "0.190 in", "10 thou", "yes", "no"),
        ("0.190 in", "4.826 mm", "0", "unknown", "unknown"),
        ("4.826 mm", "4.8 mm", "26 thou", "yes", "no"),
        ("3", "2", "0", "no", "yes"),
        ("2", "2", "0", "yes", "yes"),
        ("2", "1", "1", "yes", "yes"),
        ("0", "2 mm", "0", "yes", "no"),
    ],
)
def test_one_against_another_with_an_allowance(
    this: str, other: str, by: str, at_most: str, at_least: str
) -> None:
    checks = run(this=this, other=other, by=by).checks
    assert (checks["at_most"].holds, checks["at_least"].holds) == (at_most, at_least)


@pytest.mark.parametrize(
    ("this", "other", "percent", "at_most"),
    [
        ("0.5 mm", "1.8 mm", "33", "yes"),
        ("0.7 mm", "1.8 mm", "33", "no"),
        ("15.0 mm", "14.9 mm", "101", "yes"),
        ("15.3 mm", "14.9 mm", "101", "no"),
    ],
)
def test_a_size_may_be_held_against_a_part_of_another(
    this: str, other: str, percent: str, at_most: str
) -> None:
    """A chip against a third of the rim; a bore's wide way against its narrow way and one percent."""
    checks = run(this=this, other=other, percent=percent).checks
    assert checks["at_most"].holds == at_most
    assert checks["at_least"].holds == ("no" if at_most == "yes" else "yes")


def test_the_allowance_is_nothing_unless_given() -> None:
    assert run(this="5mm", other="4mm").checks["at_least"].margin == pytest.approx(1)


def test_lengths_are_judged_in_mm_and_counts_as_counts() -> None:
    assert run(this="5mm", other="4mm").checks["at_most"].unit == "mm"
    assert run(this="5", other="4").checks["at_most"].unit == "count"


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"this": "3", "other": "2 mm"}, "other"),
        ({"this": "3 mm", "other": "2"}, "other"),
        ({"this": "3 mm", "other": "2 mm", "by": "1"}, "by"),
        ({"this": "3.5", "other": "2"}, "this"),
        ({"this": "-3", "other": "2"}, "this"),
    ],
)
def test_a_length_against_a_count_is_refused(typed: dict[str, str], name: str) -> None:
    with pytest.raises(BadInput) as refused:
        run(**typed)
    assert refused.value.name == name


def test_what_is_missing_is_named() -> None:
    check = run(this="3 mm").checks["at_most"]
    assert (check.holds, check.waits_on) == ("unknown", ("other",))


@given(st.integers(1, 10**6), st.integers(1, 10**6), st.integers(0, 10**5), st.integers(0, 500))
def test_a_larger_reading_error_only_blurs(this: int, other: int, by: int, error: int) -> None:
    """Yes or no may become unknown with a coarser tool, never the other way round."""
    sheet = worksheet("compare")
    typed = {"this": f"{this / 1000} mm", "other": f"{other / 1000} mm", "by": f"{by / 1000} mm"}
    sharp, blurred = (
        sheet.run(read(sheet.inputs, typed, error=size)).checks
        for size in (Fraction(error, 1000), Fraction(error + 20, 1000))
    )
    for name in ("at_most", "at_least"):
        assert blurred[name].holds in (sharp[name].holds, "unknown")
