"""Known instruments: found by typing, their page, and a visit that starts from what is known."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from casebook.records.case import Case, Choice, Damage, FollowUp, Instrument, Look
from casebook.records.workshop import Consent, Visit
from casebook.screens.app import CasebookApp
from tests.screens.hand import Hand, at_the_screens, settle
from tests.screens.shop import CASES, TODAY, shop

UID = "ab" * 16
_THING = replace(CASES[0].instrument, uid=UID, marks="No. 7")
FIRST = replace(CASES[0], instrument=_THING, visit=Visit(collected_on=date(2025, 11, 8)))
SECOND = Case(
    "B-0310",
    "Tenon cork gone",
    date(2026, 2, 9),
    Instrument(uid=UID),
    owner="owner 9",
    finished=True,
    damages=(
        Damage(
            "posts",
            place="Upper joint, throat A key, right post",
            looks=(Look(taken=date(2026, 2, 9)),),
            choice=Choice("hidden_bushing", date(2026, 2, 9)),
            done="Bushing glued in anew, grooved.",
            repaired_on=date(2026, 2, 10),
            followups=(FollowUp("yes", date(2026, 3, 1), kind="holding"),),
        ),
        Damage(
            "posts",
            place="lower joint, trill key post",
            consents=(Consent("no", date(2026, 2, 9), "the owner"),),
        ),
        Damage("posts", place="upper joint, C sharp post"),
    ),
)
VISITS = (FIRST, replace(SECOND, instrument=_THING), *CASES[1:])


async def _open(hand: Hand, uid: str = UID) -> None:
    hand.app.instrument(uid)
    await hand.settle()


async def test_an_instrument_is_found_by_a_word_of_it_or_of_its_owner(tmp_path: Path) -> None:
    """Each stands once, with its last visit; slips are mended; Enter opens the page of the marked one."""
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS)) as hand:
        hand.app.instruments()
        await hand.settle()
        assert "3 instruments" in hand.sees()
        assert "2026-02-09 2 visits" in hand.sees()
        await hand.type("owner 9")
        assert "1 of 3" in hand.sees()
        await hand.press(*["backspace"] * 7)
        await hand.type("clarinte")
        assert "1 of 3" in hand.sees()
        await hand.press("enter")
        assert hand.screen == "InstrumentScreen"
        await hand.press("escape")
        await hand.type("xyz")
        assert "None like that" in hand.sees()
        await hand.press("enter", "down", "enter")
        assert hand.screen == "InstrumentsScreen"


async def test_the_page_shows_visits_in_order_and_what_was_done_where(tmp_path: Path) -> None:
    """Places written alike but for capitals are one; how each repair turned out stands with it."""
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS), (120, 40)) as hand:
        await _open(hand)
        seen, told = hand.sees(), hand.reads()
        assert "2 visits" in seen
        assert seen.index("B-0301") < seen.index("B-0310")
        assert "x let go" in seen
        assert "+ holding" in seen
        assert "No. 7" in told
        assert "owner 9" in told
        both = "2025-11-06 Brass bushing glued into the trued hole."
        assert told.index(both) < told.index("Bushing glued in anew, grooved.")
        assert told.count("throat A key, right post") == 1
        assert "x 2026-02-09 let go: glue" in told
        await hand.press("enter")
        assert hand.screen == "CaseScreen"
        assert "B-0310" in hand.sees()


async def test_only_a_repair_can_be_opened_to_keep_how_it_held(tmp_path: Path) -> None:
    """The key is there on a repair that was done, and on a visit with one alone; else it is not."""
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS)) as hand:
        await _open(hand)
        await hand.press("down", "down")
        assert "held?" not in hand.sees()
        await hand.press("l")
        assert hand.screen == "InstrumentScreen"
        for row in ("up", "up"):
            await hand.press(row)
            assert "held?" in hand.sees()
            await hand.press("l")
            assert hand.screen == "WorkScreen"
            assert "B-0310" in hand.sees()
            await hand.press("escape")


async def test_a_repair_that_came_back_starts_from_what_is_known(tmp_path: Path) -> None:
    """The new case belongs to the instrument, names the repair that brings it, keeps the owner's words and owner."""
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS)) as hand:
        book = hand.app.desk.book
        await _open(hand)
        await hand.press("n")
        await hand.type("The same post is loose again")
        await hand.press("enter", "3", "enter")
        await hand.type("It flops [b]again[/b].")
        await hand.press("f2")
        assert hand.screen == "Form"
        assert "a damage" in hand.reads()
        await hand.press("1", "enter")
        await hand.type("upper joint, throat A key, right post")
        await hand.press("f2")
        assert hand.screen == "QuestionnaireScreen"
        [new] = [case for case in book.visits(UID) if case.taken_in == TODAY]
        assert (new.title, new.visit.comes_back_from) == ("The same post is loose again", "B-0301")
        assert (new.owner, new.owner_words) == ("owner 9", "It flops [b]again[/b].")
        assert new.answers == {"instrument_kind": "clarinet"}
        assert [damage.place for damage in new.damages] == ["upper joint, throat A key, right post"]
        await hand.press("escape", "escape")
        assert hand.screen == "InstrumentScreen"
        assert "back from B-0301" in hand.sees()
        # The earlier repair gets its outcome from here.
        await hand.press("home", "down", "l")
        assert hand.screen == "WorkScreen"
        assert "B-0301" in hand.sees()


async def test_what_let_go_by_itself_is_kept_from_the_page(tmp_path: Path) -> None:
    """Two keys from the marked repair; back on the page it stands there."""
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS)) as hand:
        await _open(hand)
        await hand.press("down")
        assert "+ holding" in hand.sees()
        await hand.press("l", "l", "2", "1", "f2", "escape")
        assert hand.screen == "InstrumentScreen"
        assert "+ holding" not in hand.sees()
        last = hand.app.desk.book.case("B-0310").damages[0].outcome
        assert last is not None
        assert (last.turned_out, last.what, last.looked) == ("let_go", "glue", TODAY)


async def test_a_title_is_wanted_and_nothing_typed_is_lost(tmp_path: Path) -> None:
    """Kept too early the form stays with one line; Esc asks once before it throws away."""
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS)) as hand:
        await _open(hand)
        before = hand.app.desk.book.count()
        await hand.press("n", "f2")
        assert "In one line: wanted here" in hand.reads()
        await hand.type("Crack")
        await hand.press("escape")
        assert "Esc once more throws it away" in hand.reads()
        assert hand.screen == "Form"
        await hand.press("escape")
        assert hand.screen == "InstrumentScreen"
        assert hand.app.desk.book.count() == before


async def test_an_instrument_nobody_knows_is_one_line_and_the_way_out(tmp_path: Path) -> None:
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS)) as hand:
        await _open(hand, "00" * 16)
        assert hand.screen == "Trouble"
        assert "has been here" in hand.reads()
        await hand.press("enter")
        assert hand.screen == "CasesScreen"


PICTURES: dict[str, tuple[str, ...]] = {
    "page": (),
    "marked_repair": ("home", "down"),
    "again": ("n",),
}


def _at(open_it: Callable[[CasebookApp], None], keys: tuple[str, ...]) -> Callable[[Any], Any]:
    async def go(pilot: Any) -> None:
        hand = Hand(pilot, pilot.app)
        await settle(pilot)
        open_it(pilot.app)
        await hand.settle()
        for key in keys:
            await (hand.type(key[1:]) if key.startswith("=") else hand.press(key))

    return go


@pytest.mark.parametrize("name", PICTURES)
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_picture_of_an_instrument(
    snap_compare: Callable[..., bool], tmp_path: Path, name: str, size: tuple[int, int]
) -> None:
    """The page looks as it did when somebody last looked at it."""
    app = CasebookApp(shop(tmp_path / "book.db", *VISITS))
    go = _at(lambda app: app.instrument(UID), PICTURES[name])
    assert snap_compare(app, terminal_size=size, run_before=go)


@pytest.mark.parametrize("keys", [(), ("=oboe",), ("=xyz",)])
def test_picture_of_the_instruments(
    snap_compare: Callable[..., bool], tmp_path: Path, keys: tuple[str, ...]
) -> None:
    """The list, whole, with a word typed, and with nothing left."""
    app = CasebookApp(shop(tmp_path / "book.db", *VISITS))
    assert snap_compare(app, terminal_size=(80, 24), run_before=_at(CasebookApp.instruments, keys))
