"""The telephone: from the ringing to a price that is read out, and what the owner says to it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.shop import Money, Price, Shop
from casebook.records.case import Case, Damage, FollowUp, Look
from casebook.records.workshop import Consent
from casebook.screens.app import CasebookApp
from tests.screens.hand import Hand, at_the_screens, settle
from tests.screens.shop import CASES, TODAY, frozen_library, shop

MONEY = Money(currency="EUR", rate=60.0, once=(1.0, 1.0, 1.0), looking=25.0)
# A case with the same damage three times: once agreed up to too little, once put off, once declined.
_POST = Damage("posts", place="G sharp key, upper post", looks=(Look({"post_problem": "torn_out"}),))
ASKED = replace(
    CASES[1],
    damages=(
        replace(_POST, consents=(Consent("yes", date(2026, 3, 3), "the owner", "by telephone", "20"),)),
        replace(_POST, place="low C key", consents=(Consent("later", date(2026, 3, 3), "the owner"),)),
        replace(_POST, place="trill key", consents=(Consent("no", date(2026, 3, 3), "the owner"),)),
    ),
)


def _shop(place: Path, money: Money, *cases: Case) -> Callable[[], Desk]:
    opens = shop(place, *cases)

    def open_desk() -> Desk:
        desk = opens()
        return Desk(desk.book, desk.library, desk.today, shop=Shop(money=money))

    return open_desk


async def _ring(hand: Hand) -> None:
    hand.app.phone_call()
    await hand.settle()


async def _open(hand: Hand, number: str) -> None:
    hand.app.phone(number)
    await hand.settle()


async def test_three_damages_and_a_price_while_somebody_is_on_the_line(tmp_path: Path) -> None:
    """From the ringing to the sentence read out; the keys that are not words are few."""
    words = "I heard it go, [b]twice[/b]."
    async with at_the_screens(_shop(tmp_path / "book.db", MONEY)) as hand:
        book = hand.app.desk.book
        await _ring(hand)
        await hand.type("card 9")
        await hand.press("enter", "2", "enter", "1", "enter")
        await hand.type("low E")
        await hand.press("enter")
        await hand.type(words)
        await hand.press("enter")
        assert hand.screen == "PhoneScreen"
        first = hand.reads()
        assert "Unseen, between " in first
        assert "Looking costs 25 EUR and comes off the bill." in first
        for place in ("low F", "trill key"):
            await hand.press("n", "1", "enter")
            await hand.type(place)
            await hand.press("f2")
            assert hand.screen == "PhoneScreen"
        letters = sum(map(len, ("card 9", "low E", words, "low F", "trill key")))
        assert hand.presses - letters <= 15
        assert hand.reads() != first
        [row] = hand.app.desk.on_the_bench()
        case = book.case(row.number)
        assert [damage.place for damage in case.damages] == ["low E", "low F", "trill key"]
        assert case.owner_words == words
        assert (case.owner, case.instrument.kind) == ("card 9", "clarinet")
        await hand.press("escape")
        assert hand.screen == "CaseScreen"
        assert "told by telephone, not here yet" in hand.reads()
        await hand.press("escape")
        assert hand.screen == "CasesScreen"


async def test_what_can_wait_leaves_the_price_and_is_turned_back(tmp_path: Path) -> None:
    """must, should, can wait: one key turns, the mark stays on the damage, and the sum follows at once."""
    two = replace(ASKED, damages=(_POST, replace(_POST, place="low C key")))
    async with at_the_screens(_shop(tmp_path / "book.db", MONEY, two)) as hand:
        await _open(hand, "B-0302")
        both = _sentence(hand)
        await hand.press("u")
        assert "- can wait G sharp key" in hand.sees()
        one = _sentence(hand)
        assert one != both
        assert "why can wait: as you said" in hand.reads()
        await hand.press("u")
        assert "! must" in hand.sees()
        assert _sentence(hand) == both
        await hand.press("u", "u", "up", "u")
        assert "Nothing of it needs doing now." in hand.sees()
        await hand.press("escape")
        await _open(hand, "B-0302")
        assert "Nothing of it needs doing now." in hand.sees()


async def test_taking_down_is_in_the_price_once(tmp_path: Path) -> None:
    """A flat price for each of two damages, and the hour once: 25 and 25 and 60."""
    flat = replace(MONEY, prices=(Price("post work", 25, tuple(frozen_library().guide("posts").strategies)),))
    two = replace(ASKED, damages=(_POST, replace(_POST, place="low C key")))
    async with at_the_screens(_shop(tmp_path / "book.db", flat, two)) as hand:
        await _open(hand, "B-0302")
        assert "between 110 EUR and 110 EUR" in hand.reads()
        assert "1 h once for keys off, on, regulating and play testing" in hand.reads()
        assert "flat 25" in hand.sees()
        await hand.press("m")
        await hand.type("a lot")
        await hand.press("f2")
        assert "'a lot' is no amount" in hand.reads()
        assert "materials_price" not in hand.reads()
        await hand.press(*["backspace"] * 5)
        await hand.type("12,50 EUR")
        await hand.press("f2")
        assert "between 120 EUR and 125 EUR" in hand.reads()
        assert "materials 12.50 EUR" in hand.reads()


async def test_more_than_agreed_is_said_and_the_declined_is_named(tmp_path: Path) -> None:
    """What was put off can wait, what was declined stands apart, what is over the limit says to ring."""
    async with at_the_screens(_shop(tmp_path / "book.db", MONEY, ASKED)) as hand:
        await _open(hand, "B-0302")
        told = hand.reads()
        assert "is more than was agreed (20): ring before you pass it" in told
        assert "trill key: advised repair, declined by the owner on 2026-03-03" in told
        assert "trill key" not in hand.sees().partition("x damage 3")[0]
        await hand.press("down")
        assert "can wait: put off by the owner on 2026-03-03" in hand.reads()


async def test_what_they_say_is_kept_and_reckoned_at_once(tmp_path: Path) -> None:
    """No: the damage leaves the price and is kept as declined. Its questions are a key away."""
    one = replace(ASKED, damages=(_POST,))
    async with at_the_screens(_shop(tmp_path / "book.db", MONEY, one)) as hand:
        await _open(hand, "B-0302")
        await hand.press("1")
        assert hand.screen == "QuestionnaireScreen"
        await hand.press("escape")
        assert hand.screen == "PhoneScreen"
        await hand.press("k", "2", "enter")
        await hand.type("the owner")
        await hand.press("f2")
        assert hand.screen == "PhoneScreen"
        assert "Nothing is left to be quoted." in hand.reads()
        assert "declined by the owner" in hand.reads()
        assert hand.app.desk.book.case("B-0302").damages[0].consents[-1].said == "no"
        await hand.press("u", "k", "enter")
        assert hand.screen == "PhoneScreen"


async def test_without_a_rate_the_hours_still_stand_there(tmp_path: Path) -> None:
    """One line says what to set and where; no price is guessed."""
    two = replace(ASKED, damages=(_POST,))
    async with at_the_screens(_shop(tmp_path / "book.db", Money(), two)) as hand:
        await _open(hand, "B-0302")
        assert "no hourly rate is set: s opens the shop's settings" in hand.reads()
        assert " h, likely " in hand.reads()
        assert "between" not in hand.reads()
        await hand.press("s")
        assert hand.screen == "ShopScreen"
        await hand.press("escape")
        assert hand.screen == "PhoneScreen"


async def test_the_shops_own_past_is_said_in_counts(tmp_path: Path) -> None:
    """Beside the hours of the book; one let go by itself."""
    chosen = replace(ASKED, damages=(replace(_POST, choice=CASES[0].damages[0].choice),))
    held = replace(CASES[0].damages[0], followups=(FollowUp("yes", date(2026, 2, 9)),))
    past = (CASES[0], replace(CASES[0], number="B-0299", damages=(held,)))
    async with at_the_screens(_shop(tmp_path / "book.db", MONEY, *past, chosen)) as hand:
        await _open(hand, "B-0302")
        assert "2 done, 2 seen, 1 holding, 1 let go by itself; 2 with hours: 1.4, 1.4 h" in hand.reads()


async def test_with_every_family_that_ships_the_form_stands_whole_in_a_small_terminal(tmp_path: Path) -> None:
    """Somebody on the line sees all of it at once, and the key that keeps it."""
    opens = shop(tmp_path / "book.db")
    async with at_the_screens(lambda: Desk(opens().book, Library(), TODAY)) as hand:
        await _ring(hand)
        for shown in ("Who calls", "Tone holes", "Where", "They say", "F2 keep"):
            assert shown in hand.sees()


async def test_a_form_left_half_typed_loses_nothing_unasked(tmp_path: Path) -> None:
    """The family is wanted; Esc asks once; nothing is kept of a call that was no call."""
    async with at_the_screens(_shop(tmp_path / "book.db", MONEY)) as hand:
        await _ring(hand)
        await hand.press("f2")
        assert "What is wrong: wanted here" in hand.reads()
        await hand.press("1", "escape")
        assert "Esc once more throws it away" in hand.reads()
        await hand.press("escape")
        assert hand.screen == "CasesScreen"
        assert hand.app.desk.book.count() == 0


async def test_a_case_nobody_knows_is_one_line(tmp_path: Path) -> None:
    async with at_the_screens(_shop(tmp_path / "book.db", MONEY)) as hand:
        await _open(hand, "B-0999")
        assert "there is no case B-0999" in hand.reads()
        await hand.press("enter")
        assert hand.screen == "CasesScreen"


def _sentence(hand: Hand) -> str:
    return str(hand.app.screen.query_one("#say").render())


PICTURES: dict[str, tuple[Money, tuple[str, ...]]] = {
    "price": (MONEY, ()),
    "put_off": (MONEY, ("down",)),
    "no_rate": (Money(), ()),
    "tax_and_materials": (replace(MONEY, tax=19), ("m", "1", "2", "f2")),
    "materials_form": (MONEY, ("m",)),
    "consent": (MONEY, ("k",)),
}


def _at(keys: tuple[str, ...], number: str = "") -> Callable[[Any], Any]:
    async def go(pilot: Any) -> None:
        hand = Hand(pilot, pilot.app)
        await settle(pilot)
        await (_open(hand, number) if number else _ring(hand))
        await hand.press(*keys)

    return go


@pytest.mark.parametrize("name", PICTURES)
def test_picture_on_the_telephone(snap_compare: Callable[..., bool], tmp_path: Path, name: str) -> None:
    """The screen as it looked when somebody last looked at it."""
    money, keys = PICTURES[name]
    app = CasebookApp(_shop(tmp_path / "book.db", money, *CASES[:1], ASKED))
    assert snap_compare(app, terminal_size=(80, 24), run_before=_at(keys, "B-0302"))


def test_picture_in_a_large_terminal(snap_compare: Callable[..., bool], tmp_path: Path) -> None:
    app = CasebookApp(_shop(tmp_path / "book.db", MONEY, *CASES[:1], ASKED))
    assert snap_compare(app, terminal_size=(120, 40), run_before=_at((), "B-0302"))


def test_picture_of_the_call(snap_compare: Callable[..., bool], tmp_path: Path) -> None:
    app = CasebookApp(_shop(tmp_path / "book.db", MONEY))
    assert snap_compare(app, terminal_size=(80, 24), run_before=_at(()))
