"""What a worksheet takes: named inputs, typed or already read, with defaults and sensible ranges."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache
from typing import Literal, NamedTuple

from casebook.quantity import (
    TOOL_ERRORS,
    NotUnderstood,
    Reading,
    Thread,
    ToolError,
    Unit,
    read_quantity,
    shortened,
)
from casebook.safe_text import unsafe_character

Kind = Literal[
    "length", "pitch", "sizes", "count", "percent", "angle", "thread", "choice", "temperature", "humidity",
    "number", "any_size", "force", "sets", "text", "threads", "numbers",
]  # fmt: skip

# Kinds that hold a list, and how each part of it is read.
_LISTS: Mapping[str, Kind] = {"sizes": "length", "threads": "thread", "numbers": "number"}
# What the shop has: shelf -> list as somebody types it (see `drawer`); a shelf that is not kept is absent.
Drawer = Mapping[str, str]
NO_DRAWER: Drawer = {}

# The error of a reading that states none: a steady hand with a caliper (common practice, no source).
USUAL_ERROR = Fraction(2, 100)

# A list that a worksheet reads itself, as hours by step, is no longer than this.
_LONGEST_TEXT = 1000
# More pieces than this are no drawer.
MOST_PARTS = 500


class BadInput(ValueError):
    """An input a worksheet cannot use: its name, what is wrong and what would be sensible."""

    def __init__(self, name: str, problem: str) -> None:
        super().__init__(name, problem)
        self.name = name
        self.problem = problem

    def __str__(self) -> str:
        return f"{self.name}: {self.problem}"


class Span(NamedTuple):
    """A number with its bounds, as floats, for the formulas."""

    low: float
    value: float
    high: float

    @classmethod
    def exact(cls, value: float) -> Span:
        """A number without doubt."""
        return cls(value, value, value)

    @classmethod
    def of(cls, reading: Reading) -> Span:
        """The nearest floats to a reading's exact numbers."""
        return cls(float(reading.low), float(reading.value), float(reading.high))


class Input(NamedTuple):
    """One input of a worksheet.

    Attributes:
        name: the name on the command line and in packs, snake_case.
        kind: how the text is read.
        help: what it is, in bench words.
        default: as somebody would type it, with unit; only for decisions of the bench, never for sizes.
        low: the least sensible value, as typed; a value below is refused. A length with neither `low` nor
            `default` must be above 0.
        high: the greatest sensible value, as typed.
        choices: for ``choice`` and ``sets``: the words allowed.
        measured: whether a reading error applies to it (a setting has none).
        shelf: the shelf of the shop's drawer that fills it where nothing was typed.
    """

    name: str
    kind: Kind
    help: str
    default: str | None = None
    low: str | None = None
    high: str | None = None
    choices: tuple[str, ...] = ()
    measured: bool = True
    shelf: str = ""

    def read(self, typed: str, bare: Unit | None = None) -> Reading | Thread | str:
        """Read what was typed for this input.

        Args:
            typed: the text.
            bare: the unit of a bare length; None refuses one.

        Raises:
            BadInput: not understood, or outside the sensible range.
        """
        if self.kind in ("choice", "sets"):
            words = ["_".join(word.lower().replace("-", " ").split()) for word in typed.split(",")]
            unknown = [word for word in words if word not in self.choices]
            if unknown or (self.kind == "choice" and len(words) != 1):
                raise BadInput(self.name, self._none_of(typed))
            return ",".join(words)
        if self.kind in (*_LISTS, "text") and not typed.strip(" ,;"):
            raise BadInput(self.name, "nothing is typed here: type it, or leave it out")
        if self.kind in _LISTS:
            parts = list_of(typed)
            if len(parts) > MOST_PARTS:
                raise BadInput(self.name, f"{len(parts)} in one list (sensible: up to {MOST_PARTS})")
            try:
                return "; ".join(self._part(part, bare) for part in parts)
            except BadInput as one:
                raise BadInput(self.name, f"{one.problem}; a blank after each comma parts a list") from None
        if self.kind == "text":
            if len(typed) > _LONGEST_TEXT or unsafe_character(typed):
                raise BadInput(
                    self.name, f"too long (sensible: up to {_LONGEST_TEXT} signs) or with stray signs"
                )
            return typed.strip()
        value = self._read_one(self.kind, typed, bare)
        if isinstance(value, Reading):
            self.keep_in_range(value)
        return value

    def _none_of(self, typed: str) -> str:
        known = ", ".join(self.choices)
        if not typed.strip():
            return f"nothing is typed here: type one of {known}"
        from difflib import get_close_matches  # only a slip needs it

        near = get_close_matches(typed.lower().replace(" ", "_"), self.choices, 1, 0.6)
        meant = f" (did you mean {near[0]}?)" if near else ""
        return f"{shortened(typed)!r} is none of {known}{meant}"

    def _part(self, part: str, bare: Unit | None) -> str:
        """Check one part of a list; a size gets its unit, so that it reads again without the shop's."""
        value = self._read_one(_LISTS[self.kind], part, bare)
        if isinstance(value, Reading):
            self.keep_in_range(value)
        if bare is None or self.kind != "sizes":
            return part
        try:
            read_quantity("length", part)
        except NotUnderstood:
            return f"{part} {bare}"
        return part

    def _read_one(self, kind: Kind, typed: str, bare: Unit | None) -> Reading | Thread:
        try:
            return read_quantity(kind, typed, bare=bare)
        except NotUnderstood as error:
            raise BadInput(self.name, f"{error}{self._range_words()}") from None

    def keep_in_range(self, value: Reading) -> None:
        """Refuse a value outside the sensible range.

        Raises:
            BadInput: naming that range.
        """
        if self.kind == "length" and self.low is None and self.default is None and value.value == 0:
            raise BadInput(self.name, f"{value.typed!r} makes no sense here: type a size above 0")
        low, high = _bounds(_LISTS.get(self.kind, self.kind), self.low, self.high)
        if (low is not None and value.value < low) or (high is not None and value.value > high):
            shown = repr(value.typed) if value.typed else f"{float(value.value):.4g}"
            raise BadInput(self.name, f"{shown} makes no sense here{self._range_words()}")

    def _range_words(self) -> str:
        if self.low is None and self.high is None:
            return ""
        return f" (sensible: {self.low or '...'} to {self.high or '...'})"


@cache
def _bounds(kind: str, low: str | None, high: str | None) -> tuple[Fraction | None, Fraction | None]:
    def bound(typed: str | None) -> Fraction | None:
        if typed is None:
            return None
        reading = read_quantity(kind, typed)
        assert isinstance(reading, Reading)
        return reading.value

    return bound(low), bound(high)


@cache
def _default(item: Input) -> Reading | Thread | str | None:
    return None if item.default is None else item.read(item.default)


class Inputs:
    """The inputs of one calculation, read.

    Attributes:
        values: what was given or is a default, by name.
        given: the names that were given, as opposed to defaults.
        from_drawer: the names that the shop's drawer filled.
        spans: the numeric ones as floats with bounds, for the formulas; a worksheet adds to them what it
            derives (a thread's major diameter, a wall from body and bore).
        read_as: for a derived one, the input to be read for it (``major`` is read as ``thread``).
    """

    def __init__(
        self,
        values: dict[str, Reading | Thread | str],
        given: frozenset[str],
        from_drawer: frozenset[str],
        spans: dict[str, Span],
    ) -> None:
        self.values = values
        self.given = given
        self.from_drawer = from_drawer
        self.spans = spans
        self.read_as: dict[str, str] = {}

    def __contains__(self, name: str) -> bool:
        return name in self.values

    def derive(self, name: str, span: Span, read_as: str) -> None:
        """Add a number made of the inputs for the formulas, and which input to read for it."""
        self.spans[name] = span
        self.read_as[name] = read_as

    def to_read(self, names: Iterable[str]) -> tuple[str, ...]:
        """Name the inputs to be read for `names`, each once."""
        return tuple(dict.fromkeys(self.read_as.get(name, name) for name in names))

    def word(self, name: str) -> str:
        """Give a choice's word, or an empty string."""
        value = self.values.get(name, "")
        return value if isinstance(value, str) else ""

    def thread(self, name: str = "thread") -> Thread | None:
        """Give a thread that was named, or None."""
        value = self.values.get(name)
        return value if isinstance(value, Thread) else None


def take(
    items: Iterable[Input], values: Mapping[str, Reading | Thread | str], drawer: Drawer = NO_DRAWER
) -> Inputs:
    """Put values already read together with what the drawer holds and the defaults.

    Raises:
        BadInput: a name that is not among the inputs, or a value outside the sensible range.
    """
    known = {item.name: item for item in items}
    for name, given in values.items():
        if name not in known:
            raise BadInput(name, no_such(name, known))
        if isinstance(given, Reading):
            known[name].keep_in_range(given)
    merged: dict[str, Reading | Thread | str] = {}
    filled = frozenset(n for n, item in known.items() if item.shelf in drawer and n not in values)
    for name, item in known.items():
        value = drawer[item.shelf] if name in filled else values.get(name, _default(item))
        if value is not None:
            merged[name] = value
    spans = {n: _span(known[n], value) for n, value in merged.items() if isinstance(value, Reading)}
    return Inputs(merged, frozenset(values), filled, spans)


def _span(item: Input, value: Reading) -> Span:
    """Give the span of a reading; a size is never below zero, however large the error."""
    span = Span.of(value)
    if item.kind in ("length", "pitch") and span.low < 0 <= span.value:
        return Span(0.0, span.value, span.high)
    return span


def read(
    items: Iterable[Input],
    typed: Mapping[str, str],
    *,
    error: Fraction = USUAL_ERROR,
    bare: Unit | None = None,
    drawer: Drawer = NO_DRAWER,
    tools: Mapping[str, ToolError] = TOOL_ERRORS,
) -> Inputs:
    """Read typed inputs, blur the measured lengths by `error` (mm), add the drawer and the defaults.

    Args:
        items: what the worksheet takes.
        typed: input -> text.
        error: of every measured length that names neither an error nor a tool of its own.
        bare: the unit of a bare length; None refuses one.
        drawer: what the shop has.
        tools: the shop's errors by tool, for a reading that names its tool.

    Raises:
        BadInput: an unknown name, or a value that is not understood or makes no sense.
    """
    items = tuple(items)
    known = {item.name: item for item in items}
    values: dict[str, Reading | Thread | str] = {}
    for name, text in typed.items():
        item = known.get(name)
        if item is None:
            raise BadInput(name, no_such(name, known))
        value = item.read(text, bare)
        if isinstance(value, Reading) and item.measured and value.unit == "mm" and item.kind != "pitch":
            value = value.blurred(error, tools)
        values[name] = value
    return take(items, values, drawer)


# A comma after a unit, a fraction or before a blank parts two sizes; any other is a decimal comma.
_BETWEEN = re.compile(r"\s*;\s*|,\s+|(?<=[a-zA-Z\"\u2033]),|(?<=/[0-9]),|(?<=/[0-9][0-9]),|,(?=#)")


def list_of(typed: str) -> list[str]:
    """Part a list of sizes as typed: ``5 mm, 5,5 mm; 13/64,#4``."""
    return [part.strip() for part in _BETWEEN.split(typed) if part.strip()]


def no_such(name: str, known: Iterable[str]) -> str:
    """Word the refusal of an unknown name, with the nearest known one."""
    from difflib import get_close_matches  # only a slip needs it

    names = list(known)
    near = get_close_matches(name, names, 1, 0.5)
    return f"no such input{f'; did you mean {near[0]}?' if near else ''} (inputs: {', '.join(names)})"
