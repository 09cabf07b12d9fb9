"""Waiting times as a repairer says them, '20 min', '24 h', '10 days', '2 weeks', as exact hours."""

from __future__ import annotations

import re
from fractions import Fraction

from casebook.quantity.reading import NotUnderstood

_HOURS = {"min": Fraction(1, 60), "h": Fraction(1), "day": Fraction(24), "week": Fraction(168)}
_TYPED = re.compile(r"(\d{1,4}(?:[.,]\d{1,3})?) ?(min|h|day|week)s?")
# A year of waiting is no step of a repair.
_MOST = Fraction(366 * 24)


def read_time_span(typed: str) -> Fraction:
    """Read a time to wait.

    Args:
        typed: a number and ``min``, ``h``, ``days`` or ``weeks``.

    Returns:
        The hours, exactly.

    Raises:
        NotUnderstood: no such time, none at all, or over a year.
    """
    found = _TYPED.fullmatch(typed.strip())
    if not found:
        raise NotUnderstood(typed, "a time is wanted", "type 20 min, 24 h, 10 days or 2 weeks")
    hours = Fraction(found[1].replace(",", ".")) * _HOURS[found[2]]
    if not 0 < hours <= _MOST:
        raise NotUnderstood(typed, "a time to wait lies between a minute and a year")
    return hours


def show_time_span(hours: Fraction) -> str:
    """Word a time in the largest unit that leaves no rest: '2 weeks', '3 days', '24 h', '20 min'."""
    if hours < 1:
        return f"{round(hours * 60)} min"
    for unit, least in (("week", 168), ("day", 48)):
        if hours >= least and hours % _HOURS[unit] == 0:
            count = hours // _HOURS[unit]
            return f"{count} {unit}{'s' if count > 1 else ''}"
    if hours > 72:
        unit, count = ("week", round(hours / 168)) if hours > 504 else ("day", round(hours / 24))
        return f"about {count} {unit}s"
    return f"{round(hours)} h" if hours % 1 == 0 else f"about {max(1, round(hours))} h"
