"""Worksheets on the bench: filled from the answers, typed over, kept."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from casebook.bench.danger import cautions_of, dangers_of, read_before
from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.look import LookSession, NotTaken
from casebook.bench.sheet import filled, sheets_for
from casebook.records.book import Book
from casebook.records.case import Answer, Case, Damage, Look

ANSWERS: dict[str, Answer] = {
    "post_problem": "torn_out",
    "flange_seat": "recessed",
    "flange_diameter": "0.250 in",
    "hole_diameter_top": {"value": "4.9", "unit": "mm", "error": "0.05"},
    "body_diameter_here": "26 mm",
}


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    """A desk with one damage on it."""
    with Book.open(tmp_path / "book.db") as book:
        book.add(Case("B-1", damages=(Damage("posts", looks=(Look(ANSWERS),)),)))
        yield Desk(book, Library(), date(2026, 3, 9))


@pytest.fixture
def session(desk: Desk) -> LookSession:
    """The look at that damage."""
    return desk.look("B-1", 1)


def test_what_was_measured_is_taken_over_with_its_error_and_where_it_comes_from(session: LookSession) -> None:
    """A usual reading as typed, another with its error; a choice by the worksheet's own word."""
    sheet = filled("bushing", session, "mm")
    assert sheet.typed["flange"] == "0.250 in"
    assert sheet.typed["hole"] == "4.9 mm +- 0.05 mm"
    assert sheet.origin["flange"] == session.guide.questions["flange_diameter"].name
    assert filled("flange_seat", session, "mm").typed["seat"] == "recessed"


def test_the_worksheet_says_the_same_of_a_reading_as_the_guide_does(session: LookSession) -> None:
    """One home for a number: the finding and the sheet filled for it give the same bounds."""
    found = session.advice.state.found["post_bushing_hides"].figure
    result = filled("bushing", session, "mm").result
    assert found is not None
    assert result is not None
    figure = result.figures["outside_max"]
    assert (figure.low, figure.value, figure.high) == pytest.approx((found.low, found.value, found.high))


def test_typing_over_counts_at_once_and_what_cannot_be_used_leaves_the_result(session: LookSession) -> None:
    """The line names the input and what to type; the last good result stays."""
    sheet = filled("bushing", session, "mm")
    before = sheet.result
    tried = sheet.tried("hole", "4.9 ells")
    assert "no unit of length" in tried.problem
    assert before is not None
    assert tried.result is not None
    assert tried.result.figures == before.figures
    assert sheet.typed["hole"] == "4.9 mm +- 0.05 mm"
    sheet.put("hole", "5.5")
    assert not sheet.problem
    assert sheet.result is not None
    assert sheet.result.figures != before.figures
    assert "hole" not in sheet.origin
    sheet.put("hole", "")
    assert "hole" not in sheet.typed


def test_what_was_kept_opens_again_as_it_was_kept(desk: Desk, session: LookSession) -> None:
    """Kept inputs go before answers, and the same worksheet kept again replaces the first."""
    sheet = filled("bushing", session, "mm")
    desk.keep_figures("B-1", 1, sheet.used())
    sheet.put("hole", "5.5 mm")
    desk.keep_figures("B-1", 1, sheet.used())
    kept = desk.book.case("B-1").damage(1).figures
    assert [used.worksheet for used in kept] == ["bushing"]
    assert filled("bushing", session, "mm", kept).typed["hole"] == "5.5 mm"


def test_the_worksheets_of_the_chosen_strategy_come_first(session: LookSession) -> None:
    """And no worksheet stands twice, nor one that compares anything with anything."""
    names = sheets_for(session, "post_hidden_bushing")
    own = session.guide.strategies["post_hidden_bushing"].strategy.worksheets
    assert set(names[: len(own)]) == set(own)
    assert len(names) == len(set(names))
    assert "compare" not in names


def test_a_size_can_be_read_without_being_taken(desk: Desk, session: LookSession) -> None:
    """What is no size is refused as it would be when taken; nothing is kept either way."""
    assert float(session.read("hole_depth", "0.2 in").value) == pytest.approx(5.08)
    with pytest.raises(NotTaken, match="sensible"):
        session.read("hole_depth", "300 mm")
    assert desk.book.case("B-1").damage(1).looks[0].answers == ANSWERS


def test_a_strategy_brings_the_dangers_of_its_own_work_only(session: LookSession) -> None:
    """Dust comes with cutting wood; a plan that cuts none does not name it."""
    cuts = [id for id, ruled in session.guide.strategies.items() if "cuts_wood" in ruled.strategy.involves]
    spares = [id for id, ruled in session.guide.strategies.items() if not ruled.strategy.involves]
    named = {c.id for c in session.guide.packs[0].cautions.values() if c.involves == {"cuts_wood"}}
    assert cuts
    assert spares
    assert named
    for id in cuts:
        assert named <= {caution.id for caution in cautions_of(session.advice, id)}
    for id in spares:
        assert not named & {caution.id for caution in cautions_of(session.advice, id)}


def test_dangers_read_before_a_decision_are_kept_with_it(desk: Desk, session: LookSession) -> None:
    """Read once a case: they stand with the advice as it was given."""
    first = session.advice.first
    ids = {danger.id for danger in dangers_of(session.advice, first.id)}
    desk.choose("B-1", 1, session.advice, first.id, dangers_read=ids | {"one_more"})
    assert read_before(desk.book.case("B-1")) == ids | {"one_more"}
