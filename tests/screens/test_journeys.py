"""Whole journeys through the screens, each named by what somebody does."""

from __future__ import annotations

from pathlib import Path

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.records.book import Book
from tests.screens.hand import Hand, at_the_screens
from tests.screens.shop import CASES, TODAY, shop


async def _take_in_clarinet(hand: Hand) -> None:
    await hand.press("n")
    await hand.type("G sharp post torn out")
    await hand.press("enter", "2", "f2")
    await hand.press("1", "enter")
    await hand.type("G sharp key, upper post")
    await hand.press("f2")


async def test_a_clarinet_with_a_torn_out_post_from_the_counter_to_the_record(tmp_path: Path) -> None:
    """Taken in, looked at, decided, done, recorded, looked after, finished, and found again by its words."""
    place = tmp_path / "book.db"
    async with at_the_screens(shop(place)) as hand:
        await _take_in_clarinet(hand)
        assert hand.screen == "QuestionnaireScreen"
        desk = hand.app.desk
        [row] = desk.on_the_bench()
        answers = {
            "owner_consent": ["3"], "white_part": ["1"], "prior_solder": ["1"], "post_problem": ["2"],
            "post_hole": ["3", "enter"], "flange_diameter": "7.5 mm", "hole_diameter": "0.205 in",
        }  # fmt: skip
        while hand.app.screen.at.session.asked:  # type: ignore[attr-defined]
            keys = answers.pop(hand.app.screen.at.session.asked[0].question)  # type: ignore[attr-defined]
            if isinstance(keys, str):
                await hand.type(keys)
                keys = ["enter"]
            await hand.press(*keys)
        assert "Nothing more to ask" in hand.sees()
        await hand.press("enter")
        assert hand.screen == "ProposalsScreen"
        assert "Hidden threaded bushing" in hand.sees()
        await hand.press("enter", "r")
        assert "takes original material; get a yes first" in hand.reads()
        await hand.press("1", "f2", "f2")
        assert hand.screen == "WorkScreen"
        await hand.press("space", "space", "m")
        await hand.type("hole as cut")
        await hand.press("enter")
        await hand.type("5.45 mm")
        await hand.press("f2", "r")
        await hand.type("Bushed and sealed")
        await hand.press("tab")
        await hand.type("90 min")
        await hand.press("f2", "l", "1", "f2", "x")
        assert hand.presses < 160
        case = desk.book.case(row.number)
        [damage] = case.damages
        assert case.finished
        assert case.instrument.kind == "clarinet"
        assert damage.looks[0].answers["hole_diameter"] == "0.205 in"
        assert damage.choice is not None
        assert damage.choice.strategy == "hidden_bushing"
        assert damage.choice.advice["dangers_read"] == ["caution_wood_dust"]
        assert [step.text for step in damage.steps] == list(
            desk.library.guide("posts").strategies["hidden_bushing"].strategy.steps[:2]
        )
        assert damage.measured[0].value == "5.45 mm"
        assert (damage.done, damage.hours, damage.repaired_on) == ("Bushed and sealed", 1.5, TODAY)
        assert damage.followups[0].held == "yes"
        await hand.press("slash")
        await hand.type("torn bushed")
        assert row.number in hand.sees()
        await hand.press("enter")
        assert hand.screen == "CaseScreen"
        assert "looked after" in hand.sees()


async def test_a_second_look_after_cleaning_asks_anew_what_the_solder_hid(tmp_path: Path) -> None:
    """What was judged under the solder is asked again, the rest is carried over, and the first look is kept."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        desk = hand.app.desk
        await hand.press("enter", "1", "p")
        assert hand.screen == "ProposalsScreen"
        await hand.press("enter")
        assert "Old soft solder holds lead" in hand.sees()
        await hand.press("r", "f2")
        assert hand.screen == "WorkScreen"
        await hand.press("space", "space", "space", "o")
        assert hand.screen == "SecondLookScreen"
        assert "hole in the body: Enlarged or oval" in hand.sees()
        await hand.press("enter")
        assert hand.screen == "QuestionnaireScreen"
        assert "second look" in hand.sees()
        first, second = desk.book.case("B-0303").damages[0].looks
        assert first.ended_by == "Clean out the solder, then judge again"
        assert first.answers["prior_solder"] == "soft_solder"
        assert second.answers == {"post_problem": "torn_out"}
        await hand.press("1")
        assert desk.book.case("B-0303").damages[0].looks[1].answers["prior_solder"] == "no_solder"
        assert "First look: Enlarged or oval" in hand.sees()


async def test_what_was_answered_is_there_after_the_window_was_closed(tmp_path: Path) -> None:
    """Nothing waits for a save: a book opened by somebody else at once has every answer and every correction."""
    place = tmp_path / "book.db"
    async with at_the_screens(shop(place, *CASES)) as hand:
        await hand.press("down", "enter", "2")
        assert hand.screen == "QuestionnaireScreen"
        await hand.press("1", "2")
        with Book.open(place) as other:
            assert other.case("B-0302").damages[1].looks[0].answers == {
                "prior_solder": "no_solder",
                "post_problem": "torn_out",
            }
    async with at_the_screens(shop(place)) as hand:
        await hand.press("down", "enter", "2", "g")
        assert "Torn out, post is here" in hand.sees()


async def test_every_shipped_family_can_be_looked_at_until_something_is_proposed(tmp_path: Path) -> None:
    """With the rule packs as they ship, the first answer to every question leads somewhere, and no screen fails."""

    def open_desk() -> Desk:
        return Desk(Book.open(tmp_path / "book.db"), Library(), TODAY)

    async with at_the_screens(open_desk) as hand:
        await hand.press("n")
        await hand.type("everything")
        await hand.press("enter", "4", "f2", "escape")
        [row] = hand.app.desk.on_the_bench()
        for pack in hand.app.desk.library.families:
            number = hand.app.desk.add_damage(row.number, pack.id, pack.title)
            hand.app.open_damage(row.number, number)
            await hand.settle()
            at = hand.app.screen.at  # type: ignore[attr-defined]
            for _ in range(80):
                question = at.next_question()
                if question is None:
                    break
                kind = at.session.guide.questions[question].kind
                keys = (
                    ["0"] if kind in ("length", "count") else ["1", "enter"] if kind == "several" else ["1"]
                )
                await hand.press(*(["ctrl+n"] if keys == ["0"] else keys))
            assert at.next_question() is None, pack.id
            await hand.press("p")
            assert hand.screen == "ProposalsScreen", pack.id
            await hand.press("escape", "escape")
