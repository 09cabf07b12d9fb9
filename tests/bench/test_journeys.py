"""Five days of a shop, told at the desk with dates set by the test, never waited for."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from casebook.bench.at_desk import NotPossible
from casebook.bench.likeness import find_cases
from casebook.records.case import FollowUp, Instrument
from tests.bench.shop_days import Days


def test_the_knocked_off_post_with_earlier_solder(days: Days) -> None:
    """Two looks: the solder comes off first, what was judged under it is asked again, both looks stay."""
    monday = days.on("2026-03-02")
    case = monday.take_in(
        "Low F post off", Instrument("clarinet"), owner_words="It fell, again.", number="D-1"
    )
    damage = monday.add_damage(case.number, "posts", "low F key, lower post", "Off with its solder.")
    look = monday.look("D-1", damage)
    for question, answer in {
        "instrument_kind": "clarinet",
        "body_wood": "grenadilla",
        "post_problem": "torn_out",
        "post_hole": "sound_threads",
        "prior_solder": "soft_solder",
        "solder_where": {"all": ["on_shank", "in_wood"]},
        "flange_diameter": "7 mm",
    }.items():
        look.answer(question, answer)  # type: ignore[arg-type]
    first = look.advice.first.id
    assert first == "post_clean_and_reassess"
    monday.choose("D-1", damage, look.advice, first)
    tuesday = days.on("2026-03-03")
    tuesday.do_step("D-1", damage, "Solder off, cold, with a scraper", by="hk", hours=0.5)
    assert tuesday.second_look("D-1", damage, "cleaned", tuesday.still_true("D-1", damage, first)) == 2
    again = tuesday.look("D-1", damage)
    assert "post_hole" not in again.answers
    again.answer("post_hole", "coned_out")
    again.answer("prior_solder", "no_solder")
    again.answer("flange_diameter", "6.9 mm")
    changed = {one.question: (one.before, one.now) for one in tuesday.changed("D-1", damage)}
    assert set(changed) == {"post_hole", "prior_solder", "flange_diameter"}
    assert changed["flange_diameter"] == ("7 mm", "6.9 mm")
    assert changed["post_hole"][1] == "Coned out, wide at the top"
    stored = tuesday.book.case("D-1").damages[0]
    assert [look.taken for look in stored.looks] == [date(2026, 3, 2), date(2026, 3, 3)]
    assert stored.looks[0].answers["post_hole"] == "sound_threads"
    assert stored.steps[0].by == "hk"
    assert tuesday.book.case("D-1").owner_words == "It fell, again."


def test_three_damages_and_a_price(days: Days) -> None:
    """Each damage gets its own yes, no or later, with a limit; the plan stays shut until a yes; 'declined' stays."""
    desk = days.on("2026-04-07")
    desk.take_in("Will not play below G", Instrument("clarinet"), owner="card 12", number="D-2")
    numbers = [desk.add_damage("D-2", family, place) for family, place in (
        ("posts", "low E key, upper post"), ("pads_and_seats", "low D"), ("keywork", "G sharp key"))]  # fmt: skip
    assert numbers == [1, 2, 3]
    shut = desk.may_open_plan("D-2", 1, "post_hidden_bushing")
    assert shut is not None
    assert "get a yes first" in shut
    assert desk.may_open_plan("D-2", 1, "post_clean_and_reassess") is None
    desk.agree("D-2", 1, "later", who="the owner", how="by telephone")
    desk.agree("D-2", 2, "yes", who="the owner", how="by telephone", up_to="25")
    desk.agree("D-2", 3, "no", who="the owner", to_what="not worth it to her")
    [row] = desk.bench_list()
    assert (row.waits_for, row.day, row.overdue) == ("owner", date(2026, 4, 14), False)
    with pytest.raises(NotPossible, match="damage 1: the answer was 'later'"):
        desk.collected("D-2")
    assert desk.within_agreed("D-2", 2, Decimal(25)) is None
    over = desk.within_agreed("D-2", 2, Decimal("25.50"))
    assert over is not None
    assert "ring before you pass it" in over
    week = days.on("2026-04-15")
    assert week.bench_list()[0].overdue
    week.agree(
        "D-2", 1, "yes", who="the owner", how="at the counter", up_to="£80", to_what="post_hidden_bushing"
    )
    assert week.may_open_plan("D-2", 1, "post_hidden_bushing") is None
    other = week.may_open_plan("D-2", 1, "post_plug_then_bush")
    assert other is not None
    assert "not to this" in other
    assert [one.said for one in week.book.case("D-2").damages[0].consents] == ["later", "yes"]
    assert week.declined("D-2") == [
        "damage 3, G sharp key: advised not worth it to her, declined by the owner on 2026-04-07"
    ]
    week.collected("D-2")
    assert week.book.case("D-2").finished


def test_a_crack_that_waits_for_wood(days: Days) -> None:
    """Over weeks of dated readings: moving, then the same weight three times in a week, and the wait is over."""
    february = days.on("2026-02-02")
    february.take_in("Crack in the head joint", Instrument("flute"), number="D-3")
    february.add_damage("D-3", "cracks", "head joint", "Opened over the weekend.")
    february.visit(
        "D-3", needed_by=date(2026, 3, 20), needed_for="a wedding", came_in_with="case, cleaning rod"
    )
    february.wait("D-3", "wood", damage=1, note="drying box")
    february.weigh("D-3", "98.4 g", humidity="31", widths=("26.10",))
    [row] = february.bench_list()
    assert (row.waits_for, row.day) == ("wood", date(2026, 2, 5))
    assert row.needed == "Fri 20 Mar, for a wedding"
    assert row.came_in_with == "case, cleaning rod"
    for day, weight, width in (
        ("2026-02-09", "99.6", "26.18"),
        ("2026-02-23", "100.4", "26.24"),
        ("2026-03-03", "100.6", "26.26"),
    ):
        assert days.on(day).weigh("D-3", weight, humidity="48", widths=(width,)).since is None
    assert (
        days.on("2026-03-05").weigh("D-3", "100.6", widths=("26.26",)).says
        == "the same 2 of 3 times, weigh on Sun 8 Mar"
    )
    assert days.on("2026-03-12").bench_list()[0].overdue
    rest = days.on("2026-03-09").weigh("D-3", "100.6", humidity="49", widths=("26.27",))
    assert (rest.since, rest.says) == (date(2026, 3, 3), "at rest since Tue 3 Mar")
    [row] = days.on("2026-03-09").bench_list()
    assert (row.waits_for, row.overdue) == ("me", False)
    assert row.says.startswith("wood at rest since Tue 3 Mar")
    assert days.on("2026-03-21").bench_list()[0].overdue
    glue = days.on("2026-03-10", at="16:00")
    glue.wait("D-3", "glue", hours=24, damage=1, note="epoxy")
    assert days.on("2026-03-11", at="15:59").bench_list()[0].waits_for == "glue"
    [row] = days.on("2026-03-11", at="16:00").bench_list()
    assert row.waits_for == "me"
    assert "epoxy cured since Wed 11 Mar 16:00" in row.says


def test_ten_minutes_at_the_counter(days: Days) -> None:
    """A sticking key, done while its owner waits: one call, and it is found by what one remembers of it."""
    desk = days.on("2026-05-04")
    case = desk.quick_job(
        "card 7",
        "A flat key comes up slowly",
        "Rod bent by a hair",
        "Rod straightened, oiled",
        "12.50",
        "cash",
    )
    assert case.finished
    assert case.visit.paid == "12.50"
    assert desk.bench_list() == []
    [hit] = find_cases(desk, "sticking rod straightened flat key").hits
    assert hit.case == case.number
    assert [due.why for due in days.on("2026-06-02").due()] == ["after 4 to 6 weeks"]


def test_a_repair_that_came_back(days: Days) -> None:
    """It starts from what is known, belongs to its instrument, and only what let go by itself counts against it."""
    autumn = days.on("2025-09-01")
    autumn.take_in("Post loose", Instrument("oboe", "old system"), owner="card 3", number="D-4")
    autumn.add_damage("D-4", "posts", "left F key", "Turns under the finger.")
    intake = autumn.intake("D-4")
    for question, answer in {
        "instrument_kind": "oboe", "body_wood": "rosewood", "owner_aim": "play_daily", "wood_state": "dry_shrunk",
        "owner_consent": "sound_repair", "age_class": "from_1850_to_1920", "recent_climate_change": "yes",
    }.items():  # fmt: skip
        intake.answer(question, answer)
    autumn.record_work("D-4", 1, done="Shimmed and glued.", hours=1.5, repaired_on=date(2025, 9, 1))
    autumn.collected("D-4")
    spring = days.on("2026-05-06")
    again = spring.take_in("The same post is loose again", comes_back_from="d-4")
    assert again.owner == "card 3"
    assert again.visit.comes_back_from == "D-4"
    assert again.answers == {
        "instrument_kind": "oboe", "body_wood": "rosewood", "age_class": "from_1850_to_1920"
    }  # fmt: skip
    spring.turned_out("D-4", 1, "let_go", what="glue", since=date(2026, 4, 20), redo_hours=0.75)
    before = spring.book.case("D-4").damages[0]
    assert before.outcome is not None
    assert before.outcome.held == "no"
    assert before.outcome.against
    assert before.hours_in_all == 2.25
    assert all(due.case != "D-4" for due in spring.due())
    spring.add_damage(again.number, "posts", "Left F key")
    page = spring.instrument(again.instrument.uid)
    assert [(visit.case, visit.comes_back_from) for visit in page.visits] == [
        ("D-4", ""),
        (again.number, "D-4"),
    ]
    [(place, done)] = page.by_place.items()
    assert place == "left F key"
    assert [one.done for one in done] == ["Shimmed and glued.", ""]
    assert done[0].outcome == "2026-05-06 let go: glue, began 2026-04-20, done again free in 0.75 h"
    with pytest.raises(NotPossible, match="looked 2025-08-01 is before it was repaired on"):
        spring.follow_up("D-4", 1, FollowUp("yes", date(2025, 8, 1)))
