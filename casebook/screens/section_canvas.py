"""A section to scale, drawn in the dots of braille characters: two across and four down in each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise
from math import cos, radians, sin
from typing import Any

from textual.content import Content

from casebook.screens.plain import FAINT, joined, plain

_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
_COLOURS = {
    "body": "", "bore": "", "hole": "$text-warning", "seat": "$text-warning", "bushing": "$text-success",
    "plug": "$text-success", "pin": "$text-success", "flange": "bold", "shank": "bold", "post": "bold",
    "void": "$text-error",
}  # fmt: skip
# Steps along a curve or line: finer than any dot on a screen of 200 columns.
_STEPS = 720

Point = tuple[float, float]


def section(drawing: Mapping[str, Any], width: int, height: int) -> list[Content]:
    """Draw shapes (see `casebook.figures.section`) into so many columns and lines, the same scale both ways.

    Below it stands a line with what is what.
    """
    shapes = list(drawing.get("shapes", ()))
    outlines = [(shape, list(_outline(shape))) for shape in shapes]
    points = [point for _, outline in outlines for point in outline]
    if not points or width < 4 or height < 4:
        return []
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    # A character is about twice as high as wide, so its two by four dots are square.
    scale = min((width * 2 - 1) / (right - left or 1), ((height - 1) * 4 - 1) / (high - low or 1))
    place = _placed(left, high, scale)
    cells: dict[tuple[int, int], tuple[int, str]] = {}
    for shape, outline in outlines:
        colour = _COLOURS.get(str(shape["part"]), "")
        for x, y in map(place, outline):
            row, column = y // 4, x // 2
            bits, _ = cells.get((row, column), (0, ""))
            cells[row, column] = (bits | _DOTS[y % 4][x % 2], colour)
    lowest = max(row for row, _ in cells)
    rows = [_row(cells, row, width) for row in range(lowest + 1)]
    return [*rows, _legend(shapes)]


def _placed(left: float, high: float, scale: float) -> Callable[[Point], tuple[int, int]]:
    def place(point: Point) -> tuple[int, int]:
        return round((point[0] - left) * scale), round((high - point[1]) * scale)

    return place


def _row(cells: Mapping[tuple[int, int], tuple[int, str]], row: int, width: int) -> Content:
    parts: list[Content] = []
    for column in range(width):
        bits, colour = cells.get((row, column), (0, ""))
        parts.append(plain(chr(0x2800 + bits) if bits else " ", colour))
    return joined(*parts)


def _legend(shapes: list[Mapping[str, Any]]) -> Content:
    named: dict[str, str] = {}
    for shape in shapes:
        if shape.get("label"):
            named.setdefault(str(shape["label"]), _COLOURS.get(str(shape["part"]), ""))
    parts = [plain(label, colour or FAINT) for label, colour in named.items()]
    return plain(", ", FAINT).join(parts)


def _outline(shape: Mapping[str, Any]) -> Iterator[Point]:
    kind = shape["kind"]
    if kind == "rect":
        x, y, wide, high = (float(shape[name]) for name in ("x", "y", "width", "height"))
        corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y)]
        for start, end in pairwise(corners):
            yield from _straight(start, end)
    elif kind == "line":
        x1, y1, x2, y2 = (float(shape[name]) for name in ("x1", "y1", "x2", "y2"))
        yield from _straight((x1, y1), (x2, y2))
    else:
        x, y, r = (float(shape[name]) for name in ("x", "y", "r"))
        begin, stop = (float(shape.get(name, usual)) for name, usual in (("start", 0.0), ("end", 360.0)))
        for step in range(_STEPS + 1):
            turned = radians(begin + (stop - begin) * step / _STEPS)
            yield x + r * cos(turned), y + r * sin(turned)


def _straight(start: Point, end: Point) -> Iterator[Point]:
    for step in range(_STEPS // 2 + 1):
        part = step / (_STEPS // 2)
        yield start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part
