"""The plain-text form of a result."""

import pytest

from casebook.figures import worksheet
from casebook.figures.as_text import result_text
from casebook.figures.inputs import read
from casebook.quantity import Unit


def as_text(id: str, unit: Unit = "mm", **typed: str) -> str:
    sheet = worksheet(id)
    return result_text(sheet.run(read(sheet.inputs, typed)), unit)


@pytest.mark.parametrize(("unit", "shown"), [("mm", "2.515 mm"), ("in", "0.0990 in"), ("thou", "99.0 thou")])
def test_lengths_are_shown_in_the_unit_of_the_shop(unit: Unit, shown: str) -> None:
    assert shown in as_text("thread", unit, thread="3-48")


def test_a_doubtful_figure_is_shown_with_its_bounds_and_an_exact_one_without() -> None:
    text = as_text("thread", thread="M6", length="4mm+-0.5")
    assert "4  (3.5 to 4.5)" in text
    assert "major                 6.000 mm  =" in text


def test_what_is_known_from_memory_only_is_marked() -> None:
    assert "UNVERIFIED" in as_text("thread", thread="M1.7x0.35")
    assert "UNVERIFIED" not in as_text("thread", thread="M2.5")


def test_a_failed_check_lists_the_ways_out() -> None:
    text = as_text("thread", turns="1")
    assert "NO " in text
    assert "lacks 1" in text
    assert "- line the old thread with metal" in text


def test_the_chosen_drill_is_marked_in_the_rows() -> None:
    (line,) = [line for line in as_text("tap_drill", thread="3-48").splitlines() if "<==" in line]
    assert line.startswith("#47")


def test_nothing_given_says_so() -> None:
    assert "nothing can be said yet" in as_text("thread")


def test_no_line_ends_in_blanks() -> None:
    lines = as_text("tap_drill", thread="6BA").splitlines()
    assert lines == [line.rstrip() for line in lines]


def test_a_number_is_shown_with_as_many_figures_as_its_bounds_are_worth() -> None:
    """A glue between 14 and 25 MPa by memory is worth two figures, a volume read to a percent three."""
    glued = as_text("joint_strength", outside="5.2mm", length="3.8mm", adhesive="epoxy")
    assert " 1200 N  (860 N to 1600 N)" in glued
    assert " 128 mm3  (127 mm3 to 129 mm3)" in as_text("plug", hole="5.8mm", hole_bottom="4.6mm", depth="6mm")


def test_a_spindle_speed_has_two_figures() -> None:
    """1000 x 60 / (pi 6.35) = 3008 turns a minute, which no lathe is set to."""
    assert " 3000 rpm " in as_text("lathe_speed", diameter="6.35mm", surface_speed="60")


def test_a_small_percent_keeps_its_second_place() -> None:
    """0.1 mm round a body of 27 mm: 0.118 percent of its girth."""
    assert " 0.12 percent " in as_text("crack_pin_layout", body="27mm", width="0.1mm+-0")


def test_metres_of_thread_are_shown_to_the_millimetre() -> None:
    """Known to 0.2 m, no hundredth of a millimetre is meant."""
    text = as_text(
        "tenon_fit", socket="22.2mm", groove_diameter="19.5mm", groove_length="12mm", lapping_thread="0.3mm"
    )
    assert " 11790 mm  (11596 mm to 11985 mm)" in text
