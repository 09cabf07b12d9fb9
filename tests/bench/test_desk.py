"""The desk and the look: every answer kept as it is given, and what follows from it at once."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.look import NotTaken
from casebook.records.book import Book
from casebook.records.case import FollowUp, Instrument

LIBRARY = Library()
TODAY = date(2026, 11, 25)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """Where the book lies."""
    return tmp_path / "book.db"


@pytest.fixture
def desk(place: Path) -> Iterator[Desk]:
    """A desk with one clarinet on it, one damaged post."""
    with Book.open(place) as book:
        desk = Desk(book, LIBRARY, TODAY)
        case = desk.take_in(
            "Low F post out", Instrument(kind="clarinet"), owner_words="It fell.", number="B-0001"
        )
        desk.add_damage(case.number, "posts", "low F key, lower post", "Torn out.")
        yield desk


def test_an_answer_is_kept_before_it_counts(desk: Desk, place: Path) -> None:
    """Another program that opens the book at once sees it: nothing waits for an orderly exit."""
    look = desk.look("B-0001", 1)
    look.answer("post_problem", "torn_out")
    look.answer("owner_aim", "play_daily")
    with Book.open(place) as other:
        case = other.case("B-0001")
    assert case.damages[0].looks[0].answers == {"post_problem": "torn_out"}
    assert case.answers == {"owner_aim": "play_daily"}


def test_an_answer_moves_standings_at_once(desk: Desk) -> None:
    """And the look says which."""
    look = desk.look("B-0001", 1)
    look.answer("post_problem", "misaligned_only")
    assert look.advice.first.id == "post_realign_pair"
    moved = {m.strategy: m.after for m in look.moved}
    assert moved["post_hidden_bushing"] == "ruled_out"
    assert moved["post_realign_pair"] == "fits"


def test_undo_goes_back_answer_by_answer(desk: Desk) -> None:
    """To what was there before, in the record too."""
    look = desk.look("B-0001", 1)
    look.answer("post_problem", "torn_out")
    look.answer("post_problem", "loose")
    assert look.undo() == "post_problem"
    assert look.answers["post_problem"] == "torn_out"
    assert look.undo() == "post_problem"
    assert look.undo() is None
    assert desk.book.case("B-0001").damages[0].looks[0].answers == {}


@pytest.mark.parametrize("typed", ["7 furlongs", "", "-3", "700", "#3 or so", "1,250 thou"])
def test_a_size_not_understood_changes_nothing(desk: Desk, typed: str) -> None:
    """One line says why; what was there stays."""
    look = desk.look("B-0001", 1)
    look.answer("flange_diameter", "7.0")
    with pytest.raises(NotTaken) as refused:
        look.answer("flange_diameter", typed)
    assert "\n" not in str(refused.value)
    assert look.answers["flange_diameter"] == "7.0 mm"


def test_a_bare_number_gets_the_shops_unit_in_the_record(desk: Desk) -> None:
    """So that it means the same when the shop changes its unit."""
    inches = Desk(desk.book, LIBRARY, TODAY, unit="thou")
    inches.look("B-0001", 1).answer("flange_diameter", "275")
    assert desk.book.case("B-0001").damages[0].looks[0].answers["flange_diameter"] == "275 thou"
    assert desk.look("B-0001", 1).shown("flange_diameter") == "275 thou"


def test_a_second_look_starts_from_what_is_still_true(desk: Desk) -> None:
    """Cleaning takes away the solder and what was judged under it; the rest is carried over, both looks stay."""
    look = desk.look("B-0001", 1)
    for question, answer in {
        "post_problem": "torn_out",
        "post_hole": "coned_out",
        "prior_solder": "soft_solder",
        "solder_where": {"all": ["on_shank", "in_wood"]},
        "flange_diameter": "7 mm",
        "hole_diameter_top": "5 mm",
    }.items():
        look.answer(question, answer)  # type: ignore[arg-type]
    assert look.advice.first.id == "post_clean_and_reassess"
    still = desk.still_true("B-0001", 1, "post_clean_and_reassess")
    assert still == {"post_problem": "torn_out", "flange_diameter": "7 mm"}
    desk.second_look("B-0001", 1, "cleaned the solder off", still)
    damage = desk.book.case("B-0001").damages[0]
    assert [len(one.answers) for one in damage.looks] == [6, 2]
    assert damage.looks[0].ended_by == "cleaned the solder off"
    assert desk.look("B-0001", 1).answers == still


def test_a_decision_keeps_the_advice_as_it_stood(desk: Desk) -> None:
    """Packs by digest with their text, program and settings; a later change of answers does not touch it."""
    look = desk.look("B-0001", 1)
    look.answer("post_problem", "misaligned_only")
    desk.choose("B-0001", 1, look.advice, "post_realign_pair", "Only the line is off.")
    look.answer("post_problem", "torn_out")
    choice = desk.book.case("B-0001").damages[0].choice
    assert choice is not None
    assert choice.on == TODAY
    assert choice.advice["settings"] == {"unit": "mm"}
    assert choice.advice["advice"]["strategies"][0]["id"] == "post_realign_pair"
    for pack in choice.advice["advice"]["packs"]:
        text = desk.book.pack_text(pack["digest"])
        assert text is not None
        assert f"pack: {pack['id']}" in text


def test_work_and_looks_after_it_are_kept(desk: Desk) -> None:
    """Steps, sizes as made, hours, the day; a follow-up without a day is today's."""
    desk.record_work("B-0001", 1, done="Turned and shimmed.", hours=0.5, repaired_on=TODAY)
    desk.follow_up("B-0001", 1, FollowUp("yes"))
    desk.finish("B-0001")
    case = desk.book.case("B-0001")
    assert case.finished
    assert case.damages[0].followups[0].looked == TODAY
    assert desk.on_the_bench() == []


def test_an_answer_the_packs_no_longer_know_is_left_out_and_kept(desk: Desk) -> None:
    """Old cases still read; the look says what it could not use, and why."""
    desk.book.save_answer("B-0001", 1, 1, "post_colour", "green")
    look = desk.look("B-0001", 1)
    assert look.advice.proposals
    assert "post_colour" in look.left_out
    assert desk.book.case("B-0001").damages[0].looks[0].answers == {"post_colour": "green"}
