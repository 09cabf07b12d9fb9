"""One shelf of the drawer as the shop writes it: sizes, whole sets of drills, series by a step."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from casebook.figures.drawer import SHELVES
from casebook.figures.inputs import MOST_PARTS, BadInput, Drawer, list_of
from casebook.quantity import NotUnderstood, Unit, drills, read_length
from casebook.strict_yaml import BrokenFile, Sequence, Text, line_of

_SET = re.compile(r"(number|letter|fraction|metric) set")
_SERIES = re.compile(r"(.+?) to (.+?) by (.+)")


class ShelfOf:
    """What lies on one shelf: a list, or one line with commas; gives it as the worksheets read it.

    Args:
        name: the shelf.
        unit: the unit of a bare size.
    """

    def __init__(self, name: str, unit: Unit) -> None:
        self.item = SHELVES[name].item
        self.unit = unit

    def read(self, node: Any, file: str, what: str) -> str:
        parts: list[str] = []
        for one in node if isinstance(node, Sequence) else [node]:
            if not isinstance(one, Text):
                raise BrokenFile(file, line_of(one), f"{what}: sizes are wanted here, as 5 mm, 13/64, #47")
            if one.is_null or not one.strip():
                raise BrokenFile(file, one.line, f"{what}: is empty: say what lies there, or leave it out")
            try:
                parts += [part for typed in list_of(one) for part in self._pieces(typed)]
            except NotUnderstood as problem:
                raise BrokenFile(file, one.line, f"{what}: {problem}") from None
            except BadInput as problem:
                raise BrokenFile(file, one.line, f"{what}: {problem.problem}") from None
            if len(parts) > MOST_PARTS:
                raise BrokenFile(file, one.line, f"{what}: more than {MOST_PARTS} pieces: is the step right?")
        return "; ".join(dict.fromkeys(parts))

    def _pieces(self, typed: str) -> list[str]:
        """Give what one entry stands for, each checked against the shelf's sensible range."""
        found = _SET.fullmatch(typed) if self.item.name == "drills" else None
        if found:
            mark = "letter " if found.group(1) == "letter" else ""
            return [f"{mark}{name}" for name, _ in drills(found.group(1))]
        series = _SERIES.fullmatch(typed) if self.item.kind == "sizes" else None
        sizes = self._series(typed, *series.groups()) if series else [typed]
        return [str(self.item.read(size, self.unit)) for size in sizes]

    def _series(self, typed: str, *ends: str) -> list[str]:
        first, last, step = (read_length(end, bare=self.unit).value for end in ends)
        if step <= 0 or last < first:
            raise NotUnderstood(typed, "goes nowhere", "write it as 1 mm to 6 mm by 0.1 mm")
        count = int((last - first) / step) + 1
        if count > MOST_PARTS:
            raise NotUnderstood(typed, f"more than {MOST_PARTS} pieces", "is the step right?")
        return [f"{_decimal(first + step * n)} mm" for n in range(count)]

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}


def _decimal(size: Fraction) -> str:
    return f"{float(size):.6f}".rstrip("0").rstrip(".")


def shelf_lines(drawer: Drawer) -> Iterator[str]:
    """Write the shelves for the file, every size by itself."""
    for name, typed in drawer.items():
        listed = ", ".join(json.dumps(part, ensure_ascii=False) for part in list_of(typed))
        yield f"  {name}: [{listed}]"
