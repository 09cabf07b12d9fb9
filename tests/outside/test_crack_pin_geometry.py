"""Pins across a crack: plane geometry of chords, worked by hand; and rules of thumb (common practice, no source)."""

from __future__ import annotations

from math import hypot

import pytest

from tests.figures.worked import value, work


@pytest.mark.parametrize(
    ("radius", "depth", "chord"),
    [(13, 1, 10), (5, 2, 8), (13, 8, 24), (25, 18, 48), (17, 2, 16), (15, 3, 18), (10, 2, 12), (25, 1, 14)],
)
def test_length_of_a_pin_is_the_chord(radius: float, depth: float, chord: float) -> None:
    """Whole-number right triangles: 5-12-13, 3-4-5, 7-24-25, 8-15-17 and their multiples."""
    result = work("crack_pin_layout", body=f"{2 * radius}mm", depth=f"{depth}mm")
    assert value(result, "pin_length") == pytest.approx(chord)


@pytest.mark.parametrize(
    ("body", "bore", "pin", "low", "high"),
    [(27, 14.6, 1.2, 1.4, 4.8), (30, 15, 1.0, 1.3, 6.2), (24, 19, 0.8, 1.2, 1.3), (26, 18.5, 1.5, 1.55, 2.2)],
)
def test_room_for_a_pin(body: float, bore: float, pin: float, low: float, high: float) -> None:
    """From pin / 2 + 0.8 to R - r - pin / 2 - 0.8, worked by hand."""
    result = work("crack_pin_layout", body=f"{body}mm", bore=f"{bore}mm", pin=f"{pin}mm")
    assert value(result, "depth_min") == pytest.approx(low)
    assert value(result, "depth_max") == pytest.approx(high)


def test_a_pin_at_its_deepest_clears_the_bore_by_the_cover() -> None:
    """Measured in the drawing's own coordinates, at the crack and anywhere along the pin."""
    deepest = value(work("crack_pin_layout", body="27mm", bore="14.6mm", pin="1.2mm"), "depth_max")
    for along in (0.0, 1.0, 3.0, 6.0):
        assert hypot(along, 13.5 - deepest - 0.6) - 7.3 >= 0.8 - 1e-9
    assert 13.5 - deepest - 0.6 - 7.3 == pytest.approx(0.8)


@pytest.mark.parametrize(
    ("body", "width", "percent"), [(31.831, 0.1, 0.1), (27, 0.424, 0.5), (20, 0.2, 0.3183), (40, 1.2566, 1.0)]
)
def test_strain_to_close(body: float, width: float, percent: float) -> None:
    """w / (pi D): a tenth of a millimetre on 100 mm round the body is a tenth of a percent."""
    result = work("crack_pin_layout", body=f"{body}mm", width=f"{width}mm")
    assert value(result, "strain_to_close") == pytest.approx(percent, abs=2e-4)


@pytest.mark.parametrize(("width", "holds"), [("0.40 mm", "yes"), ("0.45 mm", "no")])
def test_over_half_a_percent_is_not_forced(width: str, holds: str) -> None:
    """Half a percent of 27 mm x pi is 0.424 mm (common practice, no source)."""
    assert work("crack_pin_layout", body="27mm", width=width).checks["closes_without_force"].holds == holds


@pytest.mark.parametrize(("wall", "holds"), [("3.0 mm", "yes"), ("2.9 mm", "no")])
def test_a_wall_under_three_millimetres_is_not_pinned(wall: str, holds: str) -> None:
    """Common practice, no source."""
    assert work("crack_pin_layout", wall=wall, pin="0.8mm").checks["wall_enough"].holds == holds


@pytest.mark.parametrize(("wall", "holds"), [("4.5 mm", "yes"), ("4.4 mm", "no")])
def test_a_wall_is_three_pins_thick(wall: str, holds: str) -> None:
    """Three times a pin of 1.5 mm (common practice, no source)."""
    assert work("crack_pin_layout", wall=wall, pin="1.5mm").checks["wall_enough"].holds == holds


def test_forty_eight_threads_an_inch_turn_ten_degrees_in_fifteen_microns() -> None:
    """25.4 / 48 x 10 / 360 = 0.0147 mm: geometry of the screw."""
    assert value(work("clocking", thread="3-48", degrees="10"), "shim") == pytest.approx(0.0147, abs=5e-5)
