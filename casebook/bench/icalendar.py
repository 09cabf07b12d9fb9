"""Whole days as an iCalendar file (RFC 5545): any calendar program reads it.

Lines end in CR LF and are folded at 75 octets without cutting a letter (section 3.1); texts are escaped
(3.3.11); a day's end is the day after its last, because the end is not part of it (3.6.1).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from casebook.safe_text import safe

MADE_HERE = "PRODID:-//casebook//looks due//EN"
_OCTETS = 75
_ESCAPES = str.maketrans({"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"})


@dataclass(frozen=True, slots=True)
class Day:
    """One entry: days from first to last, what to do, and more about it.

    Attributes:
        uid: the same whenever the entry is written again, so that it is renewed and not doubled.
        first: the first day.
        last: the last day.
        summary: one line.
        description: more lines; may be empty.
    """

    uid: str
    first: date
    last: date
    summary: str
    description: str = ""


def calendar(days: Sequence[Day], stamp: datetime) -> str:
    """Give the text of a calendar.

    Args:
        days: its entries, at least one.
        stamp: the moment it is written, with its zone.

    Raises:
        ValueError: no entry, or a moment without its zone.
    """
    if not days or stamp.tzinfo is None:
        raise ValueError("a calendar needs an entry, and the moment with its zone")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", MADE_HERE, "CALSCALE:GREGORIAN"]
    for day in days:
        lines += [
            "BEGIN:VEVENT",
            f"UID:{_text(day.uid)}",
            f"DTSTAMP:{stamp.astimezone(UTC):%Y%m%dT%H%M%SZ}",
            f"DTSTART;VALUE=DATE:{_date(day.first)}",
            f"DTEND;VALUE=DATE:{_date(day.last + timedelta(days=1))}",
            f"SUMMARY:{_text(day.summary)}",
            *([f"DESCRIPTION:{_text(day.description)}"] if day.description else []),
            "TRANSP:TRANSPARENT",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in _folded(line))


def _date(day: date) -> str:
    # Not strftime, which leaves the zeros of early years out on some systems.
    return day.isoformat().replace("-", "")


def _text(text: str) -> str:
    return safe(text.replace("\r\n", "\n").replace("\r", "\n")).replace("\t", " ").translate(_ESCAPES)


def _folded(line: str) -> Iterator[str]:
    """Cut a line so that none is longer than 75 octets, the space before a further one among them."""
    part, room = "", _OCTETS
    for letter in line:
        size = len(letter.encode("utf-8"))
        if size > room:
            yield part
            part, room = " ", _OCTETS - 1
        part += letter
        room -= size
    yield part
