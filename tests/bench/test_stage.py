"""How far a damage has come, and what a case waits for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.stage import bench_rows, ends_look, looks_again, stage_of, waits_for
from casebook.records.book import Book
from casebook.records.case import Case, Choice, Damage, FollowUp, Look

LIBRARY = Library()
NEW = Damage("posts", number=1)
SEEN = replace(NEW, looks=(Look({"post_problem": "loose"}),))
DECIDED = replace(SEEN, choice=Choice("post_refit_as_is"))
DONE = replace(DECIDED, done="Refitted.")
HELD = replace(DONE, followups=(FollowUp("yes"),))
CLEANING = replace(SEEN, choice=Choice("post_clean_and_reassess"))
AGAIN = replace(
    CLEANING,
    looks=(replace(SEEN.looks[0], ended_by="Clean out solder, glue or filler, then judge again"), Look()),
)


@pytest.mark.parametrize(
    ("damage", "stage"),
    [
        (NEW, "taken in"),
        (SEEN, "looked at"),
        (DECIDED, "decided"),
        (DONE, "done"),
        (HELD, "looked after"),
        (CLEANING, "decided"),
        (AGAIN, "looked at"),
        (replace(DECIDED, choice=Choice("a_strategy_of_long_ago")), "decided"),
        (replace(DECIDED, family="a_family_of_long_ago"), "decided"),
    ],
)
def test_a_damage_stands_where_the_last_thing_done_to_it_put_it(damage: Damage, stage: str) -> None:
    """A second look after the cleaning is looking again; what the packs have lost still has its stage."""
    assert stage_of(LIBRARY, damage) == stage


def test_only_work_that_changes_what_is_seen_ends_a_look() -> None:
    """Cleaning does, refitting does not; once the next look has begun it is not offered again."""
    assert ends_look(LIBRARY, CLEANING)
    assert not ends_look(LIBRARY, DECIDED)
    assert not looks_again(LIBRARY, CLEANING)
    assert looks_again(LIBRARY, AGAIN)


@pytest.mark.parametrize(
    ("damages", "words"),
    [
        ((), "a damage"),
        ((NEW,), "a look"),
        ((NEW, SEEN), "look, 1 of 2"),
        ((SEEN,), "decision"),
        ((DECIDED, SEEN, DONE), "decision, 1 of 3"),
        ((DECIDED, DONE), "work, 1 of 2"),
        ((DONE, HELD), "handing back"),
    ],
)
def test_a_case_waits_for_the_damage_that_is_furthest_behind(damages: tuple[Damage, ...], words: str) -> None:
    """In a few words, with how many of how many."""
    assert waits_for(LIBRARY, Case(damages=damages)) == words


def test_the_bench_lists_open_cases_with_what_they_wait_for_the_latest_first(tmp_path: Path) -> None:
    """Finished ones stand only where they are asked for."""
    with Book.open(tmp_path / "book.db") as book:
        book.add(Case("B-1", "old", date(2026, 1, 1), damages=(replace(NEW, number=0),)))
        book.add(Case("B-2", "new", date(2026, 3, 1)))
        book.add(Case("B-3", "over", date(2026, 2, 1), finished=True))
        desk = Desk(book, LIBRARY, date(2026, 3, 9))
        assert [(row.number, row.waits_for) for row in bench_rows(desk)] == [
            ("B-2", "a damage"),
            ("B-1", "a look"),
        ]
        everything = [(row.number, row.waits_for) for row in bench_rows(desk, None)]
        assert everything[1] == ("B-3", "finished")
