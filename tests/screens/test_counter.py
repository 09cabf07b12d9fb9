"""At the counter: from what it does by two quick tests to where to look, a quick job, or taking it in."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.records.book import Book
from tests.screens.hand import at_the_screens
from tests.screens.shop import TODAY, shop


def _desk(place: Path) -> Callable[[], Desk]:
    return lambda: Desk(Book.open(place), Library(), TODAY)


async def test_ten_minutes_at_the_counter(tmp_path: Path) -> None:
    """A sticking key: two quick tests lead to the screw; done, paid, and found by what one remembers of it."""
    async with at_the_screens(_desk(tmp_path / "book.db")) as hand:
        await hand.press("c")
        assert "What does it do?" in hand.sees()
        await hand.press("1", "1", "1")
        assert "Unhook the spring: does the key fall by its own weight?" in hand.reads()
        await hand.press("2", "3")
        assert "Back the rod or pivot screw off a quarter turn" in hand.reads()
        await hand.press("1")
        assert "+›Look at screws and pivots" in hand.sees()
        await hand.press("p", "j")
        await hand.type("card 7")
        await hand.press("enter", "enter", "enter")
        await hand.type("A flat pivot set and locked")
        await hand.press("enter")
        await hand.type("12.50")
        await hand.press("f2")
        assert hand.screen == "CasesScreen"
        asked = 9
        assert (
            hand.presses
            == asked + len("card 7") + 3 + len("A flat pivot set and locked") + 1 + len("12.50") + 1
        )
        book = hand.app.desk.book
        [row] = book.cases(10)
        case = book.case(row.number)
        assert (case.finished, case.visit.paid, case.owner) == (True, "12.50", "card 7")
        [damage] = case.damages
        assert damage.family == "screws_and_pivots"
        assert "free with the rod backed off: yes" in damage.story
        assert damage.repaired_on == TODAY
        await hand.press("slash")
        await hand.type("pivot locked sticks")
        assert row.number in hand.sees()


async def test_what_was_tested_at_the_counter_goes_with_it_when_it_is_taken_in(tmp_path: Path) -> None:
    """Its damage begins with the answers both kinds of look ask for, and the rest is told in words."""
    async with at_the_screens(_desk(tmp_path / "book.db")) as hand:
        await hand.press("c", "2", "1", "1", "1", "p")
        marked = hand.app.screen.query_one("#strategies").marked  # type: ignore[attr-defined]
        leads_to = hand.app.desk.library.guide("symptoms").strategies[marked].strategy.leads_to
        assert leads_to
        await hand.press("enter", "f2")
        assert hand.screen == "QuestionnaireScreen"
        [row] = hand.app.desk.on_the_bench()
        case = hand.app.desk.book.case(row.number)
        assert case.title == "A key comes up slowly"
        [damage] = case.damages
        assert damage.family == leads_to
        assert "falls without its spring: yes" in damage.story
        shared = {**case.answers, **damage.looks[-1].answers}
        known = hand.app.desk.library.guide(leads_to).questions
        assert ("key_falls_free" in shared) == ("key_falls_free" in known)
        await hand.press("escape", "escape")
        assert hand.screen == "CasesScreen"


async def test_a_quick_job_needs_what_was_done(tmp_path: Path) -> None:
    """One line names the field; an amount that is none stays, with everything else that was typed."""
    async with at_the_screens(_desk(tmp_path / "book.db")) as hand:
        await hand.press("c", "j", "enter")
        await hand.type("flute rattles")
        await hand.press("f2")
        assert "Done: wanted here" in hand.reads()
        await hand.type("Cork replaced")
        await hand.press("enter")
        await hand.type("some")
        await hand.press("f2")
        assert hand.screen == "Form"
        assert "is no amount" in hand.reads()
        assert hand.app.desk.book.cases(10) == []
        await hand.press(*["backspace"] * 4, "f2")
        [row] = hand.app.desk.book.cases(10)
        assert row.title == "flute rattles"


async def test_without_rules_for_symptoms_the_quick_job_comes_at_once(tmp_path: Path) -> None:
    """A shop with packs of its own alone still has its counter."""
    async with at_the_screens(shop(tmp_path / "book.db")) as hand:
        await hand.press("c")
        assert hand.screen == "Form"
        assert "A quick job" in hand.reads()


async def test_leaving_the_counter_keeps_nothing(tmp_path: Path) -> None:
    """Esc: nobody was taken in, so no case stands on the bench."""
    async with at_the_screens(_desk(tmp_path / "book.db")) as hand:
        await hand.press("c", "1", "1", "escape")
        assert hand.screen == "CasesScreen"
        assert hand.app.desk.book.cases(10) == []
