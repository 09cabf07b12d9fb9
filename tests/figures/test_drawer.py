"""The shop's drawer in the worksheets: what is there is taken, what is lacking is said."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures import worksheet
from casebook.figures.as_json import result_json
from casebook.figures.as_text import result_text
from casebook.figures.drawer import lacking
from casebook.figures.inputs import read
from casebook.figures.worksheet import Result
from tests.figures.worked import value, work

POST = {
    "flange": "0.250in", "thread": "3-48", "engaged": "3mm", "hole": "5.2mm", "wall": "7mm",
    "seat_depth": "1.2mm",
}  # fmt: skip


def with_drawer(id: str, drawer: dict[str, str], **typed: str) -> Result:
    """Work a worksheet with a drawer."""
    sheet = worksheet(id)
    return sheet.run(read(sheet.inputs, typed, drawer=drawer))


def taken(result: Result, name: str) -> str:
    """Give what was taken for one input."""
    return result.chosen[name].piece.name


def test_the_drill_is_taken_from_the_drawer_and_a_better_one_is_named() -> None:
    """For 3-48 in brass #47 is best (drill tables: 0.0785 in, 76 percent); the drawer's 2.1 mm leaves 60."""
    result = with_drawer("tap_drill", {"drills": "1.6 mm; 2.1 mm"}, thread="3-48")
    assert taken(result, "drills") == "2.1 mm"
    assert list(lacking(result)) == ["#47 is not in your drawer; the nearest is 2.1 mm"]
    assert [row["drill"] for row in result.rows if row["chosen"]] == ["2.1 mm"]
    assert "Drawer: #47 is not in your drawer; the nearest is 2.1 mm." in result_text(result)


def test_a_drawer_with_the_right_drill_says_nothing() -> None:
    """Nothing is lacking where the drill that would be bought is there."""
    result = with_drawer("tap_drill", {"drills": "#47; 2.3 mm"}, thread="3-48")
    assert taken(result, "drills") == "#47"
    assert list(lacking(result)) == []


def test_what_is_typed_comes_before_the_drawer() -> None:
    """Sets or drills named on the spot are what is on hand now."""
    drawer = {"drills": "2.1 mm"}
    assert taken(with_drawer("tap_drill", drawer, thread="3-48", sets="number"), "drills") == "#47"
    assert taken(with_drawer("tap_drill", drawer, thread="3-48", drills="1.95 mm"), "drills") == "1.95 mm"


def test_a_near_tap_is_no_substitute() -> None:
    """4-48 is no 3-48; M2 is not either, and the way without a tap is named."""
    (line,) = lacking(with_drawer("tap_drill", {"taps": "4-48; M2"}, thread="3-48"))
    assert line.startswith("the tap 3-48 is not in your drawer; the nearest is")
    assert "no substitute" in line
    assert "sister post" in line
    assert list(lacking(with_drawer("tap_drill", {"taps": "4-48; #3-48"}, thread="3-48"))) == []


def test_ba_and_metric_of_one_size_are_not_the_same_tap() -> None:
    """0BA and M6x1 share 6 mm and 1 mm and differ in the angle of the thread (BS 93: 47.5 degrees)."""
    assert list(lacking(with_drawer("thread", {"taps": "M6x1", "dies": "0BA"}, thread="0BA"))) != []


def test_the_bushing_takes_cutter_bar_collet_and_speed_of_the_shop() -> None:
    """5.5 mm is the smallest cutter that cleans 5.3 mm; 6 mm the bar for 5.4 mm and its half millimetre."""
    drawer = {
        "cutters": "5 mm; 5.5 mm; 6 mm", "rod": "5.5 mm; 6 mm; 8 mm", "collets": "5 mm; 6 mm",
        "speeds": "500; 2500",
    }  # fmt: skip
    result = with_drawer("bushing", drawer, **POST)
    assert [taken(result, name) for name in ("cutters", "rod", "collets")] == ["5.5 mm", "6 mm", "6 mm"]
    assert value(result, "outside") == pytest.approx(5.4)
    steps = " ".join(result.steps)
    assert "In the collet of 6 mm hold brass bar of about 6.0 mm" in steps
    assert "on your lathe 2500 rpm" in steps
    assert list(lacking(result)) == []


def test_a_bar_too_thin_is_not_turned() -> None:
    """The step keeps the bar that is needed, and the drawer says what it lacks."""
    result = with_drawer("bushing", {"rod": "3 mm"}, **POST)
    assert list(lacking(result)) == ["6.0 mm is not in your drawer; the nearest is 3 mm"]
    assert any("bar of about 6.0 mm" in step for step in result.steps)


def test_the_bushing_follows_the_hole_as_it_was_cut() -> None:
    """Cut to 5.8 mm, the bushing is turned to 5.8 less 2 x 0.05 mm, whatever the drawer holds."""
    result = with_drawer("bushing", {"cutters": "5.5 mm"}, **POST, hole_as_cut="5.8mm +- 0")
    assert value(result, "wood_hole") == pytest.approx(5.8)
    assert value(result, "outside") == pytest.approx(5.7)
    assert result.checks["hole_cleaned"].holds == "yes"
    assert not any(row["chosen"] for row in result.rows)


def test_a_hole_cut_too_wide_shows_beside_the_flange() -> None:
    """Flange 6.35 mm less 0.254 mm hides 6.096 mm; a hole of 6.3 mm asks for 6.2 mm."""
    result = work("bushing", **POST, hole_as_cut="6.3mm")
    assert result.checks["hidden_by_flange"].holds == "no"
    assert result.checks["hidden_by_flange"].margin == pytest.approx(6.35 - 0.254 - 6.2)


@given(cut=st.integers(530, 600))
def test_as_cut_the_glue_gap_is_always_kept(cut: int) -> None:
    """Hole less bushing is twice the gap, for the value and both bounds."""
    result = work("bushing", error="0.03", **POST, hole_as_cut=f"{cut / 100} mm")
    hole, outside = result.figures["wood_hole"], result.figures["outside"]
    for bound in ("low", "value", "high"):
        assert getattr(hole, bound) - getattr(outside, bound) == pytest.approx(0.1)


def test_the_percent_follows_the_drill_that_was_used() -> None:
    """3-48 (0.099 in, 48 tpi) with a drill of 0.0810 in: (0.099 - 0.081) x 48 / 1.299038 = 66.5 percent."""
    result = work("tap_drill", thread="3-48", drilled="0.0810in")
    assert value(result, "percent_left") == pytest.approx(100 * 0.018 * 48 / 1.299038, abs=1e-3)


def test_cork_follows_the_sheet_in_hand() -> None:
    """Space 1.35 mm and a sheet of 1.8 mm: squeezed by a quarter."""
    result = work("tenon_fit", socket="22.2mm", groove_diameter="19.5mm", sheet_in_hand="1.8mm")
    assert value(result, "squeezed") == pytest.approx(25)


def test_cork_too_thick_is_taken_and_said() -> None:
    """3 mm sands down to 1.8 mm, 1.5 mm holds less than wanted."""
    sheets = {"sheet": "1.5 mm; 3 mm"}
    result = with_drawer("tenon_fit", sheets, socket="22.2mm", groove_diameter="19.5mm")
    assert taken(result, "sheets") == "3 mm"
    assert list(lacking(result)) == ["1.8 mm is not in your drawer; the nearest is 3 mm"]


def test_a_pad_that_bulges_is_never_taken_before_a_small_one() -> None:
    """A cup of 11.2 mm takes a pad 0.1 to 0.3 mm smaller (common practice, no source)."""
    result = with_drawer("pad_size", {"pads": "10 mm; 11.5 mm"}, cup="11.2mm")
    assert taken(result, "pads") == "10 mm"
    assert list(lacking(result)) == ["11 mm is not in your drawer; the nearest is 10 mm"]


def test_a_needle_of_the_drawer_that_is_far_off_is_said() -> None:
    """0.5 mm gives 0.36 N where 0.6 N is wanted; 0.55 mm would give 0.53 N, 12 percent off."""
    result = with_drawer(
        "spring_force", {"needles": "0.5 mm; 1.3 mm"},
        kind="needle", length="25mm", travel="3mm", material="music_wire", wanted="0.6 N",
    )  # fmt: skip
    assert taken(result, "needles") == "0.5 mm"
    assert list(lacking(result)) == ["0.55 mm is not in your drawer; the nearest is 0.5 mm"]


def test_the_lathe_runs_at_a_speed_it_has() -> None:
    """Within the published range the fastest; without one in it the nearest slower one."""
    within = with_drawer("lathe_speed", {"speeds": "900; 2500; 3000"}, diameter="6mm", material="brass")
    assert value(within, "spindle") == 3000
    slow = with_drawer("lathe_speed", {"speeds": "900; 1800"}, diameter="6mm", material="brass")
    assert value(slow, "spindle") == 1800
    assert slow.checks["machine_reaches"].holds == "no"
    assert "not a speed of your lathe" in next(lacking(slow))


def test_no_tap_is_driven_faster_than_the_hand() -> None:
    """Over 60 rpm a tap is turned by hand (common practice, no source); a slower speed of the lathe does."""
    tap = {"diameter": "2mm", "operation": "tap"}
    assert value(with_drawer("lathe_speed", {"speeds": "45; 120"}, **tap), "spindle") == 45
    fast = with_drawer("lathe_speed", {"speeds": "120; 250"}, **tap)
    assert "spindle" not in fast.figures
    assert "by hand" in fast.steps[0]
    assert list(lacking(fast)) == ["60 rpm is not a speed of your lathe; the nearest is 120 rpm"]
    bushing = with_drawer("bushing", {"speeds": "120; 250"}, **POST)
    assert any("Tap by hand: your lathe's slowest, 120 rpm, is over 60 rpm." in s for s in bushing.steps)


def test_a_plug_is_cut_by_a_cutter_that_cleans_or_by_none() -> None:
    """5.9 mm is needed: 6 mm is taken; with 5.5 mm alone the hole to cut stays what it must be."""
    plug = {"hole": "5.8mm", "depth": "6mm", "wall": "7.5mm"}
    assert value(with_drawer("plug", {"cutters": "5.5 mm; 6 mm"}, **plug), "wood_hole") == 6
    lacks = with_drawer("plug", {"cutters": "5.5 mm"}, **plug)
    assert value(lacks, "wood_hole") == pytest.approx(5.9)
    assert list(lacking(lacks)) == ["5.9 mm is not in your drawer; the nearest is 5.5 mm"]
    assert value(work("plug", **plug, hole_as_cut="6.2mm"), "diameter") == pytest.approx(6.1)


SEAT = {"body": "27mm", "flange": "7mm", "flange_thickness": "0.8mm", "seat": "recessed"}


def test_a_flange_seat_is_cut_by_the_smallest_cutter_that_clears_it() -> None:
    """7 mm and 0.1 mm play: 7.2 mm does, 7 mm does not; 7.5 mm would show (common practice, no source)."""
    assert value(with_drawer("flange_seat", {"cutters": "7 mm; 7.2 mm; 7.5 mm"}, **SEAT), "cutter") == 7.2
    lacks = with_drawer("flange_seat", {"cutters": "7 mm; 7.5 mm"}, **SEAT)
    assert value(lacks, "cutter") == pytest.approx(7.1)
    assert list(lacking(lacks)) == ["7.1 mm is not in your drawer; the nearest is 7 mm"]
    assert [row["does"] for row in lacks.rows] == ["no", "no"]
    assert not any(row["chosen"] for row in lacks.rows)


def test_the_rod_follows_the_seat_as_it_was_cut() -> None:
    """Cut 0.2 mm deeper than the old seat, the rod lies 0.2 mm lower; 0.8 mm of flange lies 0.7 mm under."""
    result = work(
        "flange_seat", **SEAT, seat_as_cut="1.5mm", old_seat="1.3mm", hinge_height="6mm", wall="5mm"
    )
    assert value(result, "rod_height_after") == pytest.approx(5.8)
    assert value(result, "top_under_high_line") == pytest.approx(0.7)
    assert value(result, "wood_under_seat") == pytest.approx(3.5)
    assert result.checks["bears_all_round"].holds == "yes"


def test_a_seat_cut_shallower_than_the_wood_falls_away_bears_on_two_lines_only() -> None:
    """A flange of 7 mm on 27 mm: the wood falls away 13.5 - sqrt(13.5^2 - 3.5^2) = 0.462 mm."""
    proud = {**SEAT, "seat": "proud"}
    assert work("flange_seat", **proud, seat_as_cut="0.4mm").checks["bears_all_round"].holds == "no"
    assert work("flange_seat", **proud, seat_as_cut="0.5mm").checks["bears_all_round"].holds == "yes"


INSERT = {"hole": "8mm", "damage": "10.5mm", "neighbour": "4mm"}


def test_an_insert_is_as_wide_as_the_cutter_of_the_drawer_cuts() -> None:
    """10.5 mm of damage and 0.1 mm to clean up: 11 mm is taken, and the insert is 2 x 0.05 mm smaller."""
    result = with_drawer("tone_hole_insert", {"cutters": "10 mm; 11 mm; 12 mm"}, **INSERT)
    assert value(result, "wood_hole") == 11
    assert value(result, "outside") == pytest.approx(10.9)
    assert result.checks["damage_taken_in"].holds == "yes"


def test_a_cutter_that_comes_too_near_the_next_hole_is_not_taken() -> None:
    """4 mm to the next hole less 1.5 mm to leave: 8 + 2 x 2.5 = 13 mm at most."""
    result = with_drawer("tone_hole_insert", {"cutters": "14 mm"}, **INSERT)
    assert value(result, "wood_hole") == pytest.approx(10.6)
    assert list(lacking(result)) == ["10.6 mm is not in your drawer; the nearest is 14 mm"]


def test_the_insert_follows_the_hole_as_it_was_cut() -> None:
    """Cut to 11.3 mm, it is turned to 11.2 mm and has (11.2 - 8) / 2 mm of wall, whatever the drawer holds."""
    sheet = worksheet("tone_hole_insert")
    typed = {**INSERT, "hole_as_cut": "11.3mm"}
    result = sheet.run(read(sheet.inputs, typed, drawer={"cutters": "11 mm"}))
    assert (value(result, "outside"), value(result, "ring_wall")) == pytest.approx((11.2, 1.6))


GRAFT = {"body": "26mm", "bore": "14.8mm"}


def test_a_graft_takes_the_cutter_nearest_to_the_best_share_of_the_wall() -> None:
    """Spigot 18.8 to 20.9 mm, glue 0.05 mm a side; the wall is shared best at 19.83 mm: 20 before 19 mm."""
    drawer = {"cutters": "18 mm; 19 mm; 20 mm; 24 mm", "drills": "12 mm; 14 mm; 15 mm"}
    result = with_drawer("tenon_graft", drawer, **GRAFT)
    assert value(result, "counterbore") == 20
    assert value(result, "spigot") == pytest.approx(19.9)
    assert value(result, "socket_wall") == pytest.approx(3)
    assert any("Bore the graft small (14 mm)" in step for step in result.steps)


def test_a_graft_follows_the_counterbore_as_it_was_cut() -> None:
    """Cut to 20.4 mm: the spigot is 20.3 mm, and the body has (26 - 20.4) / 2 mm left round it."""
    result = work("tenon_graft", **GRAFT, hole_as_cut="20.4mm")
    assert (value(result, "spigot"), value(result, "socket_wall")) == pytest.approx((20.3, 2.8))


PINNED = {"wall": "6.2mm", "body": "27mm", "crack": "45mm"}


def test_the_thickest_rod_that_the_wall_bears_makes_the_pin() -> None:
    """A wall of 6.2 mm bears a third of itself, 2.07 mm (common practice, no source)."""
    result = with_drawer("crack_pin_layout", {"rod": "1 mm; 1.5 mm; 3 mm", "drills": "#53; 3 mm"}, **PINNED)
    assert taken(result, "rod") == "1.5 mm"
    assert value(result, "depth_min") == pytest.approx(0.75 + 0.8)
    assert value(result, "drill") == pytest.approx(0.0595 * 25.4)
    assert list(lacking(result)) == []
    lacks = with_drawer("crack_pin_layout", {"rod": "3 mm"}, **PINNED)
    assert list(lacking(lacks)) == ["2 mm is not in your drawer; the nearest is 3 mm"]
    assert "depth_min" not in lacks.figures


def test_without_a_pin_and_without_a_drawer_no_pin_is_guessed() -> None:
    """The thickest pin is said; depths wait for a pin."""
    result = work("crack_pin_layout", **PINNED)
    assert value(result, "thickest_pin") == pytest.approx(6.2 / 3)
    assert "depth_min" not in result.figures
    assert "drill" not in result.figures


def test_a_threaded_pin_names_its_drill_and_its_die() -> None:
    """0-80 in wood, 75 percent: 1.524 - 0.75 x 1.299038 x 0.3175 = 1.215 mm: 1.2 mm."""
    drawer = {"dies": "0-80", "drills": "1.2 mm; 1.6 mm", "rod": "1.5 mm"}
    result = with_drawer("crack_pin_layout", drawer, **PINNED, thread="0-80")
    assert value(result, "depth_min") == pytest.approx(1.524 / 2 + 0.8)
    assert value(result, "drill") == pytest.approx(1.2)
    assert list(lacking(result)) == []
    (line,) = lacking(with_drawer("crack_pin_layout", {"dies": "1-72"}, **PINNED, thread="0-80"))
    assert "no substitute" in line


def test_a_ring_is_packed_with_what_the_drawer_has() -> None:
    """A gap of 0.4 mm takes 0.2 mm all round: two papers of 0.1 mm, else the nearest is named."""
    ring = {"ring_bore": "31.5mm", "ring_seat": "31.1mm"}
    assert value(with_drawer("ring_fit", {"shims": "0.1 mm; 0.5 mm"}, **ring), "packing") == pytest.approx(
        0.2
    )
    lacks = with_drawer("ring_fit", {"shims": "0.5 mm"}, **ring)
    assert list(lacking(lacks)) == ["0.2 mm is not in your drawer; the nearest is 0.5 mm"]
    assert "packing" not in lacks.figures


def test_a_liner_tight_in_its_wood_names_the_cutter_and_a_loose_one_the_paper() -> None:
    """Play 0.1 to 0.2 mm is wanted: 19.1 to 19.2 mm over 19 mm; 0.5 mm is packed by 0.15 to 0.2 mm a side."""
    tight = with_drawer("liner_fit", {"cutters": "19 mm; 19.2 mm"}, liner="19mm", wood_bore="19.02mm")
    assert taken(tight, "cutters") == "19.2 mm"
    assert "packing" not in tight.figures
    loose = with_drawer("liner_fit", {"shims": "0.18 mm"}, liner="19mm", wood_bore="19.5mm")
    assert value(loose, "packing") == pytest.approx(0.18)


def test_a_worn_hinge_takes_rod_drill_and_foil_of_the_drawer() -> None:
    """Tube 2.10 mm: a rod up to 2.08 mm runs; the sleeve is as wide as its drill; foil for 0.13 mm."""
    hinge = {
        "tube_bore": "2.10mm", "rod": "2.0mm", "between": "31.2mm", "tube_length": "31.05mm",
        "tube_outside": "3.6mm",
    }  # fmt: skip
    drawer = {"rod": "2 mm; 2.07 mm; 2.1 mm", "drills": "2.4 mm; 2.5 mm", "shims": "0.1 mm"}
    result = with_drawer("hinge_fit", drawer, **hinge)
    got = [value(result, name) for name in ("larger_rod", "sleeve_outside", "washer_stack")]
    assert got == pytest.approx([2.07, 2.5, 0.1])
    sound = with_drawer("hinge_fit", drawer, tube_bore="2.03mm", rod="2.0mm")
    assert sound.chosen == {}


def test_a_post_is_turned_back_by_the_shims_of_the_drawer() -> None:
    """48 threads an inch: 10 degrees are 0.0147 mm; 0.01 and 0.005 mm together come near."""
    result = with_drawer("clocking", {"shims": "0.005 mm; 0.01 mm"}, thread="3-48", degrees="10")
    assert taken(result, "shims") == "0.005 mm + 0.01 mm"
    lacks = with_drawer("clocking", {"shims": "0.1 mm"}, thread="3-48", degrees="10")
    assert list(lacking(lacks)) == ["0.015 mm is not in your drawer; the nearest is 0.1 mm"]


def test_scripts_see_what_was_taken() -> None:
    """The key is there only where there was a drawer to take from."""
    data = result_json(with_drawer("tap_drill", {"drills": "2.1 mm"}, thread="3-48"))
    assert data["drawer"]["drills"] == {
        "take": "2.1 mm", "size": 2.1, "lacks": "#47 is not in your drawer; the nearest is 2.1 mm",
    }  # fmt: skip
    assert "drawer" not in result_json(work("tap_drill", thread="3-48"))
