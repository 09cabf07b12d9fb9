"""Putting right what was written of the work, while others write too."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from casebook.bench.at_desk import NotPossible
from casebook.bench.both_sides import BothChanged
from casebook.bench.case_text import case_text
from casebook.bench.desk import Desk
from tests.bench.shop_days import Days


@pytest.fixture
def desk(days: Days) -> Desk:
    """A desk with one damage on the bench."""
    desk = days.on("2026-02-01")
    desk.add_damage(desk.take_in("Spring weak").number, "springs", "G sharp key")
    return desk


def test_a_step_is_put_right_or_its_tick_taken_away_beside_the_steps_of_others(desk: Desk) -> None:
    number = _number(desk)
    desk.do_step(number, 1, "Spring out", by="hk")
    [out] = desk.book.case(number).damages[0].steps
    desk.do_step(number, 1, "Spring in", by="jv", done_on=date(2026, 2, 1))
    desk.mend_step(number, 1, out, replace(out, hours=0.25))
    steps = desk.book.case(number).damages[0].steps
    assert [(one.text, one.by, one.hours) for one in steps] == [
        ("Spring out", "hk", 0.25), ("Spring in", "jv", None)
    ]  # fmt: skip
    with pytest.raises(NotPossible, match="'Spring out' was changed by somebody else meanwhile"):
        desk.mend_step(number, 1, out, None)
    desk.mend_step(number, 1, steps[0], None)
    assert [one.text for one in desk.book.case(number).damages[0].steps] == ["Spring in"]


def test_a_step_has_the_day_it_was_done(desk: Desk) -> None:
    number = _number(desk)
    with pytest.raises(NotPossible, match="2026-02-02 is still to come"):
        desk.do_step(number, 1, "Spring out", done_on=date(2026, 2, 2))
    with pytest.raises(NotPossible, match="is before it was taken in"):
        desk.do_step(number, 1, "Spring out", done_on=date(2026, 1, 31))
    assert desk.book.case(number).damages[0].steps == ()


def test_what_was_told_is_put_right_in_its_place_and_nothing_else_is_replaced(desk: Desk) -> None:
    """A departure, a reading: two of the same name stand beside each other, unless one is put right."""
    number = _number(desk)
    for did in ("0.60 mm", "0.65 mm"):
        desk.depart(number, 1, "Fit the needle", did, "none left")
        desk.measure_made(number, 1, "needle", did)
        desk.read_before(number, 1, "spring force", did)
    damage = desk.book.case(number).damages[0]
    assert [one.did for one in damage.departures] == ["0.60 mm", "0.65 mm"]
    assert [(one.value, one.note) for one in damage.measured] == [("0.65 mm", "was 0.60 mm")]
    assert [one.before for one in damage.before_after] == ["0.60 mm", "0.65 mm"]
    first, second = damage.departures
    desk.depart(number, 1, "Fit the needle", "0.62 mm", "", instead_of=first)
    desk.depart(number, 1, "Fit the needle", "", "", instead_of=second)
    one, other = damage.before_after
    desk.put_readings(number, 1, (one, None), (other, replace(other, before="0.2 N", after="0.4 N")))
    damage = desk.book.case(number).damages[0]
    assert damage.departures == (replace(first, did="0.62 mm", why=""),)
    assert [(read.before, read.after) for read in damage.before_after] == [("0.2 N", "0.4 N")]


def test_what_somebody_else_put_right_meanwhile_stays_beside_mine(desk: Desk) -> None:
    """Neither is lost: mine stands after theirs."""
    number = _number(desk)
    desk.depart(number, 1, "Fit the needle", "0.60 mm", "")
    desk.read_before(number, 1, "leak", "12")
    damage = desk.book.case(number).damages[0]
    [told], [read] = damage.departures, damage.before_after
    for did, after in (("0.65 mm", "3"), ("0.70 mm", "4")):
        desk.depart(number, 1, told.planned, did, "", instead_of=told)
        desk.put_readings(number, 1, (read, replace(read, after=after)))
    damage = desk.book.case(number).damages[0]
    assert [one.did for one in damage.departures] == ["0.65 mm", "0.70 mm"]
    assert [one.after for one in damage.before_after] == ["3", "4"]


def test_the_record_of_another_is_never_overwritten_unseen(desk: Desk) -> None:
    """Hours and day of theirs beside words of mine are kept; two different words are a question."""
    number = _number(desk)
    base = desk.book.case(number)
    desk.record_done(base, 1, hours=1.5, repaired_on=date(2026, 2, 1))
    desk.record_done(base, 1, done="New needle")
    damage = desk.book.case(number).damages[0]
    assert (damage.hours, damage.done) == (1.5, "New needle")
    with pytest.raises(BothChanged):
        desk.record_done(base, 1, done="Old needle bent back")
    with pytest.raises(NotPossible, match="still to come"):
        desk.record_done(base, 1, repaired_on=date(2026, 2, 2))


def _number(desk: Desk) -> str:
    [row] = desk.on_the_bench()
    return row.number


def test_a_case_shown_counts_the_hours_of_a_free_redo(days: Days) -> None:
    """The hours line is the whole cost of the repair to the shop."""
    desk = days.on("2026-03-02")
    desk.take_in("Loose", number="W-9")
    desk.add_damage("W-9", "posts", "low F")
    desk.record_work("W-9", 1, done="Shimmed.", hours=1.5, repaired_on=desk.today)
    later = days.on("2026-04-07")
    later.turned_out("W-9", 1, "let_go", what="glue", redo_hours=0.5)
    shown = "\n".join(case_text(later.library, later.book.case("W-9")))
    assert "2 hours, 0.5 of them done again free, repaired on 2026-03-02" in shown
