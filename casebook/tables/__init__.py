"""Published tables: figures with their source, read from the YAML files beside this module.

A file holds sections; a section has a `source`, a `checked` state and rows. A key that ends in a unit
holds a number and becomes an exact fraction; every other key holds text. So a unit stands in every key
that has one, and a drill called 47 stays a name.

    number:
      source: ASME B94.11M
      checked: package
      columns: [drill, diameter_in]
      rows:
      - [47, 0.0785]

Instead of `columns`, every row may be a mapping of its own; a row may carry its own `source` or `checked`.
An empty value (``~``) means that nobody knows: the row then lacks that key.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pkgutil import get_data
from typing import Any, Literal, cast, get_args

from casebook.strict_yaml import BrokenFile, Mapping, Sequence, Text, line_of, parse

Checked = Literal["formula", "page", "package", "memory", "common practice"]
CHECKED: frozenset[str] = frozenset(get_args(Checked))

_UNITS = frozenset((
    "mm", "in", "mm2", "in2", "mm3", "tpi", "deg", "pitches", "percent", "n", "mpa", "gpa", "celsius",
    "kg_m3", "m_min", "ft_min", "rpm", "count", "ratio", "per_percent", "hours",
))  # fmt: skip


class Row(dict[str, "str | Fraction"]):
    """One row of a table: text and exact numbers by column, with `source` and `checked`."""

    __slots__ = ()

    def number(self, key: str) -> Fraction:
        """Give the exact number under `key`, in the unit that the key names."""
        value = self[key]
        assert isinstance(value, Fraction), f"{key} names no unit, so it holds text"
        return value

    def text(self, key: str) -> str:
        """Give the text under `key`."""
        value = self[key]
        assert isinstance(value, str), f"{key} names a unit, so it holds a number"
        return value

    @property
    def checked(self) -> Checked:
        """How far the row's source was checked; memory means unverified."""
        return cast("Checked", self["checked"])


@cache
def load(name: str) -> dict[str, tuple[Row, ...]]:
    """Read the table `name` (``threads``, ``drills`` ...) once: rows by section.

    Raises:
        FileNotFoundError: there is no such table.
        BrokenFile: the file does not say what it must, with file and line.
    """
    file = f"tables/{name}.yaml"
    # importlib.resources would do the same, but costs every command several milliseconds to import.
    data = get_data("casebook.tables", f"{name}.yaml")
    if data is None:
        raise FileNotFoundError(file)
    return sections(data.decode("utf-8"), file)


def sections(text: str, file: str) -> dict[str, tuple[Row, ...]]:
    """Read the text of a table; `file` is how messages call it.

    Raises:
        BrokenFile: the text does not say what a table must, with file and line.
    """
    whole = parse(text, file)
    if not isinstance(whole, Mapping):
        raise BrokenFile(file, None, "a table is a mapping of sections")
    return {str(key): _section(section, key, file) for key, section in whole.items()}


def _section(section: object, key: str, file: str) -> tuple[Row, ...]:
    said: dict[str, Any] = (
        {str(name): node for name, node in section.items()} if isinstance(section, Mapping) else {}
    )
    if not isinstance(said.get("rows"), Sequence):
        raise BrokenFile(file, line_of(key), f"section {key!s} has no rows")
    shared: dict[str, str] = {name: str(said[name]) for name in ("source", "checked") if name in said}
    columns = [str(column) for column in said.get("columns", ())]
    return tuple(_row(row, columns, shared, file) for row in said["rows"])


def _row(row: Any, columns: list[str], shared: dict[str, str], file: str) -> Row:
    line = line_of(row)
    if isinstance(row, Sequence):
        if len(row) != len(columns):
            raise BrokenFile(file, line, f"{len(row)} values for {len(columns)} columns")
        pairs = zip(columns, row, strict=True)
    elif isinstance(row, Mapping):
        pairs = zip(map(str, row), row.values(), strict=True)
    else:
        raise BrokenFile(file, line, "a row is a list of values or a mapping")
    made = Row(shared)
    for key, value in pairs:
        if not isinstance(value, Text):
            raise BrokenFile(file, line, f"{key} holds no plain value")
        if not value.is_null:
            made[key] = _number(value, file) if holds_number(key) else str(value)
    if made.get("checked") not in CHECKED or not made.get("source"):
        raise BrokenFile(file, line, f"needs a source, and checked as one of {', '.join(sorted(CHECKED))}")
    return made


def holds_number(key: str) -> bool:
    """Whether `key` ends in a unit, so that a number stands under it."""
    words = key.split("_")
    return words[-1] in _UNITS or "_".join(words[-2:]) in _UNITS


def _number(value: Text, file: str) -> Fraction:
    try:
        return Fraction(value)
    except (ValueError, ZeroDivisionError):
        raise BrokenFile(file, value.line, f"{value!s} is no number") from None
