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


def test_a_plug_is_cut_by_a_cutter_that_cleans_or_by_none() -> None:
    """5.9 mm is needed: 6 mm is taken; with 5.5 mm alone the hole to cut stays what it must be."""
    plug = {"hole": "5.8mm", "depth": "6mm", "wall": "7.5mm"}
    assert value(with_drawer("plug", {"cutters": "5.5 mm; 6 mm"}, **plug), "wood_hole") == 6
    lacks = with_drawer("plug", {"cutters": "5.5 mm"}, **plug)
    assert value(lacks, "wood_hole") == pytest.approx(5.9)
    assert list(lacking(lacks)) == ["5.9 mm is not in your drawer; the nearest is 5.5 mm"]
    assert value(work("plug", **plug, hole_as_cut="6.2mm"), "diameter") == pytest.approx(6.1)


def test_scripts_see_what_was_taken() -> None:
    """The key is there only where there was a drawer to take from."""
    data = result_json(with_drawer("tap_drill", {"drills": "2.1 mm"}, thread="3-48"))
    assert data["drawer"]["drills"] == {
        "take": "2.1 mm", "size": 2.1, "lacks": "#47 is not in your drawer; the nearest is 2.1 mm",
    }  # fmt: skip
    assert "drawer" not in result_json(work("tap_drill", thread="3-48"))
