"""Drawings of worksheets: sections through the body as plain shapes in mm, for paper and screens to render.

A drawing is a mapping ``{"view": str, "unit": "mm", "shapes": [shape, ...]}``. The middle of the body is
the origin, x goes to the right, y up to the high line; angles are degrees from the x axis, against the
clock. Every shape has ``kind``, ``label`` (bench words, may be empty), ``part`` (body, bore, seat, hole,
bushing, flange, shank, plug, post, pin, void) and, in mm:

    circle  x, y, r                    middle and radius
    arc     x, y, r, start, end        the same, with angles
    line    x1, y1, x2, y2
    rect    x, y, width, height        x and y of the lower left corner
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, radians, sin, sqrt
from typing import Any

from casebook.figures.worksheet import Result

Shape = dict[str, Any]

# Drawn when nobody measured the flange: a line one can see.
_THIN = 0.3


def circle(part: str, label: str, x: float, y: float, r: float) -> Shape:
    """A full circle."""
    return {"kind": "circle", "part": part, "label": label, "x": x, "y": y, "r": r}


def arc(part: str, label: str, r: float, start: float, end: float) -> Shape:
    """A part of a circle round the middle of the body."""
    return {
        "kind": "arc",
        "part": part,
        "label": label,
        "x": 0.0,
        "y": 0.0,
        "r": r,
        "start": start,
        "end": end,
    }


def line(part: str, label: str, x1: float, y1: float, x2: float, y2: float) -> Shape:
    """A straight line."""
    return {"kind": "line", "part": part, "label": label, "x1": x1, "y1": y1, "x2": x2, "y2": y2}


def centred(part: str, label: str, top: float, width: float, height: float) -> Shape:
    """A rectangle on the axis of the post, hanging down from `top`."""
    return {
        "kind": "rect", "part": part, "label": label,
        "x": -width / 2, "y": top - height, "width": width, "height": height,
    }  # fmt: skip


def drawing(view: str, shapes: list[Shape]) -> dict[str, Any]:
    """Put shapes together; nothing at all where there are none."""
    return {"view": view, "unit": "mm", "shapes": shapes} if shapes else {}


def _body(result: Result, label: str = "body") -> tuple[float, list[Shape]]:
    """Give the radius of the body (0 where nobody measured it) with body and bore drawn."""
    spans = result.inputs.spans
    if "body" not in spans:
        return 0.0, []
    radius = spans["body"].value / 2
    shapes = [circle("body", label, 0.0, 0.0, radius)]
    if "bore" in spans:
        shapes.append(circle("bore", "bore", 0.0, 0.0, spans["bore"].value / 2))
    elif "wall" in spans:
        shapes.append(circle("bore", "bore, by the wall", 0.0, 0.0, radius - spans["wall"].value))
    return radius, shapes


def _size(result: Result, name: str) -> float | None:
    """Give a figure's or an input's value in mm, or None."""
    figure = result.figures.get(name)
    if figure is not None and figure.value is not None:
        return figure.value
    span = result.inputs.spans.get(name)
    return span.value if span is not None else None


def _flange(result: Result, seat_floor: float) -> list[Shape]:
    flange, thick = _size(result, "flange"), _size(result, "flange_thickness") or _THIN
    if flange is None:
        return []
    return [centred("flange", "flange", seat_floor + thick, flange, thick)]


def seat_section(result: Result) -> dict[str, Any]:
    """Draw body and flange in its seat, across the body."""
    radius, shapes = _body(result)
    seat, flange = _size(result, "seat_depth"), _size(result, "flange")
    if not shapes or seat is None or flange is None:
        return {}
    shapes.append(centred("seat", "seat as cut", radius, flange, seat))
    return drawing("across the body at the post", shapes + _flange(result, radius - seat))


def bushing_section(result: Result) -> dict[str, Any]:
    """Draw body, hole as cut, bushing, shank and flange, across the body."""
    radius, shapes = _body(result)
    names = ("seat_depth", "wood_hole", "outside", "length", "depth")
    sizes = [_size(result, name) for name in names]
    seat, wood_hole, outside, length, depth = (size if size is not None else 0.0 for size in sizes)
    if not shapes or None in sizes:
        return {}
    shapes.append(centred("hole", "hole as cut", radius, wood_hole, depth))
    shapes.append(centred("bushing", "bushing", radius - seat, outside, length))
    major, engaged = _size(result, "major"), _size(result, "engaged")
    if major is not None and engaged is not None:
        shapes.append(centred("shank", "shank", radius - seat, major, engaged))
    return drawing("across the body at the post", shapes + _flange(result, radius - seat))


def plug_section(result: Result) -> dict[str, Any]:
    """Draw the wall cut along the plug: the old hole and the plug; the high line is y = 0."""
    top, bottom = _size(result, "hole"), _size(result, "hole_bottom") or _size(result, "hole")
    depth, diameter = _size(result, "depth"), _size(result, "diameter")
    if top is None or bottom is None or depth is None or diameter is None:
        return {}
    shapes = [
        centred("plug", "plug", 0.0, diameter, depth),
        line("void", "old hole", -top / 2, 0.0, -bottom / 2, -depth),
        line("void", "", top / 2, 0.0, bottom / 2, -depth),
    ]
    wall = _size(result, "wall")
    if wall is not None:
        shapes.append(line("bore", "bore", -diameter, -wall, diameter, -wall))
    return drawing("along the plug", shapes)


def posts_section(result: Result, half_angle: float) -> dict[str, Any]:
    """Draw two posts across the body, `half_angle` degrees either side of the high line."""
    radius, shapes = _body(result)
    height = _size(result, "hinge_height")
    if not shapes or height is None:
        return {}
    heads = []
    for label, turned in (("first post", 90 + half_angle), ("second post", 90 - half_angle)):
        x, y = cos(radians(turned)), sin(radians(turned))
        heads.append(((radius + height) * x, (radius + height) * y))
        shapes.append(line("post", label, radius * x, radius * y, *heads[-1]))
    shapes.append(line("post", "rod", *heads[0], *heads[1]))
    shapes.append(arc("body", "straight across and round the wood", radius, 90 - half_angle, 90 + half_angle))
    return drawing("across the body at the posts", shapes)


def pin_section(result: Result) -> dict[str, Any]:
    """Draw body, bore, the crack on the high line and a pin straight across it."""
    radius, shapes = _body(result)
    length, pin = _size(result, "pin_length"), _size(result, "pin")
    if not shapes or length is None or pin is None:
        return {}
    middle = sqrt(radius**2 - (length / 2) ** 2)
    bore = _size(result, "bore")
    shapes.append(line("void", "crack", 0.0, radius, 0.0, bore / 2 if bore is not None else middle - pin))
    shapes.append(centred("pin", "pin", middle + pin / 2, length, pin))
    return drawing("across the body at a pin", shapes)


def profile_drawing(rows: list[dict[str, Any]]) -> dict[str, Any]:
    """Draw a bore along its stations: x along the bore, y its diameter, the reference beside it."""
    shapes: list[Shape] = []
    for before, after in pairwise(row for row in rows if "station_depth" in row):
        ends = [(row["station_depth"], row["mean_diameter"]) for row in (before, after)]
        shapes.append(line("bore", "" if shapes else "bore", *ends[0], *ends[1]))
        if "off_misfit" in before and "off_misfit" in after:
            wanted = [row["mean_diameter"] - row["off_misfit"] for row in (before, after)]
            shapes.append(line("body", "", ends[0][0], wanted[0], ends[1][0], wanted[1]))
    return drawing("along the bore, diameters", shapes)
