"""A plain size: a number with its unit, or the name of a drill."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import Literal

from casebook.quantity.reading import NotUnderstood
from casebook.quantity.spelling import AMOUNT, decimal, fraction
from casebook.tables import load

Unit = Literal["mm", "in", "thou"]
INCH = Fraction("25.4")
UNITS: dict[Unit, Fraction] = {"mm": Fraction(1), "in": INCH, "thou": INCH / 1000}

EXAMPLES = "type it as 4.83 mm, 0.190 in, 190 thou, 3/16 or #47"
# Nothing on the bench is longer; a size beyond it is a slip of the unit.
_LONGEST_MM = 10_000

_SPELT = {
    "mm": UNITS["mm"], "millimetre": UNITS["mm"], "millimetres": UNITS["mm"], "millimeter": UNITS["mm"],
    "millimeters": UNITS["mm"], "cm": Fraction(10), "in": INCH, "inch": INCH, "inches": INCH, '"': INCH,
    "thou": UNITS["thou"], "thous": UNITS["thou"],
}  # fmt: skip
_TWO_MEANINGS = {
    "mil": "thousandths of an inch or millimetres", "mils": "thousandths of an inch or millimetres",
    "tenth": "tenths of a millimetre or of a thou", "tenths": "tenths of a millimetre or of a thou",
    "'": "feet or inches", "th": "thou or tenths",
}  # fmt: skip
_AMOUNT = rf"({AMOUNT}) ?([^0-9]*)"
_NUMBER_DRILL = (
    r"(?:drill )?(?:#|no\.?|nr\.?|number) ?([0-9]{1,3})(?: drill)?|drill ([0-9]{1,3})|([0-9]{1,3}) drill"
)
_LETTER_DRILL = r"(?:letter|drill|letter drill) ([a-z])|(?:letter )?([a-z]) drill"


@cache
def drills(sets: str) -> tuple[tuple[str, Fraction], ...]:
    """List the twist drills of one of the sets number, letter, fraction, metric: name and diameter in mm."""
    rows = load("drills")[sets]
    if sets != "metric":
        sign = "#" if sets == "number" else ""
        mark = {"number": "", "letter": "", "fraction": " in"}[sets]
        return tuple((f"{sign}{row.text('drill')}{mark}", row.number("diameter_in") * INCH) for row in rows)
    sizes: list[Fraction] = []
    for row in rows:
        first, last, step = (row.number(f"{part}_mm") for part in ("from", "to", "step"))
        sizes += [first + step * n for n in range(int((last - first) / step) + 1)]
    return tuple((f"{float(size):.4g} mm", size) for size in sizes)


def unit_factor(word: str, typed: str) -> Fraction | None:
    """Give the millimetres in a unit as spelt, or None when it is no unit of length.

    Raises:
        NotUnderstood: the word has two meanings on a bench.
    """
    if word in _TWO_MEANINGS:
        raise NotUnderstood(typed, f"{word} could be {_TWO_MEANINGS[word]}", "type mm, in or thou")
    return _SPELT.get(word.rstrip(".") if len(word) > 1 else word)


def size_mm(text: str, typed: str, bare: Fraction | None) -> Fraction | None:
    """Read a plain size, exact in mm, or give None when `text` is not of that shape.

    Args:
        text: a part of what was typed, made tidy.
        typed: the whole, for the refusal.
        bare: millimetres in the unit of a bare number; None refuses one.

    Raises:
        NotUnderstood: of that shape, but with no unit, an unknown one, one with two meanings, or absurd.
    """
    named = drill_mm(text, typed)
    if named is not None:
        return named
    drill_free = text.removesuffix(" drill")
    found = re.fullmatch(_AMOUNT, drill_free)
    if not found or re.match(r"x\b|ba$|b\.a|-|tpi|t\.p\.i|threads", found.group(2).strip()):
        return None
    number, word = found.group(1), found.group(2).strip()
    value = fraction(number, typed)
    if value is None:
        value = decimal(number, typed)
        factor = unit_factor(word, typed) if word else bare
    else:
        # A fraction that names no unit is inches, on every bench.
        factor = unit_factor(word, typed) if word else INCH
    if value is None:
        return None
    if factor is None:
        why = f"{word} is no unit of length" if word else "a bare number, mm or inches"
        raise NotUnderstood(typed, why, EXAMPLES if word else f"add the unit: {number} mm, in or thou")
    if value * factor > _LONGEST_MM:
        raise NotUnderstood(typed, "longer than any instrument", EXAMPLES)
    return value * factor


def drill_mm(text: str, typed: str) -> Fraction | None:
    """Read a number or letter drill as its diameter in mm, or give None when `text` names none.

    Raises:
        NotUnderstood: a number that no drill has.
    """
    letter = re.fullmatch(_LETTER_DRILL, text)
    if letter:
        return dict(drills("letter"))[(letter.group(1) or letter.group(2)).upper()]
    number = re.fullmatch(_NUMBER_DRILL, text)
    if not number:
        return None
    size = next(group for group in number.groups() if group)
    found = dict(drills("number")).get(f"#{size}")
    if found is None:
        raise NotUnderstood(typed, f"there is no number drill {size}", "they run from #1 (large) to #80")
    return found


def show_length(mm: Fraction | float, unit: Unit, *, fine: int = 0) -> str:
    """Write a length for a bench, rounded to what it is worth: 4.83 mm, 0.190 in, 190 thou.

    Args:
        mm: the length in mm.
        unit: what to show it in.
        fine: places more than usual: one for a pitch, a drill or a margin, below 0 for what is rough.
    """
    places = max({"mm": 2, "in": 3, "thou": 0}[unit] + fine, 0)
    number = f"{float(Fraction(mm) / UNITS[unit]):.{places}f}"
    if float(number) == 0:
        number = number.removeprefix("-")
    return f"{number} {unit}"
