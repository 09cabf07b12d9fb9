"""What benches hold about threads and tap drills: common practice, no source."""

import pytest

from casebook.figures import worksheet
from casebook.figures.inputs import read
from casebook.figures.worksheet import Result


def result(id: str, **typed: str) -> Result:
    sheet = worksheet(id)
    return sheet.run(read(sheet.inputs, typed))


def chosen(**typed: str) -> str:
    (row,) = [row for row in result("tap_drill", **typed).rows if row["chosen"]]
    return str(row["drill"])


@pytest.mark.parametrize("sets", ["number", "number,metric", "number,letter,fraction,metric"])
def test_number_47_is_the_drill_for_3_48_at_75_percent_in_brass(sets: str) -> None:
    """Common practice, no source."""
    assert chosen(thread="3-48", percent="75", material="brass", sets=sets) == "#47"


@pytest.mark.parametrize(
    ("material", "percent"),
    [("brass", 75), ("silver", 75), ("wood", 75), ("nickel silver", 65), ("steel", 65)],
)
def test_percent_of_thread_by_material(material: str, percent: float) -> None:
    """Common practice, no source."""
    assert result("tap_drill", thread="3-48", material=material).figures["percent"].value == percent


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("6BA", "4-48"),
        ("2BA", "10-32"),
        ("0BA", "M6x1"),
        ("8BA", "M2.2x0.45"),
        ("2-56", "M2.2x0.45"),
        ("0-80", "11BA"),
        ("1-72", "M1.8x0.35"),
        ("5-40", "1/8-40 BSW"),
    ],
)
def test_look_alikes_are_reported_together(one: str, other: str) -> None:
    """Pairs that a worn reading cannot part: common practice, no source."""
    named = result("thread", thread=one).figures
    typed = {"outside": f"{named['major'].value:.6f} mm", "pitch": f"{named['pitch'].value:.6f} mm"}
    rows = {row["thread"]: row for row in result("thread", **typed).rows}
    assert {one, other} <= set(rows)
    assert other in rows[one]["twins"]
    assert any(other in said for said in rows[one]["tell_apart"])


@pytest.mark.parametrize(("turns", "holds"), [("1", "no"), ("2", "yes"), ("3", "yes")])
def test_two_full_turns_hold(turns: str, holds: str) -> None:
    """Common practice, no source."""
    assert result("thread", turns=turns).checks["threads_hold"].holds == holds


def test_a_4_mm_shank_of_3_48_has_seven_full_threads() -> None:
    """Common practice, no source: a 4 mm shank has seven."""
    full = result("thread", thread="3-48", length="4mm").figures["full_threads"].value
    assert full is not None
    assert int(full) == 7
