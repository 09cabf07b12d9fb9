"""Unified threads against ASME B1.1.

Least minor diameters of class 2B as printed in Machinery's Handbook, 31st ed., p. 2155, table 2; pitch
diameters, minor diameters and stress areas as printed in ASME B1.1, from memory.
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


@pytest.mark.parametrize(
    ("designation", "pitch_diameter", "minor_diameter", "square_inches"),
    [
        ("1-72", 0.0640, 0.0580, 0.00278),
        ("2-64", 0.0759, 0.0691, 0.00394),
        ("3-48", 0.0855, 0.0764, 0.00487),
        ("3-56", 0.0874, 0.0797, 0.00523),
        ("4-48", 0.0985, 0.0894, 0.00661),
        ("5-40", 0.1088, 0.0979, 0.00796),
        ("5-44", 0.1102, 0.1004, 0.00830),
        ("6-40", 0.1218, 0.1109, 0.01015),
        ("8-36", 0.1460, 0.1339, 0.01474),
        ("12-24", 0.1889, 0.1709, 0.0242),
        ("12-28", 0.1928, 0.1773, 0.0258),
    ],
)
def test_the_fine_and_the_rarer_sizes_in_inches(
    designation: str, pitch_diameter: float, minor_diameter: float, square_inches: float
) -> None:
    """Basic pitch diameter, minor diameter and stress area of one row of the printed table, from memory."""
    thread = read_thread(designation)
    assert float(thread.pitch_diameter / INCH) == pytest.approx(pitch_diameter, abs=6e-5)
    assert float(thread.minor_diameter / INCH) == pytest.approx(minor_diameter, abs=6e-5)
    assert thread.stress_area / float(INCH) ** 2 == pytest.approx(square_inches, rel=0.004)
