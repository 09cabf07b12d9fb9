"""Shapes of the shop's file: amounts of money, days, hours, errors of tools. See `casebook.shape`."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from typing import Any

from casebook.bench.shop import Hours
from casebook.quantity import NotUnderstood, ToolError, read_length
from casebook.quantity.tool import TOOLS
from casebook.shape import Line, OneOf, Record
from casebook.strict_yaml import BrokenFile, Mapping, Text, line_of

# A tool further off than this is no tool, mm.
_WORST_TOOL = 3
_MOST_HOURS = 500
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


class Amount:
    """A sum of money or a percent: a plain number up to a most."""

    def __init__(self, most: float, least: float = 0.0) -> None:
        self.least, self.most = least, most

    def read(self, node: Any, file: str, what: str) -> float:
        if isinstance(node, Text) and node.is_null:
            raise BrokenFile(file, line_of(node), f"{what}: is empty: type a number, or leave the line out")
        if not isinstance(node, Text) or not re.fullmatch(r"\d{1,7}([.,]\d{1,4})?", node):
            shown = f"{str(node)!r} is no" if isinstance(node, Text) else "wants a"
            raise BrokenFile(file, line_of(node), f"{what}: {shown} plain number, as 65 or 12.50")
        value = float(node.replace(",", "."))
        if not self.least <= value <= self.most:
            raise BrokenFile(
                file, line_of(node),
                f"{what}: {node} makes no sense (sensible: {self.least:g} to {self.most:g})",
            )  # fmt: skip
        return value

    def schema(self) -> dict[str, Any]:
        return {"type": "number", "minimum": self.least, "maximum": self.most}


class Day:
    """A day that has been: 2026-03-09."""

    def __init__(self, today: date) -> None:
        self.today = today

    def read(self, node: Any, file: str, what: str) -> date:
        text = Line().read(node, file, what)
        try:
            # Only the one spelling: fromisoformat alone would take a week and a day of it too.
            day = date.fromisoformat(text if _DAY.fullmatch(text) else "")
        except ValueError:
            example = self.today.isoformat()
            raise BrokenFile(file, text.line, f"{what}: {text} is no day: write it as {example}") from None
        if day > self.today:
            raise BrokenFile(file, text.line, f"{what}: {text} has not come yet")
        return day

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "format": "date"}


class HoursOf:
    """Hours as low/likely/high."""

    def read(self, node: Any, file: str, what: str) -> Hours:
        text = Line().read(node, file, what)
        parts = [part.strip().replace(",", ".") for part in text.split("/")]
        if len(parts) != 3 or not all(re.fullmatch(r"\d{1,3}(\.\d{1,3})?", part) for part in parts):
            raise BrokenFile(file, text.line, f"{what}: {text} is no low/likely/high in hours, as 0.8/1/1.5")
        low, likely, high = (float(part) for part in parts)
        if not low <= likely <= high <= _MOST_HOURS or high == 0:
            raise BrokenFile(
                file, text.line, f"{what}: {text} is out of order: each hour no less than the one before"
            )
        return low, likely, high

    def schema(self) -> dict[str, Any]:
        return {"type": "string"}


class ErrorOf:
    """The error of a tool: one length either way, or less: and more: for a tool that reads small or large."""

    def read(self, node: Any, file: str, what: str) -> ToolError:
        if isinstance(node, Mapping):
            parts = Record({"less": Line(), "more": Line()}).read(node, file, what)
            return ToolError(*(self._length(parts[name], file, f"{what}, {name}") for name in parts))
        return ToolError.either_way(self._length(Line().read(node, file, what), file, what))

    @staticmethod
    def _length(text: Text, file: str, what: str) -> Fraction:
        try:
            value = read_length(text).value
        except NotUnderstood as problem:
            raise BrokenFile(file, text.line, f"{what}: {problem}") from None
        if value > _WORST_TOOL:
            raise BrokenFile(
                file, text.line, f"{what}: {text} makes no sense (sensible: 0 mm to {_WORST_TOOL} mm)"
            )
        return value

    def schema(self) -> dict[str, Any]:
        return {"type": "string"}


class Tool(Line):
    """A tool's name."""

    def read(self, node: Any, file: str, what: str) -> Text:
        OneOf(*TOOLS).read(node, file, what)
        return super().read(node, file, what)


class MonthAndDay:
    """A day of every year: 04-15."""

    def read(self, node: Any, file: str, what: str) -> tuple[int, int]:
        text = Line().read(node, file, what)
        try:
            day = date.fromisoformat(f"2001-{text}")
        except ValueError:
            raise BrokenFile(
                file, text.line, f"{what}: {text} is no day of every year: write it as 04-15"
            ) from None
        return day.month, day.day

    def schema(self) -> dict[str, Any]:
        return {"type": "string"}
