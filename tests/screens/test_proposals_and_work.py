"""Choosing, dangers before a plan, and the work."""

from __future__ import annotations

from pathlib import Path

from tests.screens.hand import at_the_screens
from tests.screens.shop import CASES, TODAY, shop


async def test_a_plan_opens_only_after_its_dangers_were_read_and_only_once_a_case(tmp_path: Path) -> None:
    """Esc leaves the danger unread and nothing chosen; after reading it, it is not asked again, nor after a restart."""
    place = tmp_path / "book.db"
    async with at_the_screens(shop(place, *CASES)) as hand:
        book = hand.app.desk.book
        await hand.press("down", "enter", "1", "p", "enter")
        assert hand.screen == "Dangers"
        assert "Wood dust harms skin and lungs" in hand.sees()
        await hand.press("escape")
        assert book.case("B-0302").damages[0].choice is None
        await hand.press("enter", "r", "f2")
        assert book.case("B-0302").damages[0].choice is not None
        await hand.press("p", "enter")
        assert hand.screen == "Form"
    async with at_the_screens(shop(place)) as hand:
        await hand.press("down", "enter", "1", "p", "enter")
        assert hand.screen == "Form"


async def test_another_than_the_first_wants_a_reason(tmp_path: Path) -> None:
    """Without a reason the form stays; with one it is kept beside the choice."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        book = hand.app.desk.book
        await hand.press("down", "enter", "1", "p", "down", "enter", "f2")
        assert hand.screen == "Form"
        assert "wanted here" in hand.sees()
        await hand.type("the owner insists")
        await hand.press("f2")
        choice = book.case("B-0302").damages[0].choice
        assert choice is not None
        assert (choice.strategy, choice.reason) == ("refit_as_is", "the owner insists")
        assert choice.advice["advice"]["strategies"][0]["id"] == "hidden_bushing"


async def test_a_proposal_leads_to_the_question_it_waits_for(tmp_path: Path) -> None:
    """g on an open strategy asks what it waits for."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("enter", "1", "p", "down", "g")
        assert hand.screen == "QuestionnaireScreen"
        assert (
            "Diameter of the flange?" in hand.sees()
            or "Hole diameter" in hand.sees()
            or "hole" in hand.sees()
        )


async def test_a_tick_can_be_taken_away_and_a_step_of_ones_own_is_added(tmp_path: Path) -> None:
    """Space ticks and unticks; a writes down what was done besides, with initials, hours and day."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        book = hand.app.desk.book
        await hand.press("down", "enter", "1", "p", "enter", "r", "f2")
        await hand.press("space")
        assert len(book.case("B-0302").damages[0].steps) == 1
        await hand.press("up", "space")
        assert book.case("B-0302").damages[0].steps == ()
        await hand.press("a")
        await hand.type("Used a reamer")
        await hand.press("enter")
        await hand.type("JV")
        await hand.press("enter")
        await hand.type("1:30")
        await hand.press("f2")
        [step] = book.case("B-0302").damages[0].steps
        assert (step.text, step.by, step.hours, step.done_on) == ("Used a reamer", "JV", 1.5, TODAY)
        assert "[x] Used a reamer" in hand.sees()


async def test_hours_typed_wrong_keep_the_form_and_all_that_is_in_it(tmp_path: Path) -> None:
    """One line says how hours are typed; the words already typed are still there and are kept in the end."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        book = hand.app.desk.book
        await hand.press("down", "enter", "1", "p", "enter", "r", "f2", "r")
        await hand.type("Bushed")
        await hand.press("tab")
        await hand.type("soon")
        await hand.press("f2")
        assert "is no number of hours: type 1.5, 90 min or 1:30" in hand.sees()
        await hand.press(*["backspace"] * 4)
        await hand.type("2")
        await hand.press("f2")
        damage = book.case("B-0302").damages[0]
        assert (damage.done, damage.hours) == ("Bushed", 2.0)


async def test_a_form_is_left_without_keeping_only_when_asked_twice(tmp_path: Path) -> None:
    """The first Esc says that it is not kept yet; the second throws it away."""
    async with at_the_screens(shop(tmp_path / "book.db")) as hand:
        await hand.press("n")
        await hand.type("half a thought")
        await hand.press("escape")
        assert "Not kept yet" in hand.sees()
        await hand.press("escape")
        assert hand.screen == "CasesScreen"
        assert hand.app.desk.on_the_bench() == []
