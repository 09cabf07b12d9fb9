"""Two posts on one rod: the closed forms against points in space, and the lean along the body."""

from __future__ import annotations

from itertools import pairwise
from math import acos, asin, cos, degrees, dist, pi, radians, sin, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from casebook.figures.inputs import BadInput
from casebook.figures.post_angle import arc_formula
from casebook.figures.worksheet import Result
from tests.figures.worked import value, work

_Point = tuple[float, float, float]


def run(error: str = "0", **typed: str) -> Result:
    """Work the worksheet on what was typed."""
    return work("post_angle", error, **typed)


def _on_radius(degrees_from_top: float, radius: float) -> _Point:
    """A point at `radius` from the body's axis (the y axis), turned so far from the high line (z axis)."""
    return (radius * sin(radians(degrees_from_top)), 0.0, radius * cos(radians(degrees_from_top)))


def _angle(a: _Point, b: _Point) -> float:
    dot = sum(p * q for p, q in zip(a, b, strict=True))
    return degrees(acos(dot / (sqrt(sum(p * p for p in a)) * sqrt(sum(q * q for q in b)))))


_SIZES = st.tuples(st.integers(160, 600), st.integers(10, 150), st.integers(20, 500))


@given(_SIZES)
def test_posts_in_space_have_the_angles_and_distances_of_the_figures(tenths: tuple[int, int, int]) -> None:
    """Two heads put on radii of the body at the half angle lie as far apart as asked, and so on round."""
    body, height, spacing = (number / 10 for number in tenths)
    radius = body / 2
    assume(spacing < 1.98 * (radius + height))
    result = run(body=f"{body}mm", hinge_height=f"{height}mm", spacing=f"{spacing}mm")
    half = value(result, "half_angle")
    heads = [_on_radius(turned, radius + height) for turned in (-half, half)]
    holes = [_on_radius(turned, radius) for turned in (-half, half)]
    assert dist(*heads) == pytest.approx(spacing, rel=1e-9)
    assert _angle(*holes) == pytest.approx(value(result, "between"), rel=1e-6)
    assert dist(*holes) == pytest.approx(value(result, "chord"), rel=1e-9)
    steps = [_on_radius(-half + 2 * half * i / 4000, radius) for i in range(4001)]
    walked = sum(dist(a, b) for a, b in pairwise(steps))
    assert walked == pytest.approx(value(result, "arc"), rel=1e-6)
    rod = tuple(b - a for a, b in zip(*heads, strict=True))
    post = tuple(b - a for a, b in zip(holes[0], heads[0], strict=True))
    between_rod_and_post = _angle((rod[0], rod[1], rod[2]), (post[0], post[1], post[2]))
    assert 180 - between_rod_and_post == pytest.approx(value(result, "head_angle"), abs=1e-6)
    assert value(result, "turn") == half


@given(_SIZES)
def test_boring_straight_down_enters_at_the_stated_angle(tenths: tuple[int, int, int]) -> None:
    """A vertical through a head meets the wood at the stated angle to the wood's own normal."""
    body, height, spacing = (number / 10 for number in tenths)
    assume(spacing < 0.99 * body)
    result = run(body=f"{body}mm", hinge_height=f"{height}mm", spacing=f"{spacing}mm")
    across = spacing / 2
    normal = (across, 0.0, sqrt((body / 2) ** 2 - across**2))
    assert _angle(normal, (0.0, 0.0, 1.0)) == pytest.approx(value(result, "straight_entry_angle"), abs=1e-5)


@given(_SIZES, st.sampled_from([-1.0, 1.0]))
def test_the_arc_moves_with_the_body_as_declared(tenths: tuple[int, int, int], way: float) -> None:
    """The direction chosen for the arc at these sizes is the one the numbers show."""
    body, height, spacing = (number / 10 for number in tenths)
    assume(spacing < 0.98 * (body + 2 * height))
    formula = arc_formula(body, height, spacing)
    sizes = {"hinge_height": height, "spacing": spacing}
    step = formula.compute(body=body + way * 1e-4, **sizes) - formula.compute(body=body, **sizes)
    declared = 1.0 if "body" in formula.rises else -1.0
    assert step * way * declared >= -1e-7


def test_holes_that_would_miss_the_body_have_no_entry_angle() -> None:
    """Heads further apart than the body is wide can stand on radii, but not be bored straight down."""
    result = run(body="20mm", hinge_height="7mm", spacing="30mm")
    assert result.figures["straight_entry_angle"].value is None
    assert value(result, "half_angle") == pytest.approx(degrees(asin(30 / 34)))


def test_one_degree_at_the_wood_moves_the_head_by_its_share_of_the_circle() -> None:
    """A degree round the body is 1/360 of the circle on which the head stands."""
    result = run(body="27mm", hinge_height="6mm", spacing="22mm")
    assert value(result, "shift_per_degree_turned") == pytest.approx(2 * pi * 19.5 / 360)
    assert value(result, "shift_per_degree_leaned") == pytest.approx(2 * pi * 6 / 360)


def test_lengthwise_the_second_post_makes_up_for_the_taper() -> None:
    """On a body that tapers from 27 to 26 mm the second post stands 0.5 mm taller."""
    result = run(body="27mm", other_body="26mm", hinge_height="5mm", layout="lengthwise")
    assert value(result, "height_difference") == pytest.approx(0.5)
    assert value(result, "second_height") == pytest.approx(5.5)


@pytest.mark.parametrize(("offset", "holds"), [("0.3mm", "yes"), ("0.5mm", "no")])
def test_lean_is_eased_by_hand_only_under_half_a_degree(offset: str, holds: str) -> None:
    """Over 40 mm, 0.3 mm is 0.43 degree and eased by hand; 0.5 mm is 0.72 and is corrected."""
    assert run(offset=offset, spacing="40mm", layout="lengthwise").checks["lean_small"].holds == holds


def test_a_lean_inside_its_doubt_is_open() -> None:
    """Where the reading error decides, the check says which reading to take again."""
    check = run("0.05", offset="0.35mm", spacing="40mm", layout="lengthwise").checks["lean_small"]
    assert check.holds == "unknown"
    assert check.waits_on == ("offset",)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"body": "20mm", "hinge_height": "2mm", "spacing": "30mm"}, "spacing"),
        ({"body": "20mm", "hinge_height": "0mm", "spacing": "10mm"}, "hinge_height"),
        ({"layout": "lengthwise", "offset": "9mm", "spacing": "8mm"}, "offset"),
        ({"layout": "askew"}, "layout"),
    ],
)
def test_senseless_readings_are_refused_by_name(typed: dict[str, str], name: str) -> None:
    """A reading that cannot be names its input."""
    with pytest.raises(BadInput) as refused:
        run(**typed)
    assert refused.value.name == name


def test_missing_readings_leave_out_what_needs_them() -> None:
    """Without the hinge height only what does not need it is given."""
    figures = run(body="27mm", spacing="22mm").figures
    assert set(figures) == {"straight_entry_angle"}
