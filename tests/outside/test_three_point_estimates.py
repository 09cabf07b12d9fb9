"""Three-point estimates: PERT as in any text on project planning; normal quantiles of printed tables (from memory).

PERT: mean (a + 4 m + b) / 6, variance ((b - a) / 6)^2; independent steps add means and variances.
"""

from __future__ import annotations

from math import sqrt

import pytest

from tests.figures.worked import value, work


@pytest.mark.parametrize(
    ("hours", "expected", "spread"),
    [
        ("0.5/1/2", 6.5 / 6, 0.25),
        ("1/1.5/3", 10 / 6, 1 / 3),
        ("2/4/12", 5, 10 / 6),
        ("1/1/1", 1, 0),
        ("3/6/15", 7, 2),
        ("0.5/1/2, 1/1.5/3", 16.5 / 6, sqrt(0.25**2 + (1 / 3) ** 2)),
        ("3/6/15; 2/4/12; 1/1/1", 13, sqrt(4 + 100 / 36)),
    ],
)
def test_mean_and_deviation(hours: str, expected: float, spread: float) -> None:
    """Worked by hand from the two formulas."""
    result = work("quote", hours=hours, rate="1")
    assert value(result, "expected_hours") == pytest.approx(expected)
    assert value(result, "spread_hours") == pytest.approx(spread)


@pytest.mark.parametrize(
    ("chance", "deviations"),
    [("50", 0.6745), ("68.27", 1.0), ("80", 1.2816), ("90", 1.6449), ("95", 1.96), ("99", 2.5758)],
)
def test_the_range_holds_the_stated_chance(chance: str, deviations: float) -> None:
    """Two-sided quantiles of the normal distribution, as printed: mean 7 and deviation 2 hours at 100 an hour."""
    result = work("quote", hours="3/6/15", rate="100", chance=chance)
    assert value(result, "price_low") == pytest.approx(100 * (7 - 2 * deviations), abs=0.05)
    assert value(result, "price_high") == pytest.approx(100 * (7 + 2 * deviations), abs=0.05)
