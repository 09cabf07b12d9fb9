"""Days and hours as somebody types them at the bench."""

from __future__ import annotations

import re
from datetime import date, timedelta
from fractions import Fraction

from casebook.quantity import NotUnderstood
from casebook.quantity.time_span import read_time_span

_HOURS = re.compile(r"([0-9]*[.,]?[0-9]+) ?(?:h|hours?)?")
_HOURS_AND_MINUTES = re.compile(r"(?:([0-9]+) ?(?:h|hours?) ?)?([0-9]+) ?(?:m|min|minutes?)")
_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])")
_BACK = re.compile(r"([0-9]{1,3}) days? ago")
_AHEAD = re.compile(r"in ([0-9]{1,3}) (day|week)s?")
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


class NotTyped(ValueError):
    """What was typed is no day or no hours; the message says what to type."""


def read_day(typed: str, today: date) -> date | None:
    """Read a day: ``2026-03-09``, ``today``, ``yesterday``, ``3 days ago``; nothing is None.

    Raises:
        NotTyped: it is none of these.
    """
    text = " ".join(typed.lower().split())
    if not text:
        return None
    if text in ("today", "yesterday"):
        return today - timedelta(days=text == "yesterday")
    back = _BACK.fullmatch(text)
    if back:
        return today - timedelta(days=int(back.group(1)))
    try:
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            return date.fromisoformat(text)
    except ValueError:
        pass
    raise NotTyped(f"{typed.strip()!r} is no day: type it as {today.isoformat()}, today or yesterday")


def read_coming(typed: str, today: date) -> date | None:
    """Read a day that may be still to come: also ``tomorrow``, ``in 3 days``, ``in 2 weeks``, ``friday``.

    The name of a weekday, or its first three letters, is the next such day after today; nothing is None.

    Raises:
        NotTyped: it is none of these.
    """
    text = " ".join(typed.lower().split())
    if text == "tomorrow":
        return today + timedelta(days=1)
    ahead = _AHEAD.fullmatch(text)
    if ahead:
        return today + timedelta(days=int(ahead.group(1)) * (7 if ahead.group(2) == "week" else 1))
    for place, name in enumerate(_WEEKDAYS):
        if text in (name, name[:3]):
            return today + timedelta(days=(place - today.weekday() - 1) % 7 + 1)
    try:
        return read_day(typed, today)
    except NotTyped:
        say = f"type it as {today.isoformat()}, friday or in 3 days"
        raise NotTyped(f"{typed.strip()!r} is no day: {say}") from None


def read_until(typed: str, today: date) -> tuple[date | None, float | None]:
    """Read how long something is to last: a day as `read_coming` has it, or a time: ``24 h``, ``3 days``.

    Returns:
        The day or None, and the hours or None; nothing typed is neither.

    Raises:
        NotTyped: it is none of these.
    """
    try:
        return read_coming(typed, today), None
    except NotTyped:
        pass
    try:
        return None, float(read_time_span(" ".join(typed.lower().split())))
    except NotUnderstood:
        say = f"type 24 h, 3 days, friday or {today.isoformat()}"
        raise NotTyped(f"{typed.strip()!r} is no day and no time: {say}") from None


def read_hours(typed: str) -> float | None:
    """Read hours: ``1.5``, ``1,5 h``, ``90 min``, ``1 h 30 min``, ``1:30``; nothing is None.

    Raises:
        NotTyped: it is none of these.
    """
    text = " ".join(typed.lower().split())
    if not text:
        return None
    plain = _HOURS.fullmatch(text)
    if plain:
        return float(plain.group(1).replace(",", "."))
    parts = _CLOCK.fullmatch(text) or _HOURS_AND_MINUTES.fullmatch(text)
    if parts:
        return float(Fraction(int(parts.group(1) or 0)) + Fraction(int(parts.group(2)), 60))
    raise NotTyped(f"{typed.strip()!r} is no number of hours: type 1.5, 90 min or 1:30")
