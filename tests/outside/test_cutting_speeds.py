"""Spindle speeds from cutting speeds.

Source: rpm = 12 V / (pi D) with V in ft/min and D in inches, as printed in lathe makers' manuals; the
examples were worked apart from the program. The cutting speed of brass is a lathe maker's manual's and a
university shop's.
"""

from __future__ import annotations

import pytest

from casebook.figures.cutting_speed import SPINDLE_SPEED, surface_speed


@pytest.mark.parametrize(
    ("metres_a_minute", "diameter_mm", "rpm"),
    [
        (150 * 0.3048, 0.25 * 25.4, 2291.8),
        (60, 6.35, 3007.7),
        (100 * 0.3048, 0.1015 * 25.4, 3763.3),
    ],
)
def test_spindle_speed(metres_a_minute: float, diameter_mm: float, rpm: float) -> None:
    """V over the way round the work."""
    found = SPINDLE_SPEED.compute(surface_speed=metres_a_minute, diameter=diameter_mm)
    assert found == pytest.approx(rpm, abs=0.05)


def test_brass_is_turned_at_150_to_200_feet_a_minute() -> None:
    """On a quarter inch that is 2292 to 3056 rpm, said to two figures."""
    speed = surface_speed("brass", "turn")
    assert speed.low == pytest.approx(45.72)
    assert speed.high == pytest.approx(60.96)
    assert speed.checked == "page"
    assert speed.rpm(6.35) == (2300, 3100)


def test_a_material_without_a_figure_is_no_guess() -> None:
    """Nobody published one for bone here, so there is none."""
    with pytest.raises(KeyError):
        surface_speed("bone", "turn")
