"""Whether wood has come to rest, from dated readings: the same weight three times in a week.

Common practice, no source; what counts as the same is set here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from casebook.quantity import NotUnderstood, read_length
from casebook.records.workshop import WoodReading

TIMES, WEEK = 3, timedelta(days=7)
# Readings this far apart are the same: grams on a workshop scale, mm with a caliper (common practice).
SAME_WEIGHT, SAME_WIDTH = Fraction("0.1"), Fraction("0.05")
WEIGH_EVERY = timedelta(days=3)
_WEIGHT = re.compile(r"([0-9]{1,6}(?:[.,][0-9]{1,3})?) ?(g|kg|oz)?")
_GRAMS = {"": Fraction(1), "g": Fraction(1), "kg": Fraction(1000), "oz": Fraction("28.349523125")}
_HUMIDITY = re.compile(r"([0-9]{1,3}(?:[.,][0-9]{1,2})?) ?%?")


class NoReading(ValueError):
    """A reading that says nothing; the message says what to type."""


@dataclass(frozen=True, slots=True)
class Rest:
    """How far wood has come.

    Attributes:
        since: the day since which it has been at rest; None while it moves or too little is known.
        weigh_on: the day of the next reading; None once it rests.
        says: in a few words.
    """

    since: date | None
    weigh_on: date | None
    says: str


def checked(reading: WoodReading) -> WoodReading:
    """Give a reading back when every value of it is understood.

    Raises:
        NoReading: a weight, humidity or width that is none, or nothing read at all.
    """
    if reading.humidity:
        found = _HUMIDITY.fullmatch(reading.humidity.strip())
        if not found or Fraction(found[1].replace(",", ".")) > 100:
            raise NoReading(f"humidity {reading.humidity!r} is no percentage: type it as 48")
    if not _values(reading):
        raise NoReading("a reading of the wood needs a weight or a width: type 182.4 g")
    return reading


def rest_of(readings: Iterable[WoodReading]) -> Rest:
    """Judge the readings of one case; where several parts are watched, all of them must rest."""
    parts: dict[str, list[WoodReading]] = {}
    for reading in readings:
        if reading.read_on:
            parts.setdefault(reading.part, []).append(reading)
    rests = [(part, _rest(some)) for part, some in parts.items()]
    if not rests:
        return Rest(None, None, "no reading yet")
    moving = [(part, rest) for part, rest in rests if rest.since is None]
    if not moving:
        since = max(rest.since for _, rest in rests if rest.since)
        return Rest(since, None, f"at rest since {day_words(since)}")
    says = "; ".join(f"{part}: {rest.says}" if part else rest.says for part, rest in moving)
    return Rest(None, min(rest.weigh_on for _, rest in moving if rest.weigh_on), says)


def _rest(readings: Sequence[WoodReading]) -> Rest:
    by_day = {reading.read_on: _values(reading) for reading in readings if reading.read_on}
    days = sorted(day for day, values in by_day.items() if values)
    if not days:
        return Rest(None, max(day for day in by_day), "no weight yet")
    run = [days[-1]]
    for day in reversed(days[:-1]):
        if not _same([by_day[one] for one in (day, *run)]):
            break
        run.insert(0, day)
    if any(run[at + TIMES - 1] - run[at] <= WEEK for at in range(len(run) - TIMES + 1)):
        return Rest(run[0], None, f"at rest since {day_words(run[0])}")
    weigh_on = days[-1] + WEIGH_EVERY
    if len(run) > 1 or len(days) == 1:
        return Rest(None, weigh_on, f"the same {len(run)} of {TIMES} times, weigh on {day_words(weigh_on)}")
    return Rest(None, weigh_on, f"still moving, weigh on {day_words(weigh_on)}")


def _same(readings: Sequence[dict[str, Fraction]]) -> bool:
    """Whether readings agree in all that was read more than once; a slow drift is no agreement."""
    for key in {key for values in readings for key in values}:
        read = [values[key] for values in readings if key in values]
        if max(read) - min(read) > (SAME_WEIGHT if key == "weight" else SAME_WIDTH):
            return False
    return set.intersection(*(set(values) for values in readings)) != set()


def _values(reading: WoodReading) -> dict[str, Fraction]:
    values: dict[str, Fraction] = {}
    if reading.weight:
        found = _WEIGHT.fullmatch(reading.weight.strip())
        if not found:
            raise NoReading(f"weight {reading.weight!r} is no weight: type it as 182.4 g")
        values["weight"] = Fraction(found[1].replace(",", ".")) * _GRAMS[found[2] or ""]
    for place, typed in enumerate(reading.widths, 1):
        try:
            values[f"width {place}"] = read_length(typed).value
        except NotUnderstood as error:
            raise NoReading(f"width {place}: {error}") from None
    return values


def day_words(day: date) -> str:
    """Word a day as it is said at the bench: ``Tue 24 Nov``."""
    names = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    months = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    return f"{names[day.weekday()]} {day.day} {months[day.month - 1]}"
