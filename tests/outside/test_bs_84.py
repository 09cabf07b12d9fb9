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
