"""What jobs wait for, and the list of them."""

from __future__ import annotations

from datetime import date

import pytest

from casebook.bench.at_desk import NotPossible
from casebook.quantity import show_time_span
from casebook.records.case import Instrument
from tests.bench.shop_days import LIBRARY, Days


def test_overdue_rows_come_first_then_by_what_they_wait_for(days: Days) -> None:
    """And a part expected yesterday is one to ring about."""
    desk = days.on("2026-06-01")
    for number in ("W-1", "W-2", "W-3", "W-4", "W-5"):
        desk.take_in(number, Instrument("flute", "six keys"), number=number)
    desk.wait("W-1", "part", until=date(2026, 6, 10), note="low C pad")
    desk.wait("W-2", "owner", note="price")
    desk.ready("W-3")
    desk.told("W-4")
    rows = desk.bench_list()
    assert [(row.number, row.waits_for) for row in rows] == [
        ("W-2", "owner"), ("W-1", "part"), ("W-5", "me"), ("W-3", "ready"), ("W-4", "told")
    ]  # fmt: skip
    assert rows[0].instrument == "flute, six keys"
    assert "low C pad, until Wed 10 Jun" in rows[1].says
    later = days.on("2026-06-11").bench_list()
    assert [(row.number, row.overdue) for row in later[:3]] == [("W-2", True), ("W-1", True), ("W-5", False)]
    desk.stop_waiting("W-1", "part", "came")
    assert {row.number: row.waits_for for row in desk.bench_list()}["W-1"] == "me"
    assert desk.book.case("W-1").waits[0].note == "low C pad; came"


def test_a_job_that_waits_for_two_things_tells_both(days: Days) -> None:
    desk = days.on("2026-06-01")
    number = desk.take_in("Crack").number
    desk.wait(number, "part", note="band")
    desk.wait(number, "owner", note="price")
    [row] = desk.bench_list()
    assert row.waits_for == "owner"
    assert "price" in row.says
    assert "part: band" in row.says


def test_the_cure_of_the_chosen_strategy_is_the_clock_of_its_glue(days: Days) -> None:
    """Its longest time, because what is called cured must be."""
    found = [
        (pack.id, id, wait)
        for pack in LIBRARY.families
        for id, strategy in pack.strategies.items()
        for wait in strategy.waits
        if wait.what == "cure" and wait.least < wait.most
    ]
    if not found:
        pytest.skip("no rule pack tells a cure from one time to another")
    family, strategy, wait = found[0]
    desk = days.on("2026-06-01", at="10:00")
    number = desk.take_in("Glued").number
    desk.add_damage(number, family, "here")
    desk.choose(number, 1, desk.look(number, 1).advice, strategy)
    kept = desk.wait(number, "glue", damage=1).waits[0]
    assert kept.ends is not None
    assert (kept.ends - desk.now).total_seconds() == float(wait.most) * 3600
    assert (
        f" cures {show_time_span(wait.least)} to {show_time_span(wait.most)}"
        in desk.waits_ahead(family, strategy)[0]
    )


def test_what_is_due_stands_in_the_list_from_its_first_day(days: Days) -> None:
    desk = days.on("2026-06-01")
    case = desk.quick_job("", "Pad torn", "torn", "New pad")
    assert days.on("2026-06-28").bench_list() == []
    [row] = days.on("2026-06-29").bench_list()
    assert (row.waits_for, row.number, row.damage, row.overdue) == ("due", case.number, 1, False)
    assert days.on("2026-07-14").bench_list()[0].overdue


@pytest.mark.parametrize(
    ("what", "told", "says"),
    [
        ("luck", {}, "say one of owner, part, wood, glue, me"),
        ("glue", {}, "say how many hours it cures"),
        ("glue", {"hours": -1}, "is no time to wait"),
        ("glue", {"hours": float("nan")}, "is no time to wait"),
        ("part", {"until": date(2026, 5, 1)}, "is past"),
        ("part", {"damage": 4}, "has no damage 4"),
    ],
)
def test_a_wait_that_cannot_be_is_refused_in_one_line(
    days: Days, what: str, told: dict[str, object], says: str
) -> None:
    desk = days.on("2026-06-01")
    number = desk.take_in("Crack").number
    with pytest.raises(NotPossible, match=says) as refused:
        desk.wait(number, what, **told)  # type: ignore[arg-type]
    assert "\n" not in str(refused.value)
    assert desk.book.case(number).waits == ()
    with pytest.raises(NotPossible, match="does not wait for owner"):
        desk.stop_waiting(number, "owner")


def test_a_repair_to_look_at_again_hurries_no_job(days: Days) -> None:
    """Even long overdue it stands below the jobs, and is marked late all the same."""
    autumn = days.on("2025-09-01")
    autumn.take_in("Shimmed", number="W-1")
    autumn.add_damage("W-1", "posts", "low F")
    autumn.record_work("W-1", 1, done="Shimmed.", repaired_on=date(2025, 9, 1))
    autumn.collected("W-1")
    summer = days.on("2026-07-01")
    summer.take_in("New", number="W-2")
    rows = summer.bench_list()
    assert [(row.number, row.waits_for, row.overdue) for row in rows] == [
        ("W-2", "me", False), ("W-1", "due", True),
    ]  # fmt: skip
