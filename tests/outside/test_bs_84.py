"""Small Whitworth threads against BS 84.

Depth 0.640327 p and 55 degrees as printed in Machinery's Handbook; the row of 3/16-24 as printed in a public
chart of BSW coarse threads: depth 0.0267, effective 0.1608, minor 0.1341 in.
"""

import pytest

from casebook.quantity import INCH, read_thread


@pytest.mark.parametrize("typed", ["1/16-60", "3/32-48", "1/8-40", "5/32-32", "3/16-24"])
def test_depth_is_two_thirds_of_the_sharp_triangle(typed: str) -> None:
    """BS 84: the triangle of 55 degrees is 0.960491 p high, a sixth is rounded off each end."""
    thread = read_thread(typed)
    assert thread.angle == 55
    assert float((thread.major - thread.minor_diameter) / 2 / thread.pitch) == pytest.approx(
        0.960491 * 2 / 3, abs=2e-6
    )


def test_3_16_whitworth_in_inches() -> None:
    thread = read_thread("3/16-24 BSW")
    assert float(thread.pitch_diameter / INCH) == pytest.approx(0.1608, abs=0.00006)
    assert float(thread.minor_diameter / INCH) == pytest.approx(0.1341, abs=0.00006)


@pytest.mark.parametrize(
    ("typed", "effective", "minor"),
    [
        ("1/16-60", 0.0518, 0.0412),
        ("3/32-48", 0.0804, 0.0671),
        ("1/8-40", 0.1090, 0.0930),
        ("5/32-32", 0.1362, 0.1162),
        ("1/4-20 BSW", 0.2180, 0.1860),
    ],
)
def test_small_whitworth_in_inches(typed: str, effective: float, minor: float) -> None:
    """Effective and minor diameter as printed in charts of BSW, from memory."""
    thread = read_thread(typed)
    assert float(thread.pitch_diameter / INCH) == pytest.approx(effective, abs=1.1e-4)
    assert float(thread.minor_diameter / INCH) == pytest.approx(minor, abs=1.1e-4)
