"""Every kind of quantity a worksheet takes, read by its name."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from casebook.quantity.designation import read_thread
from casebook.quantity.length import read_length
from casebook.quantity.reading import NotUnderstood, Reading
from casebook.quantity.size import Unit
from casebook.quantity.spelling import decimal, plain, tidy
from casebook.quantity.thread import Thread

# Standard gravity, exact by definition (3rd CGPM, 1901), for grams-force.
_NEWTON_PER_GRAM = Fraction("0.00980665")
_TEMPERATURE = r"(-?)([0-9]+(?:[.,][0-9]+)?) ?(?:°|deg|degrees)? ?([cf])"
_MOST = 1_000_000
_COLDEST = Fraction("-273.15")
_HOTTEST = 3000


def read_count(typed: str) -> Reading:
    """Read a whole number, 0 or more.

    Raises:
        NotUnderstood: not a whole number.
    """
    value = _limited(plain(typed, "a whole number, as 3"), typed)
    if value.denominator != 1:
        raise NotUnderstood(typed, "not a whole number", "type a whole number, as 3")
    return Reading.exact(value, typed.strip(), unit="count")


def read_temperature(typed: str) -> Reading:
    """Read a temperature, exact in degrees Celsius; the scale must be named: ``21C``, ``70 °F``.

    Raises:
        NotUnderstood: no temperature, no scale, or colder than anything.
    """
    found = re.fullmatch(_TEMPERATURE, tidy(typed))
    number = decimal(found.group(2), typed) if found else None
    if not found or number is None:
        raise NotUnderstood(typed, "no temperature with its scale", "type it as 21C or 70F")
    signed = -number if found.group(1) else number
    celsius = signed if found.group(3) == "c" else (signed - 32) * 5 / 9
    if not _COLDEST <= celsius <= _HOTTEST:
        raise NotUnderstood(typed, "no such temperature on a bench", "type it as 21C or 70F")
    return Reading.exact(celsius, typed.strip(), unit="celsius")


def _percent(typed: str) -> Reading:
    value = _limited(plain(typed, "a number, as 65", units="%|percent|per cent"), typed)
    return Reading.exact(value, typed.strip(), unit="percent")


def _humidity(typed: str) -> Reading:
    value = plain(typed, "relative humidity, as 45", units="%|% ?rh|percent|rh")
    if value > 100:
        raise NotUnderstood(typed, "over 100 percent", "type relative humidity, as 45")
    return Reading.exact(value, typed.strip(), unit="percent")


def _angle(typed: str) -> Reading:
    value = plain(typed, "degrees, as 10", units="°|deg|degrees|degree")
    if value > 360:
        raise NotUnderstood(typed, "more than a full turn", "type degrees, as 10")
    return Reading.exact(value, typed.strip(), unit="deg")


def _force(typed: str) -> Reading:
    grams = re.fullmatch(r"(.+?) ?(?:g|gf|grams?)", tidy(typed))
    value = plain(grams.group(1) if grams else typed, "a force, as 3 N or 300 g", units="n|newtons?")
    newton = _limited(value * _NEWTON_PER_GRAM if grams else value, typed)
    return Reading.exact(newton, typed.strip(), unit="N")


def _number(typed: str) -> Reading:
    return Reading.exact(_limited(plain(typed, "a number, as 1.5"), typed), typed.strip(), unit="number")


def _any_size(typed: str, bare: Unit | None) -> Reading:
    """Read a length where it names a unit, a count where it is a bare whole number."""
    if re.fullmatch(r"[0-9]+", tidy(typed)):
        return read_count(typed)
    return read_length(typed, bare=bare)


def _limited(value: Fraction, typed: str) -> Fraction:
    if value > _MOST:
        raise NotUnderstood(typed, "far too large", "check the number")
    return value


_PLAIN: dict[str, Callable[[str], Reading]] = {
    "count": read_count, "percent": _percent, "humidity": _humidity, "angle": _angle, "force": _force,
    "number": _number, "temperature": read_temperature,
}  # fmt: skip


def read_quantity(kind: str, typed: str, *, bare: Unit | None = None) -> Reading | Thread:
    """Read what was typed as a quantity of one kind.

    Args:
        kind: length, pitch, any_size, thread, count, percent, humidity, angle, force, number or temperature.
        typed: the text.
        bare: unit of a bare length; None refuses one.

    Returns:
        A reading: lengths and pitches in mm, angles in degrees, temperatures in degrees Celsius, forces in
        newtons, the rest as plain numbers; or a thread.

    Raises:
        NotUnderstood: what is wrong, and what to type instead.
        KeyError: no such kind.
    """
    if kind == "thread":
        return read_thread(typed)
    if kind == "any_size":
        return _any_size(typed, bare)
    if kind in ("length", "pitch"):
        return read_length(typed, bare=bare, of="thread_pitch" if kind == "pitch" else "size")
    return _PLAIN[kind](typed)
