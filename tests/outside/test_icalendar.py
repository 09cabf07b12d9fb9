"""Calendars against RFC 5545 and the package icalendar, which reads them back."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.icalendar import Day, calendar
from casebook.safe_text import safe

STAMP = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
_texts = st.text(st.characters(exclude_categories=["Cs", "Cc"], include_characters="\n"), max_size=200)
_days = st.builds(
    lambda uid, first, length, summary, description: Day(
        uid, first, first + timedelta(length), summary, description
    ),
    st.uuids().map(str),
    st.dates(date(1900, 1, 1), date(2100, 1, 1)),
    st.integers(0, 60),
    _texts,
    _texts,
)


@given(st.lists(_days, min_size=1, max_size=3))
def test_another_program_reads_back_what_was_written(days: list[Day]) -> None:
    """Package icalendar: every entry with its days, uid and texts; no line is longer than 75 octets (3.1)."""
    text = calendar(days, STAMP)
    assert all(len(line.encode("utf-8")) <= 75 for line in text.split("\r\n"))
    assert "\n" not in text.replace("\r\n", "")
    read = icalendar.Calendar.from_ical(text)
    assert str(read["VERSION"]) == "2.0"
    events = list(read.walk("VEVENT"))
    assert [str(event["UID"]) for event in events] == [day.uid for day in days]
    for event, day in zip(events, days, strict=True):
        assert event.decoded("DTSTART") == day.first
        assert event.decoded("DTEND") == day.last + timedelta(days=1)
        assert event.decoded("DTSTAMP") == STAMP
        assert str(event["SUMMARY"]) == safe(day.summary)
        assert str(event.get("DESCRIPTION", "")) == safe(day.description)


def test_text_is_escaped_as_in_the_standard() -> None:
    """RFC 5545, 3.3.11, its own example of a TEXT value."""
    shown = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    text = calendar([Day("u", date(2026, 1, 1), date(2026, 1, 1), shown)], STAMP).replace("\r\n ", "")
    assert "SUMMARY:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.\r\n" in text


@pytest.mark.parametrize(
    ("typed", "written"), [("a;b", "a\\;b"), ("a,b", "a\\,b"), ("a\\b", "a\\\\b"), ("a:b", "a:b")]
)
def test_each_special_letter_is_escaped(typed: str, written: str) -> None:
    """RFC 5545, 3.3.11: backslash, semicolon and comma are escaped, a colon is not."""
    assert f"SUMMARY:{written}\r\n" in calendar([Day("u", date(2026, 1, 1), date(2026, 1, 1), typed)], STAMP)


def test_whole_days_end_on_the_day_after() -> None:
    """RFC 5545, 3.6.1: the end of a VEVENT of days is exclusive; 3.3.4: DATE is year, month, day in digits."""
    text = calendar([Day("u", date(2007, 6, 28), date(2007, 7, 8), "Festival")], STAMP)
    assert "DTSTART;VALUE=DATE:20070628\r\n" in text
    assert "DTEND;VALUE=DATE:20070709\r\n" in text


def test_the_stamp_is_in_utc() -> None:
    """RFC 5545, 3.8.7.2: DTSTAMP must be in UTC."""
    there = STAMP.astimezone(timezone(timedelta(hours=-5)))
    assert "DTSTAMP:20261125T120000Z\r\n" in calendar([Day("u", STAMP.date(), STAMP.date(), "x")], there)


def test_an_empty_calendar_is_none() -> None:
    """RFC 5545, 3.6: a calendar has at least one component."""
    with pytest.raises(ValueError, match="needs an entry"):
        calendar([], STAMP)
