"""A yes before the plan opens, dangers read once a case, and who pays."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tests.screens.hand import Hand, at_the_screens
from tests.screens.shop import CASES, TODAY, shop

_ASKED = replace(CASES[1], damages=(replace(CASES[1].damages[0], consents=()),))


async def _to_the_question(hand: Hand) -> None:
    await hand.press("enter", "1", "p", "enter", "r")
    assert hand.screen == "Form"
    assert "takes original material; get a yes first" in hand.reads()


async def test_a_no_is_kept_as_declined_and_the_plan_stays_shut(tmp_path: Path) -> None:
    """Nothing is chosen, the no stays with who said it; asked again, the next answer is kept after it."""
    async with at_the_screens(shop(tmp_path / "book.db", _ASKED)) as hand:
        book = hand.app.desk.book
        await _to_the_question(hand)
        await hand.press("f2")
        assert "They said: wanted here" in hand.reads()
        await hand.press("2", "enter")
        await hand.type("the owner")
        await hand.press("enter", "1", "f2")
        assert hand.screen == "ProposalsScreen"
        damage = book.case("B-0302").damages[0]
        assert damage.choice is None
        [said] = damage.consents
        assert (said.said, said.who, said.how, said.to_what, said.given_on) == (
            "no", "the owner", "by telephone", "hidden_bushing", TODAY,
        )  # fmt: skip
        assert hand.app.desk.declined("B-0302")
        await hand.press("enter")
        assert "advised, declined by the owner" in hand.reads()
        await hand.press("1", "f2")
        assert hand.screen == "Form"
        assert "Choose it" in hand.reads()
        await hand.press("f2")
        assert hand.screen == "WorkScreen"
        assert [one.said for one in book.case("B-0302").damages[0].consents] == ["no", "yes"]


async def test_under_a_sellers_guarantee_the_yes_must_be_the_sellers(tmp_path: Path) -> None:
    """Who pays brings its caution at once; a yes of the owner alone keeps the plan shut, the seller's opens it."""
    async with at_the_screens(shop(tmp_path / "book.db", _ASKED)) as hand:
        await _to_the_question(hand)
        await hand.press("1", "enter")
        await hand.type("the owner")
        await hand.press("enter", "2", "enter", "tab", "4", "f2")
        assert "do nothing before the seller agrees" in hand.reads()
        while hand.screen == "Mind":
            await hand.press("enter")
        assert "is not the seller's" in hand.reads()
        await hand.press("1", "enter")
        await hand.press(*["backspace"] * len("the owner"))
        await hand.type("the seller")
        await hand.press("f2")
        while hand.screen == "Mind":
            await hand.press("enter")
        assert "Choose it" in hand.reads()


async def test_an_amount_that_is_none_stays_in_its_field(tmp_path: Path) -> None:
    """One line says what is wrong, nothing is kept yet; put right, it is kept."""
    async with at_the_screens(shop(tmp_path / "book.db", _ASKED)) as hand:
        await _to_the_question(hand)
        await hand.press("1", "enter", "enter", "enter")
        await hand.type("a lot")
        await hand.press("f2")
        assert hand.screen == "Form"
        assert "a lot" in hand.reads() or "a lot" in hand.sees()
        assert hand.app.desk.book.case("B-0302").damages[0].consents == ()
        await hand.press(*["backspace"] * 5)
        await hand.type("80")
        await hand.press("f2")
        assert hand.app.desk.book.case("B-0302").damages[0].consents[0].up_to == "80"


async def test_a_danger_confirmed_on_the_case_is_not_asked_again_on_its_other_damage(tmp_path: Path) -> None:
    """It is kept with day and case, whichever damage it was read for, also when nothing was chosen then."""
    two = replace(CASES[1], damages=(CASES[1].damages[0], CASES[1].damages[0]))
    async with at_the_screens(shop(tmp_path / "book.db", two)) as hand:
        await hand.press("enter", "1", "p", "enter")
        assert hand.screen == "Dangers"
        await hand.press("r", "escape", "escape", "escape")
        [confirmed] = hand.app.desk.book.case("B-0302").confirmed
        assert (confirmed.caution, confirmed.confirmed_on) == ("caution_wood_dust", TODAY)
        await hand.press("2", "p", "enter")
        assert hand.screen == "Form"
