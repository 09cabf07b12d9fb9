"""What is due to be looked at, and what ends the looking."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from casebook.bench.at_desk import NotPossible
from tests.bench.shop_days import Days


@pytest.fixture
def case(days: Days) -> str:
    """A repair finished on the 1st of September."""
    return (
        days.on("2025-09-01").quick_job("card 1", "Pad, torn; low D", "torn", "New pad", place="low D").number
    )


@pytest.mark.parametrize(
    ("day", "why", "since", "until", "overdue"),
    [
        ("2025-09-02", "after 4 to 6 weeks", "2025-09-29", "2025-10-13", False),
        ("2025-10-13", "after 4 to 6 weeks", "2025-09-29", "2025-10-13", False),
        ("2025-10-14", "after 4 to 6 weeks", "2025-09-29", "2025-10-13", True),
        ("2026-04-15", "after a heating season", "2026-04-15", "2026-05-13", False),
        ("2026-05-14", "after a heating season", "2026-04-15", "2026-05-13", True),
    ],
)
def test_a_repair_is_looked_at_after_weeks_and_after_a_heating_season(
    days: Days, case: str, day: str, why: str, since: str, until: str, overdue: bool
) -> None:
    """Common practice, no source."""
    [due] = days.on(day).due()
    assert (due.case, due.why, str(due.since), str(due.until), due.overdue) == (
        case,
        why,
        since,
        until,
        overdue,
    )


def test_a_look_too_early_is_none_a_seen_one_counts_by_phone_too(days: Days, case: str) -> None:
    days.on("2025-09-10").turned_out(case, 1, "holding")
    assert days.on("2025-10-01").due()[0].why == "after 4 to 6 weeks"
    days.on("2025-10-01").turned_out(case, 1, "not_seen")
    assert days.on("2025-10-01").due()[0].why == "after 4 to 6 weeks"
    days.on("2025-10-01").turned_out(case, 1, "holding", by_phone=True)
    assert days.on("2025-10-01").due()[0].why == "after a heating season"
    days.on("2026-04-20").turned_out(case, 1, "holding")
    assert days.on("2026-04-20").due() == []


@pytest.mark.parametrize("kind", ["let_go", "knocked_again", "altered_by_others", "new_fault_elsewhere"])
def test_what_ends_the_observation_ends_the_looks(days: Days, case: str, kind: str) -> None:
    """And only what let go by itself counts against the repair."""
    days.on("2025-10-01").turned_out(case, 1, kind)
    assert days.on("2026-05-01").due() == []
    outcome = days.book.case(case).damages[0].outcome
    assert outcome is not None
    assert outcome.against == (kind == "let_go")
    assert outcome.ends_observation


def test_little_of_a_season_tells_nothing(days: Days) -> None:
    """Repaired in March it waits for the April of the year after; the day is the shop's own."""
    desk = days.on("2026-03-01")
    case = desk.quick_job("", "Crack", "crack", "Glued")
    later = days.on("2026-05-01")
    later.turned_out(case.number, 1, "holding", looked=date(2026, 4, 20))
    assert later.due()[0].since == date(2027, 4, 15)
    later.season_end = (5, 31)
    assert later.due()[0].since == date(2026, 5, 31)


def test_the_calendar_names_no_owner_and_needs_something_due(days: Days, case: str) -> None:
    stamp = datetime(2026, 5, 1, 9, 0, tzinfo=UTC)
    text = days.on("2025-09-02").due_calendar(stamp)
    assert f"SUMMARY:Look at {case}: Pad\\, torn\\; low D\r\n" in text
    assert "card 1" not in text
    days.on("2025-10-01").turned_out(case, 1, "let_go")
    with pytest.raises(NotPossible, match="no calendar to write"):
        days.on("2025-10-02").due_calendar(stamp)


def test_an_unknown_outcome_is_refused(days: Days, case: str) -> None:
    with pytest.raises(NotPossible, match="say one of holding, let_go"):
        days.on("2025-10-01").turned_out(case, 1, "fine")
    with pytest.raises(NotPossible, match="still to come"):
        days.on("2025-10-01").turned_out(case, 1, "holding", looked=date(2025, 10, 2))
