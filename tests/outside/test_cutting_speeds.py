"""Spindle speeds: rpm = 12 V / (pi D) with V in ft/min and D in inches, 1 ft/min = 0.3048 m/min exactly.

Speeds by material: a lathe maker's manual and a university shop table, high-speed steel.
"""

from __future__ import annotations

from math import pi

import pytest

from tests.figures.worked import value, work


@pytest.mark.parametrize(
    ("surface_speed", "diameter", "rpm"),
    [("45.72", "0.25 in", 2291.8), ("60", "6.35 mm", 3007.7), ("30.48", "0.1015 in", 3763.3)],
)
def test_worked_examples(surface_speed: str, diameter: str, rpm: float) -> None:
    """150 ft/min on 1/4 in; 60 m/min on 6.35 mm; 100 ft/min on 0.1015 in."""
    assert value(
        work("lathe_speed", surface_speed=surface_speed, diameter=diameter), "speed"
    ) == pytest.approx(rpm, abs=0.05)


@pytest.mark.parametrize(
    ("material", "low", "high"), [("brass", 150, 200), ("steel", 90, 110), ("wood", 300, 500)]
)
def test_turning(material: str, low: float, high: float) -> None:
    """The manual's and the university's ft/min, on one inch, by the inch formula."""
    speed = work("lathe_speed", diameter="1 in", material=material).figures["speed"]
    assert speed.low == pytest.approx(12 * low / pi)
    assert speed.high == pytest.approx(12 * high / pi)
    assert speed.checked == "page"


@pytest.mark.parametrize(
    ("material", "operation"), [("nickel_silver", "turn"), ("silver", "turn"), ("wood", "drill")]
)
def test_speeds_that_nobody_looked_up_are_marked(material: str, operation: str) -> None:
    """No handbook figure was at hand: from memory, so shown as unverified."""
    result = work("lathe_speed", diameter="5 mm", material=material, operation=operation)
    assert result.figures["speed"].checked == "memory"


def test_three_point_eight_two() -> None:
    """The shop form of the formula: rpm = 3.82 V / D."""
    assert value(work("lathe_speed", diameter="1 in", surface_speed="30.48"), "speed") == pytest.approx(
        382, abs=0.05
    )
