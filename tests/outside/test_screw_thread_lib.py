"""Unified threads against the package screw_thread_lib 0.0.6 (values of ASME B1.1-2019, FED-STD-H28/2B)."""

import pytest
from screw_thread_lib.data import ASME_UN_2A2B_dict
from screw_thread_lib.threads import Assembly

from casebook.figures import worksheet
from casebook.figures.inputs import read
from casebook.quantity import INCH, read_thread

SMALL = ("10-24", "10-32", "1/4-20", "1/4-28")


@pytest.mark.parametrize("designation", SMALL)
def test_basic_sizes_and_stress_area(designation: str) -> None:
    theirs = Assembly.from_ASME_B11_UN_2A2B(designation)
    ours = read_thread(designation)
    assert float(ours.major / INCH) == theirs.dbsc
    assert float(ours.pitch_diameter / INCH) == pytest.approx(theirs.d2bsc, rel=1e-8)
    assert float(ours.minor_diameter / INCH) == pytest.approx(theirs.D1bsc, rel=1e-8)
    assert ours.stress_area / float(INCH) ** 2 == pytest.approx(theirs.As_FEDSTD_1b(), rel=1e-7)


@pytest.mark.parametrize("designation", SMALL)
@pytest.mark.parametrize("outside", ["dmin", "dmax"])
def test_a_screw_anywhere_within_class_2a_is_among_the_candidates(designation: str, outside: str) -> None:
    limits = ASME_UN_2A2B_dict[designation]
    sheet = worksheet("thread")
    typed = {"outside": f"{limits[outside]} in", "pitch": f"{limits['n']} tpi"}
    rows = sheet.run(read(sheet.inputs, typed)).rows
    assert designation in [row["thread"] for row in rows]


@pytest.mark.parametrize("designation", SMALL)
@pytest.mark.parametrize("core", ["D1min", "D1max"])
def test_a_hole_anywhere_within_class_2b_is_among_the_candidates(designation: str, core: str) -> None:
    limits = ASME_UN_2A2B_dict[designation]
    sheet = worksheet("thread")
    typed = {"hole": f"{limits[core]} in", "pitch": f"{limits['n']} tpi"}
    rows = sheet.run(read(sheet.inputs, typed)).rows
    assert designation in [row["thread"] for row in rows]
