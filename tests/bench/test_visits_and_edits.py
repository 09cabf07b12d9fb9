"""Visits, the work as it was done, the counter's bad input, and two people on one case."""

from __future__ import annotations

from datetime import date

import pytest

from casebook.bench.at_desk import NotPossible
from casebook.bench.case_text import case_text
from casebook.records.case import Instrument
from casebook.records.check import BadCase
from casebook.records.errors import NoSuchCase
from tests.bench.shop_days import LIBRARY, Days


def test_a_known_instrument_may_come_for_another_reason(days: Days) -> None:
    """By its uid; what was written of it stays written."""
    first = days.on("2025-01-10").take_in("Pads", Instrument("bassoon", "French system", marks="No. 7"))
    again = days.on("2026-01-10").take_in("Crack", instrument_uid=first.instrument.uid)
    assert again.instrument == first.instrument
    with pytest.raises(NotPossible, match="another instrument"):
        days.on("2026-01-10").take_in("x", instrument_uid="0" * 32, comes_back_from=first.number)
    with pytest.raises(NotPossible, match="has been here"):
        days.on("2026-01-10").take_in("x", instrument_uid="0" * 32)
    with pytest.raises(NoSuchCase):
        days.on("2026-01-10").take_in("x", comes_back_from="Z-99")


def test_what_was_declined_is_told_as_such_until_it_is_done(days: Days) -> None:
    """On the page of the instrument; whoever brought it last stands there too."""
    desk = days.on("2026-02-01")
    case = desk.take_in("Two posts", Instrument("oboe"), owner="card 4")
    for place in ("left F key", "right F key"):
        desk.add_damage(case.number, "posts", place)
    desk.agree(case.number, 1, "no")
    page = desk.instrument(case.instrument.uid)
    assert page.owner == "card 4"
    assert [(one.declined, one.turned_out) for one in page.visits[0].done] == [(True, ""), (False, "")]
    desk.record_work(case.number, 1, done="Shimmed after all.", repaired_on=desk.today)
    desk.turned_out(case.number, 1, "holding")
    [again, _] = desk.instrument(case.instrument.uid).visits[0].done
    assert (again.declined, again.turned_out) == (False, "holding")


def test_work_is_told_step_by_step_with_initials_departures_and_readings(days: Days) -> None:
    desk = days.on("2026-02-01")
    number = desk.take_in("Spring weak").number
    desk.add_damage(number, "springs", "G sharp key")
    desk.do_step(number, 1, "Spring out", by="hk", hours=0.2)
    desk.do_step(number, 1, "Spring in", by="jv", hours=0.5)
    desk.depart(number, 1, "needle 0.6 mm", "0.65 mm", "none left")
    desk.measure_made(number, 1, "needle", "0.65 mm")
    desk.read_before(number, 1, "spring force", "0.20 N")
    desk.read_after(number, 1, "spring force", "0.35 N")
    desk.read_after(number, 1, "leak", "none")
    assert desk.hours_of_steps(number, 1) == pytest.approx(0.7)
    damage = desk.book.case(number).damages[0]
    assert [(step.by, step.done_on) for step in damage.steps] == [("hk", desk.today), ("jv", desk.today)]
    assert [(r.what, r.before, r.after) for r in damage.before_after] == [
        ("spring force", "0.20 N", "0.35 N"), ("leak", "", "none")
    ]  # fmt: skip
    told = "\n".join(case_text(LIBRARY, desk.book.case(number)))
    assert "otherwise than planned: needle 0.6 mm; done: 0.65 mm, because none left" in told
    assert "spring force: before 0.20 N, after 0.35 N" in told


def test_a_visit_is_told_in_words(days: Days) -> None:
    desk = days.on("2026-02-01")
    number = desk.take_in("Crack").number
    desk.visit(number, needed_by=date(2026, 3, 1), needed_for="a concert", loaned_out="the blue flute",
               loaned_until=date(2026, 3, 2), came_in_with="case")  # fmt: skip
    desk.wait(number, "part", until=date(2026, 2, 9), note="ring")
    desk.weigh(number, "100", humidity="45")
    desk.paid(number, "20", "card")
    assert desk.collected(number) == ["goes back with it: case", "comes back to the shop: the blue flute"]
    told = "\n".join(case_text(LIBRARY, desk.book.case(number)))
    for line in (
        "needed by: 2026-03-01, a concert",
        "lent meanwhile: the blue flute, until 2026-03-02",
        "waits for part: since 2026-02-01, until 2026-02-09, ring",
        "wood read 2026-02-01: 100, 45 % humidity",
        "paid: 20, card, 2026-02-01",
        "collected: 2026-02-01",
    ):
        assert line in told


def test_the_counter_refuses_in_one_line(days: Days) -> None:
    desk = days.on("2026-02-01")
    with pytest.raises(NotPossible, match="type both"):
        desk.quick_job("", "Key sticks", "bent", " ")
    with pytest.raises(NotPossible, match="no rules for 'magic'"):
        desk.quick_job("", "Key sticks", "bent", "straightened", family="magic")
    with pytest.raises(BadCase, match="less than nothing"):
        desk.quick_job("", "Key sticks", "bent", "straightened", "-5")
    assert desk.book.count() == 0
    number = desk.take_in("Crack").number
    with pytest.raises(NotPossible, match="needed by 2026-01-01 is before it was taken in on 2026-02-01"):
        desk.visit(number, needed_by=date(2026, 1, 1))
    desk.add_damage(number, "cracks", "barrel")
    with pytest.raises(NotPossible, match="damage 1: repaired on 2026-01-31 is before it was taken in"):
        desk.record_work(number, 1, repaired_on=date(2026, 1, 31))
    with pytest.raises(NotPossible, match="still to come"):
        desk.record_work(number, 1, repaired_on=date(2026, 2, 2))
    assert desk.book.case(number).damages[0].repaired_on is None
