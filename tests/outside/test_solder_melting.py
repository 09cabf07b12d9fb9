"""Melting ranges in degrees C.

Sources: published solder alloy tables (soft); Machinery's Handbook, 31st edition, table 1a, AWS A5.8 (silver
brazing; 1a, 2 from memory); property pages (metals). Fahrenheit beside the Celsius where the print has both.
"""

from __future__ import annotations

import pytest

from tests.figures.worked import value, work


@pytest.mark.parametrize(
    ("alloy", "solidus", "liquidus"),
    [
        ("Sn63Pb37", (183, 183), (183, 183)),
        ("Sn60Pb40", (183, 183), (188, 191)),
        ("Sn50Pb50", (183, 183), (212, 215)),
        ("Sn40Pb60", (183, 183), (234, 238)),
        ("Sn96.5Ag3.5", (221, 221), (221, 221)),
        ("SAC305", (217, 217), (220, 220)),
        ("Sn95Sb5", (235, 235), (240, 240)),
        ("Sn99.3Cu0.7", (227, 227), (227, 227)),
        ("BAg-1", (607, 607), (618, 618)),
        ("BAg-1a", (627, 627), (635, 635)),
        ("BAg-2", (607, 607), (702, 702)),
        ("BAg-2a", (607, 607), (710, 710)),
        ("BAg-3", (632, 632), (688, 688)),
        ("BAg-6", (688, 688), (774, 774)),
        ("BAg-7", (618, 618), (652, 652)),
        ("BAg-8", (779, 779), (779, 779)),
        ("BAg-24", (660, 660), (707, 707)),
    ],
)
def test_solidus_and_liquidus(
    alloy: str, solidus: tuple[float, float], liquidus: tuple[float, float]
) -> None:
    """What an earlier joint of it bears, and how hot a new one must get."""
    earlier = work("solder_choice", present=alloy).figures["present_solidus"]
    later = work("solder_choice", planned=alloy).figures["planned_liquidus"]
    assert (earlier.low, earlier.high) == solidus
    assert (later.low, later.high) == liquidus


@pytest.mark.parametrize(
    ("alloy", "solidus", "liquidus"),
    [
        ("BAg-1", 1125, 1145),
        ("BAg-1a", 1160, 1175),
        ("BAg-2", 1125, 1295),
        ("BAg-2a", 1125, 1310),
        ("BAg-3", 1170, 1270),
        ("BAg-6", 1270, 1425),
        ("BAg-7", 1145, 1205),
        ("BAg-8", 1435, 1435),
        ("BAg-24", 1220, 1305),
    ],
)
def test_the_printed_fahrenheit_is_the_same_temperature(alloy: str, solidus: float, liquidus: float) -> None:
    """Both columns of the print agree within a degree C of rounding."""
    earlier = value(work("solder_choice", present=alloy), "present_solidus")
    later = value(work("solder_choice", planned=alloy), "planned_liquidus")
    assert earlier == pytest.approx((solidus - 32) * 5 / 9, abs=1)
    assert later == pytest.approx((liquidus - 32) * 5 / 9, abs=1)


@pytest.mark.parametrize(
    ("alloy", "cadmium"), [("BAg-1", True), ("BAg-3", True), ("BAg-7", False), ("BAg-24", False)]
)
def test_cadmium_is_named(alloy: str, cadmium: bool) -> None:
    """Cadmium 24 and 16 percent in BAg-1 and BAg-3, none in BAg-7 and BAg-24."""
    check = work("solder_choice", present=alloy).checks["no_cadmium"]
    assert check.holds == ("no" if cadmium else "yes")


def test_unknown_old_silver_solder_counts_as_cadmium_bearing() -> None:
    """HSE EIS31: treat it so until it is shown otherwise."""
    result = work("solder_choice", present="unknown_hard")
    assert result.checks["no_cadmium"].holds == "unknown"
    assert any("Do not heat" in step for step in result.steps)


@pytest.mark.parametrize(
    ("metal", "low", "high"), [("silver", 779, 788), ("brass", 885, 885), ("cast_nickel_silver", 1010, 1010)]
)
def test_solidus_of_the_metal(metal: str, low: float, high: float) -> None:
    """Sterling 788 by its page, 779 at the eutectic (from memory); C36000 885; C97300 1010."""
    figure = work("solder_choice", metal=metal).figures["metal_solidus"]
    assert (figure.low, figure.high) == (low, high)


def test_nickel_silver_may_melt_below_sterling() -> None:
    """C77400 melts from 770, C77000 from 1000: the name promises only the lower."""
    figure = work("solder_choice", metal="nickel_silver").figures["metal_solidus"]
    assert (figure.low, figure.high) == (770, 1000)
