"""The drill that the sheet chooses, against the tap drills that are printed everywhere.

Metric: ISO 2306, drills for tapping, from memory. BA: the list of tapping drills found in model engineers'
handbooks, from memory. Unified: the public chart after the former American national standard.
"""

from __future__ import annotations

import pytest

from tests.figures.worked import work


def _chosen(thread: str, sets: str) -> str:
    (row,) = (
        row for row in work("tap_drill", thread=thread, material="brass", sets=sets).rows if row["chosen"]
    )
    return str(row["drill"])


@pytest.mark.parametrize(
    ("thread", "mm"),
    [
        ("M1", 0.75), ("M1.2", 0.95), ("M1.4", 1.1), ("M1.6", 1.25), ("M1.8", 1.45), ("M2", 1.6), ("M2.2", 1.75),
        ("M2.5", 2.05), ("M3", 2.5), ("M3.5", 2.9), ("M4", 3.3), ("M5", 4.2), ("M6", 5.0),
    ],
)  # fmt: skip
def test_metric(thread: str, mm: float) -> None:
    """Three quarters of full thread in brass asks for the drill of ISO 2306."""
    assert _chosen(thread, "metric") == f"{mm:g} mm"


@pytest.mark.parametrize(
    ("thread", "mm"),
    [
        ("0BA", 5.1), ("1BA", 4.5), ("2BA", 4.0), ("3BA", 3.4), ("4BA", 3.0), ("5BA", 2.65), ("6BA", 2.3),
        ("7BA", 2.05), ("8BA", 1.8), ("9BA", 1.55), ("10BA", 1.4), ("12BA", 1.05),
    ],
)  # fmt: skip
def test_british_association(thread: str, mm: float) -> None:
    """Three quarters of the standard's own depth asks for the drill of the handbooks."""
    assert _chosen(thread, "metric") == f"{mm:g} mm"


@pytest.mark.parametrize(
    ("thread", "drill"),
    [
        ("0-80", "3/64 in"), ("1-72", "#53"), ("2-56", "#50"), ("2-64", "#50"), ("3-48", "#47"), ("3-56", "#45"),
        ("4-40", "#43"), ("4-48", "#42"), ("5-40", "#38"), ("6-32", "#36"), ("8-32", "#29"), ("10-24", "#25"),
        ("10-32", "#21"), ("1/4-20", "#7"),
    ],
)  # fmt: skip
def test_unified(thread: str, drill: str) -> None:
    """Number, letter and fraction drills: the one of the chart."""
    assert _chosen(thread, "number,letter,fraction") == drill
