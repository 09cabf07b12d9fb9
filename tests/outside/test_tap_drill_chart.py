"""Percent of thread against a public tap drill chart after the former American national standard."""

import pytest

from casebook.quantity import drills, read_thread

ALL = {name: size for which in ("number", "fraction") for name, size in drills(which)}


@pytest.mark.parametrize(
    ("designation", "drill", "percent"),
    [
        ("0-80", "3/64 in", 80.8),
        ("1-64", "#53", 66.5),
        ("1-72", "#53", 74.8),
        ("2-56", "#50", 69.0),
        ("2-64", "#50", 78.8),
        ("3-56", "#45", 73.3),
        ("4-36", "#44", 72.1),
        ("4-40", "#43", 70.8),
        ("4-48", "#42", 68.4),
        ("5-40", "#38", 72.4),
        ("6-32", "#36", 77.6),
        ("8-32", "#29", 69.0),
        ("8-36", "#29", 77.6),
        ("10-24", "#25", 74.8),
        ("12-24", "#16", 72.1),
        ("1/4-20", "#7", 75.4),
        ("1/4-28", "#3", 79.8),
    ],
)
def test_percent_that_the_drill_of_the_chart_leaves(designation: str, drill: str, percent: float) -> None:
    assert float(read_thread(designation).percent(ALL[drill])) == pytest.approx(percent, abs=0.06)


def test_the_basic_minor_diameter_is_five_sixths_of_full_thread() -> None:
    """ISO 68-1: the nut is 5/8 H deep, and 100 percent here is 3/4 H: 83.3 percent."""
    thread = read_thread("M6")
    assert float(thread.percent(thread.minor_diameter)) == pytest.approx(100 * 5 / 6, abs=1e-4)
