"""Worked examples of plane geometry on round bodies: fall-away, angles by chord, wood over a bore.

Source: plane geometry; every number was worked apart from the program, to four places.
"""

from __future__ import annotations

from math import pi, radians, sin, tan

import pytest

from tests.figures.worked import value, work


@pytest.mark.parametrize(
    ("radius", "width", "fall_away"),
    [
        (13.5, 6, 0.3376),
        (13, 8, 0.6307),
        (12, 10, 1.0913),
        (15, 12, 1.2523),
        (25, 20, 2.0871),
        # R = w^2 / (8 s) + s / 2, the other way round.
        (13.0, 10, 1.0),
        (13.6333, 8, 0.6),
        (15.6, 12, 1.2),
        (26.0, 20, 2.0),
        (13.0321, 6, 0.35),
    ],
)
def test_fall_away(radius: float, width: float, fall_away: float) -> None:
    """R - sqrt(R^2 - (w / 2)^2)."""
    result = work("flange_seat", body=f"{2 * radius}mm", flange=f"{width}mm")
    assert value(result, "sagitta") == pytest.approx(fall_away, abs=5e-5)


_BY_CHORD = [(13.5, 10, 43.4769), (13, 6.5, 28.955), (12, 12, 60.0), (15, 20, 83.6206), (25, 30, 73.7398)]


@pytest.mark.parametrize(("radius", "chord", "angle"), _BY_CHORD)
def test_angle_by_chord(radius: float, chord: float, angle: float) -> None:
    """2 asin(c / (2 R)) is twice the angle at which holes bored straight down enter."""
    result = work("post_angle", body=f"{2 * radius}mm", spacing=f"{chord}mm")
    assert 2 * value(result, "straight_entry_angle") == pytest.approx(angle, abs=5e-5)


_BY_ARC = [(13.5, 10, 42.4413), (13, 6.5, 28.6479), (12, 12, 57.2958), (15, 20, 76.3944), (25, 30, 68.7549)]


@pytest.mark.parametrize(("radius", "arc", "angle"), _BY_ARC)
def test_angle_by_arc(radius: float, arc: float, angle: float) -> None:
    """The arc over R, in radians: posts at that angle, 6 mm high, lie that arc apart on the wood."""
    spacing = 2 * (radius + 6) * sin(radians(angle / 2))
    result = work("post_angle", body=f"{2 * radius}mm", hinge_height="6mm", spacing=f"{spacing:.6f}mm")
    assert value(result, "between") == pytest.approx(angle, abs=1e-4)
    assert value(result, "arc") == pytest.approx(arc, abs=1e-4)


@pytest.mark.parametrize(
    ("radius", "bore_radius", "width", "depth", "axis", "edge"),
    [
        (13.5, 7.3, 5, 4.5, 1.7, 2.0408),
        (13, 7.5, 6, 4, 1.5, 1.9868),
        (15, 7.3, 6.35, 6, 1.7, 2.2436),
        (12, 9.5, 4, 1.8, 0.7, 0.8942),
        (20, 9, 8, 9, 2.0, 2.7047),
    ],
)
def test_wood_over_the_bore(
    radius: float, bore_radius: float, width: float, depth: float, axis: float, edge: float
) -> None:
    """On the axis R - h - r, at the edge sqrt((R - h)^2 + (w / 2)^2) - r, of a flat-bottomed hole."""
    result = work(
        "bushing", body=f"{2 * radius}mm", bore=f"{2 * bore_radius}mm", hole=f"{width}mm", clean_up="0mm",
        seat_depth="0.5mm", engaged=f"{depth - 0.5}mm", extra="0mm", thread="M1", flange="11mm",
    )  # fmt: skip
    assert value(result, "depth") == pytest.approx(depth)
    assert value(result, "wood_to_bore") == pytest.approx(axis, abs=5e-5)
    assert value(result, "wood_at_edge") == pytest.approx(edge, abs=5e-5)


def test_straight_across_and_round_the_body_differ() -> None:
    """20 mm on a radius of 15 mm is 83.6 degrees straight across, and 76.4 degrees round the wood."""
    across = work("post_angle", body="30mm", spacing="20mm")
    assert 2 * value(across, "straight_entry_angle") == pytest.approx(83.6, abs=0.05)
    assert 20 / 15 * 180 / pi == pytest.approx(76.4, abs=0.05)


def test_point_of_a_common_drill() -> None:
    """A drill of 118 degrees goes 0.30 of its diameter deeper: D / (2 tan 59 degrees)."""
    result = work("bushing", hole="5mm", thread="M1", engaged="3mm", seat_depth="1mm")
    deeper = value(result, "point_depth") - value(result, "depth")
    assert deeper == pytest.approx(value(result, "wood_hole") / (2 * tan(radians(59))), rel=0.002)
