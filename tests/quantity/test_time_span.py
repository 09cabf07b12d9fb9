"""Waiting times: read as a repairer says them, exact in hours, worded again in the largest fitting unit."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.quantity import NotUnderstood, read_time_span, show_time_span

# 60 minutes to the hour, 24 hours to the day, 7 days to the week: ISO 8601-1:2019, 3.1.2.
HOURS = [
    ("20 min", Fraction(1, 3)),
    ("24 h", Fraction(24)),
    ("1.5 h", Fraction(3, 2)),
    ("1,5 h", Fraction(3, 2)),
    ("3 days", Fraction(72)),
    ("1 week", Fraction(168)),
    ("2 weeks", Fraction(336)),
]


@pytest.mark.parametrize(("typed", "hours"), HOURS)
def test_a_time_is_read_exactly(typed: str, hours: Fraction) -> None:
    """Each spelling is the hours it says, no more and no less."""
    assert read_time_span(typed) == hours


@pytest.mark.parametrize(
    "typed", ["", "24", "h", "-2 h", "0 h", "2 moons", "9999 weeks", "24 h or so", "1e3 h"]
)
def test_what_is_no_time_is_refused(typed: str) -> None:
    """The complaint shows what was typed, so that it can be found in the file."""
    with pytest.raises(NotUnderstood) as refused:
        read_time_span(typed)
    assert repr(typed) in str(refused.value)


@given(count=st.integers(1, 52), unit=st.sampled_from(["min", "h", "days", "weeks"]))
def test_a_worded_time_reads_back(count: int, unit: str) -> None:
    """What is shown of a whole number of any unit is the same time when typed again."""
    hours = read_time_span(f"{count} {unit}")
    assert read_time_span(show_time_span(hours).removeprefix("about ")) == hours


@given(st.fractions(Fraction(1, 60), Fraction(4000)))
def test_a_rounded_time_is_near(hours: Fraction) -> None:
    """A time that is no whole number of anything is worded to within half of the unit it is worded in."""
    shown = show_time_span(hours)
    unit = {"min": Fraction(1, 60), "h": Fraction(1), "day": Fraction(24), "week": Fraction(168)}[
        shown.split()[-1].rstrip("s")
    ]
    assert abs(read_time_span(shown.removeprefix("about ")) - hours) <= unit / 2
