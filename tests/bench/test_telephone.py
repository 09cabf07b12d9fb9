"""What somebody tells by telephone."""

from __future__ import annotations

from datetime import date

import pytest

from casebook.bench.taking_in import KIND
from casebook.bench.telephone import told_by_telephone
from tests.bench.shop_days import Days

TOLD = {
    "who": "card 9",
    "kind": "clarinet",
    "family": "posts",
    "place": "low E key",
    "words": "It fell,\nagain.",
}


def test_what_is_told_is_a_case_that_waits_for_its_owner(days: Days) -> None:
    """Their words as they were said, the damage, and a job that waits for whoever brings it."""
    desk = days.on("2026-04-07")
    case = told_by_telephone(desk, TOLD)
    assert case.title == "Posts, low E key"
    assert (case.owner, case.owner_words, case.answers) == ("card 9", "It fell,\nagain.", {KIND: "clarinet"})
    assert [(damage.family, damage.place) for damage in case.damages] == [("posts", "low E key")]
    assert desk.look(case.number, 1).answers == {KIND: "clarinet"}
    [row] = desk.bench_list()
    assert (row.waits_for, row.day) == ("owner", date(2026, 4, 14))
    assert "told by telephone, not here yet" in row.says
    desk.stop_waiting(case.number, "owner", "brought in")
    assert desk.bench_list()[0].waits_for == "me"


@pytest.mark.parametrize(
    ("told", "title"),
    [
        ({}, "Posts, low E key"),
        ({"place": ""}, "Posts: It fell, again."),
        ({"place": "", "words": " "}, "Posts"),
        ({"family": "symptoms"}, "low E key: It fell, again."),
        ({"family": "symptoms", "place": ""}, "It fell, again."),
        ({"family": "symptoms", "place": "", "words": ""}, "From the symptom"),
        ({"place": "", "words": "word " * 30}, f"Posts: {' '.join(['word'] * 12)} ..."),
        ({"place": "", "words": "x" * 100}, f"Posts: {'x' * 60} ..."),
    ],
)
def test_its_title_says_what_is_wrong_and_where(days: Days, told: dict[str, str], title: str) -> None:
    assert told_by_telephone(days.on("2026-04-07"), TOLD | told).title == title


def test_a_family_without_rules_is_refused_and_nothing_is_kept(days: Days) -> None:
    desk = days.on("2026-04-07")
    with pytest.raises(KeyError, match="no rule pack"):
        told_by_telephone(desk, TOLD | {"family": "magic"})
    assert desk.book.count() == 0
