"""Lengths as they are read from a tool: a size, with its own error, between two drills, or of a thread."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from casebook.quantity.designation import pitch_mm, screw_size_mm, thread_of
from casebook.quantity.reading import NotUnderstood, Reading
from casebook.quantity.size import EXAMPLES, UNITS, Unit, drill_mm, size_mm, unit_factor
from casebook.quantity.spelling import AMOUNT, decimal, tidy
from casebook.quantity.tool import TOOLS, tool_called

Of = Literal["size", "thread_diameter", "thread_pitch"]

_GO_PAIR = r"(?:goes|go|fits):? (.+?),? (?:but )?(?:no[ -]?go|not):? (.+)"
_BY_TOOL = r"(.+?) (?:by|with) (?:the |an? )?([a-z][a-z _-]*)"
_CRESTS = r"([0-9]{1,3}) (?:crests|threads) (?:over|in|on) (.+)"
_ERROR = r"(.+?) ?\+- ?(.+)"
_UNIT_AT_END = rf"(?:{AMOUNT}) ?([^0-9 ]+)"
_PLAIN_NUMBER = r"[0-9]*[.,]?[0-9]+"
_THREAD_EXAMPLES = {
    "thread_diameter": "type it as 2.51 mm, 99 thou or 3-48",
    "thread_pitch": "type it as 48 tpi, 0.53 mm or 3-48",
    "size": EXAMPLES,
}


def read_length(typed: str, *, bare: Unit | None = None, of: Of = "size") -> Reading:
    """Read a length, exact in mm.

    Args:
        typed: ``0.190 in``, ``.190"``, ``190 thou``, ``3/16`` (a fraction that names no unit is inches),
            ``4,83 mm``, ``#47``, ``letter F``; with its own error (``5.2mm+-0.05``); between two drills
            (``goes #21 not #20``); by a tool (``5.2 mm by inside jaws``). For a thread also ``3-48``,
            ``M2.5``, ``6BA``; for a pitch ``48 tpi``, or first crest to last (``7 crests over 3.2 mm``).
        bare: unit of a number that names none; None refuses one. A bare 0 is 0 in any unit.
        of: what is measured: a size, a thread's major diameter or its pitch.

    Raises:
        NotUnderstood: no length, two possible meanings, or one that makes no sense.
    """
    text = tidy(typed)
    by = re.fullmatch(_BY_TOOL, text)
    if by:
        tool = tool_called(by.group(2))
        if tool is None:
            known = ", ".join(TOOLS).replace("_", " ")
            raise NotUnderstood(typed, f"no tool is called {by.group(2)}", f"type by and one of {known}")
        return _read(by.group(1), typed, bare, of)._replace(tool=tool)
    return _read(text, typed, bare, of)


def _read(text: str, typed: str, bare: Unit | None, of: Of) -> Reading:
    crests = re.fullmatch(_CRESTS, text) if of == "thread_pitch" else None
    if crests:
        return _over_crests(int(crests.group(1)), crests.group(2), typed, bare)
    pair = re.fullmatch(_GO_PAIR, text)
    if pair:
        return _between(pair.group(1), pair.group(2), typed, bare)
    with_error = re.fullmatch(_ERROR, text)
    value = _mm(with_error.group(1) if with_error else text, typed, bare, of)
    if value == 0 and of != "size":
        raise NotUnderstood(typed, "a thread of nothing", _THREAD_EXAMPLES[of])
    if not with_error:
        return Reading(value, value, value, typed.strip())
    error = _error_mm(with_error.group(2), with_error.group(1), typed, bare)
    if value and error >= value:
        raise NotUnderstood(typed, "the error is as large as the size", "type it as 5.2 mm +- 0.05 mm")
    return Reading(max(value - error, Fraction(0)), value, value + error, typed.strip(), own_error=True)


def _over_crests(crests: int, span: str, typed: str, bare: Unit | None) -> Reading:
    """Read a pitch from the length between the first and the last of some crests."""
    if crests < 2:
        raise NotUnderstood(typed, "one crest makes no pitch", "count at least two: 7 crests over 3.2 mm")
    over, parts = _read(span, typed, bare, "size"), crests - 1
    if not over.low:
        raise NotUnderstood(typed, "crests over nothing", "type the length from the first to the last")
    low, value, high = (bound / parts for bound in (over.low, over.value, over.high))
    return Reading(low, value, high, typed.strip(), over.own_error, parts=parts)


def _mm(text: str, typed: str, bare: Unit | None, of: Of) -> Fraction:
    if text.startswith("-"):
        raise NotUnderstood(typed, "a length is not below zero", _THREAD_EXAMPLES[of])
    if re.fullmatch(_PLAIN_NUMBER, text) and not text.strip("0.,"):
        return Fraction(0)
    if of == "thread_diameter":
        numbered = screw_size_mm(text)
        if numbered is not None:
            return numbered
    pitch = pitch_mm(text, typed)
    if pitch is not None:
        if of == "thread_pitch":
            return pitch
        raise NotUnderstood(typed, "a pitch, where a diameter or size is asked", _THREAD_EXAMPLES[of])
    if of == "thread_pitch" and drill_mm(text, typed) is not None:
        raise NotUnderstood(typed, "a drill, where a pitch is asked", _THREAD_EXAMPLES[of])
    value = size_mm(text, typed, UNITS[bare] if bare else None)
    if value is not None:
        return value
    thread = thread_of(text, typed)
    if thread is None:
        raise NotUnderstood(typed, "no length", _THREAD_EXAMPLES[of])
    if of == "size":
        raise NotUnderstood(typed, "a thread, where a size is asked", EXAMPLES)
    return thread.major if of == "thread_diameter" else thread.pitch


def _error_mm(text: str, beside: str, typed: str, bare: Unit | None) -> Fraction:
    """Read the error after ±; without a unit it is in that of the value beside it."""
    number = decimal(text, typed)
    if number is None:
        error = size_mm(text, typed, None)
        if error is None:
            raise NotUnderstood(typed, "no error of a reading", "type it as 5.2 mm +- 0.05 mm")
        return error
    spelt = re.fullmatch(_UNIT_AT_END, beside)
    factor = unit_factor(spelt.group(1), typed) if spelt else None
    if factor is None and "/" in beside:
        factor = UNITS["in"]
    if factor is None and decimal(beside, typed) is not None and bare:
        factor = UNITS[bare]
    if factor is None:
        raise NotUnderstood(typed, "an error without a unit", "type it as 5.2 mm +- 0.05 mm")
    return number * factor


def _between(goes: str, stays: str, typed: str, bare: Unit | None) -> Reading:
    if re.fullmatch(_PLAIN_NUMBER, goes):
        spelt = re.fullmatch(_UNIT_AT_END, stays)
        goes += f" {spelt.group(1)}" if spelt else ""
    low, high = (_mm(part, typed, bare, "size") for part in (goes, stays))
    if low >= high:
        raise NotUnderstood(typed, "what goes in is not the smaller", "type the one that goes first")
    return Reading(low, (low + high) / 2, high, typed.strip(), own_error=True)
