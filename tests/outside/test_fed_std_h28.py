"""Shear and stress areas of screw threads.

Source: FED-STD-H28/2B (1991), table II.B.1, formulas 2a, 4a and 6b, with the limits of ASME B1.1 class 2A/2B,
as coded in the package screw_thread_lib; areas in square inches for one inch of engagement.
"""

from __future__ import annotations

import pytest
from screw_thread_lib import Assembly

from casebook.figures.worksheet import Result
from tests.figures.worked import value, work

_INCH = 25.4
# Thread: least major and pitch diameter of the screw, greatest minor and pitch diameter of the hole, inches.
_LIMITS = {
    "10-24": (0.1818, 0.1586, 0.155, 0.1672),
    "10-32": (0.1831, 0.1658, 0.164, 0.1736),
    "1/4-20": (0.2408, 0.2127, 0.207, 0.2224),
    "1/4-28": (0.2425, 0.2225, 0.220, 0.2311),
}


def _at_the_limits(thread: str) -> Result:
    major, pitch_diameter, minor, hole_pitch = _LIMITS[thread]
    return work(
        "joint_strength", thread=thread, engaged="1 in", shank=f"{major} in",
        pitch_diameter=f"{pitch_diameter} in", tapped_hole=f"{minor} in",
        hole_pitch_diameter=f"{hole_pitch} in",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("thread", "internal", "external"),
    [("1/4-20", 0.538976, 0.367957), ("10-24", 0.401115, 0.267764), ("1/4-28", 0.521317, 0.373508)],
)
def test_worst_case_areas_as_published(thread: str, internal: float, external: float) -> None:
    """At the limits of size the areas are those of formulas 2a and 4a, as noted down from the package."""
    result = _at_the_limits(thread)
    assert value(result, "internal_area") == pytest.approx(internal * _INCH**2, rel=2e-5)
    assert value(result, "external_area") == pytest.approx(external * _INCH**2, rel=2e-5)


@pytest.mark.parametrize("thread", _LIMITS)
def test_worst_case_areas_as_the_package_works_them(thread: str) -> None:
    """The same, asked of the package while the test runs."""
    published = Assembly.from_ASME_B11_UN_2A2B(thread)
    result = _at_the_limits(thread)
    assert value(result, "internal_area") == pytest.approx(published.ASn_min_FEDSTD_2a() * _INCH**2, rel=1e-6)
    assert value(result, "external_area") == pytest.approx(published.ASs_min_FEDSTD_4a() * _INCH**2, rel=1e-6)


@pytest.mark.parametrize("thread", [*_LIMITS, "4-40", "6-32", "8-32"])
def test_basic_areas(thread: str) -> None:
    """With nothing measured the screw's area is formula 6b, 3/4 pi D1 L, and the hole's 7/8 pi D L."""
    major = {"4-40": 0.112, "6-32": 0.138, "8-32": 0.164}.get(thread, 0.19 if thread[:2] == "10" else 0.25)
    turns = int(thread.rsplit("-", 1)[1])
    basic = Assembly({"n": turns, "dbsc": major})
    result = work("joint_strength", thread=thread, engaged="1 in")
    assert value(result, "external_area") == pytest.approx(basic.ASs_max_FEDSTD_6b() * _INCH**2, rel=1e-6)
    assert value(result, "internal_area") == pytest.approx(7 / 8 * 3.14159265 * major * _INCH**2, rel=1e-6)


@pytest.mark.parametrize("thread", ["10-24", "1/4-20", "1/4-28"])
def test_tension_is_stress_area_times_strength(thread: str) -> None:
    """Formula 1b: a brass shank of 338 to 469 MPa holds that on the package's tensile stress area."""
    area = Assembly.from_ASME_B11_UN_2A2B(thread).As_FEDSTD_1b() * _INCH**2
    figure = work("joint_strength", thread=thread, metal="brass").figures["tension"]
    assert figure.low == pytest.approx(338 * area, rel=1e-6)
    assert figure.high == pytest.approx(469 * area, rel=1e-6)


def test_a_worn_shank_and_a_wide_hole_hold_less_than_basic_sizes() -> None:
    """Every limit on the loose side lowers the area."""
    loose, basic = _at_the_limits("10-24"), work("joint_strength", thread="10-24", engaged="1 in")
    for name in ("internal_area", "external_area"):
        assert value(loose, name) < value(basic, name)
