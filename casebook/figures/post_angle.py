"""Two posts that carry one rod: their angle round the body, or their heights along it.

Crosswise, with R half the body's diameter, h the height of the rod's middle above the wood and c the
distance between the heads: two posts on radii of the body stand asin(c / (2 (R + h))) either side of the
high line. Angles are in degrees, lengths in mm.
"""

from __future__ import annotations

from math import asin, atan, degrees, pi

from casebook.figures.formula import Formula, term
from casebook.figures.inputs import BadInput, Input, Inputs
from casebook.figures.round_body import GEOMETRY, keep_below
from casebook.figures.section import posts_section
from casebook.figures.shared_inputs import BODY, HINGE_HEIGHT
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_SPACING = Input(
    "spacing", "length", "distance between the middles of the two heads", low="1 mm", high="400 mm"
)
_LAYOUT = Input(
    "layout", "choice", "how the rod lies: crosswise to the body or lengthwise along it",
    default="crosswise", choices=("crosswise", "lengthwise"),
)  # fmt: skip
_OTHER_BODY = Input(
    "other_body", "length", "lengthwise: outside diameter of the body at the second post",
    low="4 mm", high="200 mm",
)  # fmt: skip
_OFFSET = Input(
    "offset", "length", "lengthwise: how far the rod passes beside the second post", low="0 mm", high="20 mm"
)
_MOST_LEAN = Input(
    "most_lean",
    "angle",
    "the most lean to be eased by hand",
    default="0.5",
    low="0",
    high="5",
    measured=False,
)

_HALF_ANGLE = Formula(
    lambda body, hinge_height, spacing: degrees(asin(spacing / (body + 2 * hinge_height))),
    rises="spacing",
    falls="body hinge_height",
)
_BETWEEN = Formula(
    lambda body, hinge_height, spacing: 2 * degrees(asin(spacing / (body + 2 * hinge_height))),
    rises="spacing",
    falls="body hinge_height",
)
_HEAD_ANGLE = Formula(
    lambda body, hinge_height, spacing: 90 - degrees(asin(spacing / (body + 2 * hinge_height))),
    rises="body hinge_height",
    falls="spacing",
)
_CHORD = Formula(
    lambda body, hinge_height, spacing: body * spacing / (body + 2 * hinge_height),
    rises="body spacing",
    falls="hinge_height",
)
_STRAIGHT = Formula(lambda body, spacing: degrees(asin(spacing / body)), rises="spacing", falls="body")


def _arc(body: float, hinge_height: float, spacing: float) -> float:
    return body * asin(spacing / (body + 2 * hinge_height))


# Which way the body's diameter moves the arc depends on how far apart the posts stand: `arc_formula`.
_ARC_RISING = Formula(_arc, rises="body spacing", falls="hinge_height")
_ARC_FALLING = Formula(_arc, rises="spacing", falls="body hinge_height")

_TURNED = Formula(lambda body, hinge_height: (body / 2 + hinge_height) * pi / 180, rises="body hinge_height")
_LEANED = Formula(lambda hinge_height: hinge_height * pi / 180, rises="hinge_height")
_LEAN = Formula(lambda offset, spacing: degrees(atan(offset / spacing)), rises="offset", falls="spacing")
_DIFFERENCE = Formula(lambda body, other_body: (body - other_body) / 2, rises="body", falls="other_body")


def arc_formula(body: float, hinge_height: float, spacing: float) -> Formula:
    """Give the arc between the posts' holes round the wood, with the direction that holds for these sizes.

    With u = c / (2 (R + h)) the arc 2 R asin u grows with R while asin u > R / (R + h) u / sqrt(1 - u^2).
    """
    u = spacing / (body + 2 * hinge_height)
    if u >= 1:
        return _ARC_FALLING
    rising = asin(u) > body / (body + 2 * hinge_height) * u / (1 - u * u) ** 0.5
    return _ARC_RISING if rising else _ARC_FALLING


def _run(inputs: Inputs) -> Result:
    result = Result(WORKSHEET.id, inputs)
    if inputs.word("layout") == "lengthwise":
        _lengthwise(result)
    else:
        _crosswise(result)
    for name, formula, how in (
        (
            "shift_per_degree_turned",
            _TURNED,
            "(R + h) pi / 180: a degree round the body moves the head so far",
        ),
        (
            "shift_per_degree_leaned",
            _LEANED,
            "h pi / 180: a degree of lean on the seat moves the head",
        ),
    ):
        result.figure(name, formula, how=how, source=GEOMETRY)
    return result


def _crosswise(result: Result) -> None:
    inputs, spans = result.inputs, result.inputs.spans
    _keep_heads_on_body(inputs)
    for name, formula, unit, how in (
        ("half_angle", _HALF_ANGLE, "deg", "asin(spacing / (2 (R + h))): each post from the high line"),
        ("between", _BETWEEN, "deg", "2 x half angle"),
        ("turn", _HALF_ANGLE, "deg", "half angle: turn the body so far each side of the high line to drill"),
        ("chord", _CHORD, "mm", "2 R sin(half angle): straight across between the holes on the wood"),
        ("head_angle", _HEAD_ANGLE, "deg", "90 - half angle: hinge hole in the head to the post's own axis"),
    ):
        result.figure(name, formula, unit=unit, how=how, source=GEOMETRY)
    needed = [spans.get(name) for name in ("body", "hinge_height", "spacing")]
    if all(needed):
        arc = arc_formula(*(span.value for span in needed if span))
        result.figure("arc", arc, how="2 R x half angle: round the wood between the holes", source=GEOMETRY)
    if "body" in spans and "spacing" in spans and spans["spacing"].high > spans["body"].low:
        result.unknown_figure(
            "straight_entry_angle",
            unit="deg",
            why="holes straight down as far apart as the heads would miss the body",
            source=GEOMETRY,
        )
    else:
        result.figure(
            "straight_entry_angle",
            _STRAIGHT,
            unit="deg",
            how="asin(spacing / (2 R)): how far off square both would enter if bored straight down",
            source=GEOMETRY,
        )
    angle, arc_figure = result.figures.get("half_angle"), result.figures.get("arc")
    if angle is None or arc_figure is None or angle.value is None or arc_figure.value is None:
        return
    result.steps += [
        f"Wrap the template round the body: holes {arc_figure.value:.2f} mm apart round the wood, half of it"
        " either side of the high line. Calipers straight across read less.",
        f"Turn the body {angle.value:.1f} degrees either side of the high line and drill each hole to the"
        " middle of the body.",
        "First post of a pair from tone hole and key, the second from the bare straight rod.",
    ]
    result.drawing = posts_section(result, angle.value)


def _keep_heads_on_body(inputs: Inputs) -> None:
    spans = inputs.spans
    if not all(name in spans for name in ("body", "hinge_height", "spacing")):
        return
    most = spans["body"].low + 2 * spans["hinge_height"].low
    if spans["spacing"].high >= most:
        raise BadInput(
            "spacing",
            f"two heads cannot stand so far apart on this body: measure again (sensible: less than body + 2 x"
            f" hinge height, {most:.4g} mm)",
        )


def _lengthwise(result: Result) -> None:
    inputs = result.inputs
    keep_below(inputs, "offset", "spacing")
    result.figure(
        "height_difference",
        _DIFFERENCE,
        how="(body at the first post - body at the second) / 2: how much taller the second must stand",
        source=GEOMETRY,
    )
    result.figure(
        "second_height",
        term("hinge_height") + _DIFFERENCE,
        how="rod height at the first post + difference, with the rod along the body",
        source=GEOMETRY,
    )
    result.figure(
        "lean", _LEAN, unit="deg", how="atan(offset / spacing): lean from the rod's offset", source=GEOMETRY
    )
    result.check(
        "lean_small",
        term("most_lean") - _LEAN,
        unit="deg",
        yes=f"small enough to ease by hand pressure, with the bare rod in ({COMMON_PRACTICE})",
        no=f"too much to ease by hand: correct the post or its seat ({COMMON_PRACTICE})",
        ways_out=(
            "recut the seat square to the rod",
            "a tapered shim or facing under the flange",
            "check first that the rod itself is straight",
        ),
    )


WORKSHEET = Worksheet(
    id="post_angle",
    title="Posts of a pair: angle round the body and drilling template, or heights and lean along it",
    inputs=(BODY, HINGE_HEIGHT, _SPACING, _LAYOUT, _OTHER_BODY, _OFFSET, _MOST_LEAN),
    run=_run,
    example="body=27mm hinge_height=6mm spacing=22mm layout=crosswise",
)
