"""Cuts into the body: crack pins, inserts, grafts, bands; and clocking."""

from __future__ import annotations

from math import hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.inputs import BadInput
from casebook.quantity import read_thread
from tests.figures.worked import margin, value, work


def mm(tenths: int) -> str:
    """Type tenths of a millimetre as a length."""
    return f"{tenths / 10:.1f}mm"


@given(body=st.integers(160, 500), bore=st.integers(50, 140), pin=st.integers(5, 15))
def test_a_pin_fits_where_its_least_depth_is_not_over_its_most(body: int, bore: int, pin: int) -> None:
    """The check is the window; without the doubt of the bore both say the same."""
    if pin * 2 >= body - bore:
        return
    result = work("crack_pin_layout", body=mm(body), bore=mm(bore), pin=mm(pin), off_middle="0mm")
    window = value(result, "depth_max") - value(result, "depth_min")
    assert margin(result, "pin_fits") == pytest.approx(window)
    assert result.checks["pin_fits"].holds == ("yes" if window >= -1e-9 else "no")


@given(body=st.integers(160, 500), depth=st.integers(5, 75))
def test_the_ends_of_a_pin_lie_on_the_surface(body: int, depth: int) -> None:
    """Half a pin out and its depth down is a radius from the middle."""
    result = work("crack_pin_layout", body=mm(body), depth=mm(depth))
    assert hypot(value(result, "pin_length") / 2, (body / 2 - depth) / 10) == pytest.approx(body / 20)


def test_without_a_depth_the_pin_runs_midway_in_the_wall() -> None:
    """The same length as at half the wall."""
    midway = work("crack_pin_layout", body="27mm", bore="14.6mm")
    by_depth = work("crack_pin_layout", body="27mm", bore="14.6mm", depth="3.1mm")
    by_wall = work("crack_pin_layout", body="27mm", wall="6.2mm")
    assert value(midway, "pin_length") == pytest.approx(value(by_depth, "pin_length"))
    assert value(by_wall, "pin_length") == pytest.approx(value(by_depth, "pin_length"))


@given(crack=st.integers(50, 1500), spacing=st.integers(60, 200))
def test_pins_cover_the_crack_no_wider_than_asked(crack: int, spacing: int) -> None:
    """First and last lie 8 mm past the ends, none is farther from the next than asked, one fewer would be."""
    result = work("crack_pin_layout", crack=mm(crack), spacing=mm(spacing), wall="6mm", pin="1mm")
    places = [row["from_end_length"] for row in result.rows]
    assert len(places) == value(result, "count")
    assert places[0] == pytest.approx(-8)
    assert places[-1] == pytest.approx(crack / 10 + 8)
    apart = (crack / 10 + 16) / (len(places) - 1)
    assert apart <= spacing / 10 + 1e-9
    assert len(places) == 2 or (crack / 10 + 16) / (len(places) - 2) > spacing / 10


def test_no_pin_fits_is_said_with_its_reason_and_no_places() -> None:
    """A wall of 2.4 mm holds no pin of 1.2 mm with 0.8 mm either side."""
    result = work("crack_pin_layout", wall="2.4mm", pin="1.2mm", crack="40mm")
    assert result.checks["pin_fits"].holds == "no"
    assert "no pin fits" in result.checks["pin_fits"].says
    assert not result.rows
    assert not result.drawing


def test_a_pin_thicker_than_the_wall_is_answered_and_not_refused() -> None:
    """Then no pin of that size fits, which is what was asked."""
    assert work("crack_pin_layout", body="20mm", bore="15mm", pin="3mm").checks["pin_fits"].holds == "no"


@pytest.mark.parametrize(
    ("depth", "holds"),
    [("1.3mm", "no"), ("1.5mm", "yes"), ("4.4mm", "yes"), ("5mm", "unknown"), ("5.2mm", "no")],
)
def test_a_chosen_depth_is_judged_both_ways(depth: str, holds: str) -> None:
    """Too near the surface or the bore; open within the 0.3 mm that an old bore may run off the middle."""
    result = work("crack_pin_layout", body="27mm", bore="14.6mm", pin="1.2mm", depth=depth)
    assert result.checks["depth_right"].holds == holds


def test_the_pin_is_drawn_where_it_lies() -> None:
    """The drawn pin is as long as the figure and its middle lies at the depth."""
    result = work("crack_pin_layout", body="27mm", bore="14.6mm", pin="1.2mm", depth="2.5mm")
    pin = next(shape for shape in result.drawing["shapes"] if shape["part"] == "pin")
    assert pin["width"] == value(result, "pin_length")
    assert 13.5 - (pin["y"] + pin["height"] / 2) == pytest.approx(2.5)


@given(hole=st.integers(40, 120), more=st.integers(0, 60))
def test_an_insert_takes_in_the_damage_and_keeps_its_wall(hole: int, more: int) -> None:
    """The hole cut for it is no smaller than the damage, and its wall no thinner than asked."""
    result = work("tone_hole_insert", hole=mm(hole), damage=mm(hole + more), neighbour="5mm")
    assert value(result, "wood_hole") >= (hole + more) / 10 + 0.1 - 1e-9
    assert value(result, "ring_wall") >= 1.2 - 1e-9
    assert value(result, "wood_hole") == pytest.approx(value(result, "outside") + 0.1)
    taken = (value(result, "wood_hole") - hole / 10) / 2
    assert value(result, "wood_to_neighbour") == pytest.approx(5 - taken)


def test_a_fixed_cutter_is_judged_for_wall_and_damage() -> None:
    """A cutter of 10 mm round a hole of 8 mm with damage of 10.5 mm: thin wall, damage left."""
    checks = work("tone_hole_insert", hole="8mm", damage="10.5mm", outside="10mm").checks
    assert (checks["ring_wall_enough"].holds, checks["damage_taken_in"].holds) == ("no", "no")


@pytest.mark.parametrize(
    ("depth", "under", "round_", "undercut", "lost"),
    [
        ("0.5mm", "yes", "no", "yes", 0.0),
        ("3mm", "yes", "yes", "yes", 0.0),
        ("4.8mm", "yes", "yes", "no", 0.3),
        ("5.5mm", "no", "yes", "no", 1.0),
    ],
)
def test_depth_of_an_insert(depth: str, under: str, round_: str, undercut: str, lost: float) -> None:
    """Deep enough to hold all round (1.08 mm), no deeper than wood, bore and undercut allow."""
    result = work(
        "tone_hole_insert",
        hole="8mm",
        damage="10.5mm",
        depth=depth,
        body="27mm",
        wall="6mm",
        undercut="1.5mm",
    )
    checks = result.checks
    assert checks["wood_under_insert"].holds == under
    assert checks["held_all_round"].holds == round_
    assert checks["undercut_untouched"].holds == undercut
    assert value(result, "undercut_lost") == pytest.approx(lost)


@given(body=st.integers(180, 400), bore=st.integers(60, 160))
def test_spigot_and_socket_share_the_wall(body: int, bore: int) -> None:
    """The two walls and the gap make the whole wall, shared as 2 to 2.5."""
    if body - bore < 20:
        return
    result = work("tenon_graft", body=mm(body), bore=mm(bore), off_middle="0mm")
    spigot, socket = value(result, "spigot_wall"), value(result, "socket_wall")
    assert spigot + socket + 0.05 == pytest.approx((body - bore) / 20)
    assert spigot / socket == pytest.approx(2 / 2.5)
    assert value(result, "counterbore") - value(result, "spigot") == pytest.approx(0.1)
    fits = value(result, "spigot_min") <= value(result, "spigot_max") + 1e-9
    assert result.checks["room"].holds == ("yes" if fits else "no")


def test_a_spigot_of_a_fixed_size_is_judged_on_both_sides() -> None:
    """18 mm over a bore of 14.8 mm is thin inside; 21.5 mm in a body of 26 mm is thin outside."""
    thin = work("tenon_graft", body="26mm", bore="14.8mm", spigot="18mm").checks
    thick = work("tenon_graft", body="26mm", bore="14.8mm", spigot="21.5mm").checks
    assert (thin["spigot_wall_enough"].holds, thin["socket_wall_enough"].holds) == ("no", "yes")
    assert (thick["spigot_wall_enough"].holds, thick["socket_wall_enough"].holds) == ("yes", "no")


def test_glue_area_of_a_graft() -> None:
    """Pi x 20 x 22 mm2; without a length it is as long as wide."""
    sizes = {"body": "26mm", "bore": "14.8mm", "spigot": "20mm"}
    assert value(work("tenon_graft", **sizes, length="22mm"), "glue_area") == pytest.approx(pi * 440)
    assert value(work("tenon_graft", **sizes), "length") == 20


@given(body=st.integers(150, 500), thick=st.integers(1, 20), down=st.integers(0, 10))
def test_a_band_lies_under_the_surface_by_its_set_down(body: int, thick: int, down: int) -> None:
    """Groove bottom plus twice the band is the body less twice the set-down."""
    result = work("band_depth", body=mm(body), thickness=mm(thick), set_down=mm(down))
    outside = value(result, "groove_bottom") + 2 * thick / 10
    assert outside == pytest.approx(body / 10 - 2 * down / 10)
    middle = (value(result, "groove_bottom") + outside) / 2
    assert value(result, "band_length") == pytest.approx(pi * middle)


def test_a_bore_wider_than_its_body_is_refused_everywhere() -> None:
    """Each sheet that takes both names the bore."""
    for id in ("crack_pin_layout", "tone_hole_insert", "tenon_graft", "band_depth"):
        with pytest.raises(BadInput, match="bore"):
            work(id, body="20mm", bore="20mm")


@given(degrees=st.integers(1, 359), thread=st.sampled_from(["3-48", "M2.5", "6BA", "2-56"]))
def test_shim_and_facing_come_to_the_same_place(degrees: int, thread: str) -> None:
    """Together they make one turn, either way, and the two ways change places."""
    pitch = float(read_thread(thread).pitch)
    back = work("clocking", thread=thread, degrees=str(degrees))
    further = work("clocking", thread=thread, degrees=str(degrees), way="further")
    assert value(back, "shim") + value(back, "facing") == pytest.approx(pitch)
    assert value(back, "shim") == pytest.approx(value(further, "facing"))
    assert value(back, "shim") / pitch * 360 == pytest.approx(degrees)


@given(degrees=st.integers(1, 120), near=st.integers(1, 10))
def test_the_nearest_shims_are_judged_by_the_angle_they_leave(degrees: int, near: int) -> None:
    """The check holds where the marked shims turn within the allowed angle, and no listed ones are nearer."""
    result = work("clocking", thread="3-48", degrees=str(degrees), near=str(near))
    chosen = next(row for row in result.rows if row["chosen"])
    assert abs(chosen["off_degrees"]) == min(abs(row["off_degrees"]) for row in result.rows)
    off = abs(chosen["stack_size"] / float(read_thread("3-48").pitch) * 360 - degrees)
    assert result.checks["shim_found"].holds == ("yes" if off <= near + 1e-9 else "no")
