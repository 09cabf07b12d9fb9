"""Metric threads: basic dimensions of ISO 724 and stress areas of ISO 898-1, both from memory."""

import pytest

from casebook.quantity import read_thread


@pytest.mark.parametrize(
    ("designation", "pitch_diameter", "minor_diameter"),
    [
        ("M1", 0.838, 0.729),
        ("M1.2", 1.038, 0.929),
        ("M1.4", 1.205, 1.075),
        ("M1.6", 1.373, 1.221),
        ("M1.8", 1.573, 1.421),
        ("M2", 1.740, 1.567),
        ("M2.2", 1.908, 1.713),
        ("M2.5", 2.208, 2.013),
        ("M3", 2.675, 2.459),
        ("M3.5", 3.110, 2.850),
        ("M4", 3.545, 3.242),
        ("M5", 4.480, 4.134),
        ("M6", 5.350, 4.917),
        ("M2x0.25", 1.838, 1.729),
        ("M2.5x0.35", 2.273, 2.121),
        ("M3x0.35", 2.773, 2.621),
        ("M4x0.5", 3.675, 3.459),
        ("M6x0.75", 5.513, 5.188),
    ],
)
def test_basic_diameters_in_mm(designation: str, pitch_diameter: float, minor_diameter: float) -> None:
    thread = read_thread(designation)
    assert float(thread.pitch_diameter) == pytest.approx(pitch_diameter, abs=0.0006)
    assert float(thread.minor_diameter) == pytest.approx(minor_diameter, abs=0.0006)


@pytest.mark.parametrize(
    ("designation", "pitch"),
    [("M1.6", 0.35), ("M2", 0.4), ("M2.5", 0.45), ("M3", 0.5), ("M4", 0.7), ("M5", 0.8), ("M6", 1.0)],
)
def test_coarse_pitch_in_mm(designation: str, pitch: float) -> None:
    """The coarse series of ISO 261, from memory."""
    assert float(read_thread(designation).pitch) == pitch


@pytest.mark.parametrize(
    ("designation", "area"),
    [
        ("M1.6", 1.27),
        ("M2", 2.07),
        ("M2.5", 3.39),
        ("M3", 5.03),
        ("M3.5", 6.78),
        ("M4", 8.78),
        ("M5", 14.2),
        ("M6", 20.1),
    ],
)
def test_stress_area_in_mm2(designation: str, area: float) -> None:
    """Nominal stress areas of ISO 898-1, from memory."""
    assert read_thread(designation).stress_area == pytest.approx(area, rel=0.003)
