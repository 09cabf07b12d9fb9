"""Days and hours as they are typed at the bench."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.typed import NotTyped, read_coming, read_day, read_hours, read_until

TODAY = date(2026, 3, 9)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("2026-02-28", date(2026, 2, 28)),
        ("today", TODAY),
        (" Yesterday ", date(2026, 3, 8)),
        ("10 days ago", date(2026, 2, 27)),
        ("1 day ago", date(2026, 3, 8)),
        ("", None),
    ],
)
def test_a_day_is_read(typed: str, day: date | None) -> None:
    """By the calendar, or counted back from today."""
    assert read_day(typed, TODAY) == day


@pytest.mark.parametrize("typed", ["2026-02-30", "09.03.2026", "3/9", "soon", "20260309", "٢٠٢٦-٠٣-٠٩"])
def test_what_is_no_day_is_refused_with_what_to_type(typed: str) -> None:
    """No guess between day and month, and no day the calendar lacks."""
    with pytest.raises(NotTyped, match="type it as 2026-03-09"):
        read_day(typed, TODAY)


@given(st.dates())
def test_every_day_written_out_is_read_back(day: date) -> None:
    """The ISO form is taken for any day."""
    assert read_day(day.isoformat(), TODAY) == day


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("tomorrow", date(2026, 3, 10)),
        ("in 3 days", date(2026, 3, 12)),
        ("in 2 weeks", date(2026, 3, 23)),
        ("Fri", date(2026, 3, 13)),
        ("sunday", date(2026, 3, 15)),
        ("monday", date(2026, 3, 16)),
        ("2026-04-01", date(2026, 4, 1)),
        ("yesterday", date(2026, 3, 8)),
        ("", None),
    ],
)
def test_a_coming_day_is_read(typed: str, day: date | None) -> None:
    """A weekday is the next one after today, which is a Monday."""
    assert read_coming(typed, TODAY) == day


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.sampled_from(["mon", "wed", "sunday"]))
def test_a_weekday_is_within_the_next_week(today: date, name: str) -> None:
    """One to seven days ahead, and the day of that name."""
    day = read_coming(name, today)
    assert day is not None
    assert timedelta(days=1) <= day - today <= timedelta(days=7)
    assert day.strftime("%A").lower().startswith(name)


def test_until_is_a_day_or_a_time() -> None:
    """What is neither says how both are typed."""
    assert read_until("24 h", TODAY) == (None, 24.0)
    assert read_until("3 days", TODAY) == (None, 72.0)
    assert read_until("wed", TODAY) == (date(2026, 3, 11), None)
    assert read_until(" ", TODAY) == (None, None)
    with pytest.raises(NotTyped, match="type 24 h, 3 days, friday or 2026-03-09"):
        read_until("whenever", TODAY)


@given(st.integers(0, 999))
def test_days_ago_are_counted_back(days: int) -> None:
    """So many days ago is today less so many days."""
    assert read_day(f"{days} days ago", TODAY) == TODAY - timedelta(days=days)


@pytest.mark.parametrize(
    ("typed", "hours"),
    [
        ("1.5", 1.5),
        ("1,5 h", 1.5),
        (".25", 0.25),
        ("2 hours", 2.0),
        ("90 min", 1.5),
        ("1 h 30 min", 1.5),
        ("1:30", 1.5),
        ("0:05", 5 / 60),
        ("", None),
    ],
)
def test_hours_are_read(typed: str, hours: float | None) -> None:
    """As a number, in minutes, or as the clock writes them; an hour has 60 minutes."""
    assert read_hours(typed) == hours


@pytest.mark.parametrize("typed", ["1:75", "soon", "-1", "1.5.2", "nan", "1e3", "half"])
def test_what_is_no_hours_is_refused_with_what_to_type(typed: str) -> None:
    """Nothing is guessed."""
    with pytest.raises(NotTyped, match=r"type 1\.5, 90 min or 1:30"):
        read_hours(typed)


@given(st.integers(0, 99), st.integers(0, 59))
def test_all_ways_of_writing_a_time_agree(hours: int, minutes: int) -> None:
    """1:30, 1 h 30 min and 90 min are the same."""
    clock = read_hours(f"{hours}:{minutes:02}")
    assert clock == read_hours(f"{hours} h {minutes} min") == read_hours(f"{hours * 60 + minutes} min")
