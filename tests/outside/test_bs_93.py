"""British Association threads against the rule of BS 93:1951.

Number k has the pitch 0.9^k mm and the major diameter 6 p^1.2 mm, p unrounded, each then rounded to about two
figures; depth 0.6 p, flank angle 47.5 degrees (seen in a public document citing the standard).
"""

import pytest

from casebook.quantity import read_thread


@pytest.mark.parametrize("number", range(17))
def test_table_is_the_rule_rounded(number: int) -> None:
    thread = read_thread(f"{number}BA")
    pitch = 0.9**number
    assert float(thread.pitch) == pytest.approx(pitch, abs=0.0051)
    assert float(thread.major) == pytest.approx(6 * pitch**1.2, abs=0.051)
    assert float(thread.major - thread.minor_diameter) / 2 == pytest.approx(0.6 * pitch, abs=0.0051)
    assert thread.major - thread.pitch_diameter == thread.pitch_diameter - thread.minor_diameter
    assert thread.angle == 47.5


def test_6ba_in_full() -> None:
    """BS 93:1951, row 6: pitch 0.53, major 2.80, effective 2.48, minor 2.16 mm."""
    thread = read_thread("6BA")
    sizes = (thread.pitch, thread.major, thread.pitch_diameter, thread.minor_diameter)
    assert [float(size) for size in sizes] == [0.53, 2.8, 2.48, 2.16]
