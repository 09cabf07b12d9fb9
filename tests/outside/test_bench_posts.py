"""Rules of thumb for posts, flanges and bushings.

Source: common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.figures.worked import margin, value, work


def test_flange_of_seven_on_a_body_of_twenty_seven() -> None:
    """A 7 mm flange on a 27 mm body falls away by 0.46 mm."""
    assert value(work("flange_seat", body="27mm", flange="7mm"), "sagitta") == pytest.approx(0.46, abs=0.005)


@pytest.mark.parametrize("flange", ["0.190 in", "0.250 in", "7 mm"])
def test_a_bushing_hides_ten_to_fifteen_thou_under_the_flange(flange: str) -> None:
    """The largest bushing is 10 thou narrower than the flange, so one 15 thou narrower hides too."""
    largest = value(work("bushing", flange=flange), "outside_max")
    flange_mm = value(work("flange_seat", flange=flange, play="0mm"), "cutter")
    assert 0.010 * 25.4 - 1e-9 <= flange_mm - largest <= 0.015 * 25.4 + 1e-9


def test_a_bushing_is_thirty_thou_longer_than_the_thread_in_it() -> None:
    """30 thou of room, so that the shank does not push the glue out."""
    assert value(work("bushing", engaged="3mm"), "length") == pytest.approx(3 + 0.762)


def test_twenty_thou_of_metal_round_the_thread() -> None:
    """A thread of 0.099 in wants 20 thou of brass each side under the grooves of 0.2 mm."""
    smallest = value(work("bushing", thread="3-48", hole="2.6mm"), "outside_min")
    assert smallest == pytest.approx(0.099 * 25.4 + 2 * (0.5 + 0.2))


@pytest.mark.parametrize(("turns", "holds"), [("1.5", "no"), ("2", "yes"), ("3", "yes")])
def test_two_to_three_threads_hold_in_metal(turns: str, holds: str) -> None:
    """Under two turns counts as stripped."""
    result = work("bushing", engaged_threads=turns)
    assert result.checks["threads_engaged"].holds == holds


@pytest.mark.parametrize(("wall", "holds"), [("6.05mm", "yes"), ("5.95mm", "no")])
def test_forty_thou_of_wood_to_the_bore(wall: str, holds: str) -> None:
    """1.0 mm of wood stays between bushing and bore."""
    result = work("bushing", wall=wall, seat_depth="1mm", engaged="3mm", extra="1mm")
    assert result.checks["wood_to_bore"].holds == holds


@pytest.mark.parametrize(("tone_hole", "holds"), [("1.6mm", "yes"), ("1.5mm", "no")])
def test_sixty_thou_of_wood_to_the_next_tone_hole(tone_hole: str, holds: str) -> None:
    """1.5 mm stays sideways after the hole has grown by half its clean-up of 0.1 mm."""
    result = work("bushing", tone_hole=tone_hole, hole="6mm", thread="M2")
    assert result.checks["wood_to_tone_hole"].holds == holds


def test_a_hole_as_wide_as_the_flange_cannot_be_hidden() -> None:
    """Then a bushing alone is out."""
    result = work("bushing", flange="0.190 in", hole="0.190 in", thread="3-48")
    assert result.checks["hidden_by_flange"].holds == "no"
    assert margin(result, "hidden_by_flange") < 0


def test_the_first_bushing_to_try_is_the_smallest_that_cleans() -> None:
    """Within the window the smaller size costs less wood: 205 thou of hole gives 205 thou of bushing."""
    result = work("bushing", flange="0.250 in", hole="0.205 in", thread="3-48")
    assert value(result, "outside") == pytest.approx(0.205 * 25.4 + 0.1 - 2 * 0.05)


def test_number_forty_seven_for_three_forty_eight_in_the_steps() -> None:
    """The lathe steps name the usual tap drill for 3-48 in brass."""
    result = work("bushing", thread="3-48", hole="5mm", engaged="3mm")
    assert any("#47" in step for step in result.steps)


def test_a_post_that_leans_half_a_degree_is_eased_by_hand() -> None:
    """0.35 mm on 40 mm is half a degree."""
    result = work("post_angle", layout="lengthwise", offset="0.35mm", spacing="40mm")
    assert value(result, "lean") == pytest.approx(0.5, abs=0.005)
