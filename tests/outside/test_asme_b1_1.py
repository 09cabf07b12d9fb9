"""Unified threads against ASME B1.1.

Least minor diameters of class 2B as printed in Machinery's Handbook, 31st ed., p. 2155, table 2; stress areas
as printed in ASME B1.1, from memory.
"""

import pytest

from casebook.quantity import INCH, read_thread


@pytest.mark.parametrize(
    ("designation", "inches"),
    [
        ("0-80", 0.0465),
        ("1-64", 0.0561),
        ("2-56", 0.0667),
        ("3-56", 0.0797),
        ("4-40", 0.0849),
    ],
)
def test_basic_minor_diameter_is_the_least_of_class_2b(designation: str, inches: float) -> None:
    assert float(read_thread(designation).minor_diameter / INCH) == pytest.approx(inches, abs=0.00005)


@pytest.mark.parametrize(
    ("designation", "square_inches"),
    [
        ("0-80", 0.00180),
        ("2-56", 0.00370),
        ("3-48", 0.00487),
        ("4-40", 0.00604),
        ("6-32", 0.00909),
        ("8-32", 0.0140),
        ("10-24", 0.0175),
        ("10-32", 0.0200),
        ("1/4-20", 0.0318),
        ("1/4-28", 0.0364),
    ],
)
def test_stress_area_is_that_of_the_standard(designation: str, square_inches: float) -> None:
    area = read_thread(designation).stress_area / float(INCH) ** 2
    assert area == pytest.approx(square_inches, rel=0.003)
