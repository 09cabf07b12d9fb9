"""The first screen and the case as a day goes: waits, handing back, the wood, parking."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from casebook.bench.desk import Desk
from casebook.records.book import Book
from tests.screens.hand import at_the_screens
from tests.screens.shop import CASES, frozen_library, shop


def _desk_at(place: Path, clock: list[datetime]) -> Callable[[], Desk]:
    """Open the shop's book on a desk whose time the test sets."""

    def open_desk() -> Desk:
        if not place.exists():
            shop(place, *CASES)()
        return Desk(Book.open(place), frozen_library(), clock[0].date(), clock=lambda: clock[0])

    return open_desk


async def test_glue_ends_its_wait_by_itself_and_the_list_says_so(tmp_path: Path) -> None:
    """A wait typed as 24 h holds the job up until that minute, and the row turns without a key."""
    clock = [datetime(2026, 3, 9, 16, 0)]
    async with at_the_screens(_desk_at(tmp_path / "book.db", clock)) as hand:
        await hand.press("down", "enter", "w", "4", "enter")
        await hand.type("24 h")
        await hand.press("enter")
        await hand.type("epoxy")
        await hand.press("f2")
        assert "glue: epoxy, until Tue 10 Mar 16:00" in hand.reads()
        await hand.press("escape")
        assert "epoxy, until Tue 10 Mar 16:00" in hand.sees()
        clock[0] = datetime(2026, 3, 10, 16, 0)
        await hand.press("enter", "escape")
        assert "epoxy cured since Tue 10 Mar 16:00" in hand.reads()


async def test_the_day_turns_while_the_program_stays_open(tmp_path: Path) -> None:
    """What was in time at night is late in the morning; nobody has to start it anew."""
    clock = [datetime(2026, 3, 20, 18, 0)]
    async with at_the_screens(_desk_at(tmp_path / "book.db", clock)) as hand:
        assert "late" not in hand.sees()
        clock[0] = datetime(2026, 3, 21, 8, 0)
        await hand.press("enter", "escape")
        assert "1 late, 2 cases" in hand.sees()
        assert "! me" in hand.sees()


async def test_a_wait_typed_wrong_stays_and_says_how_it_is_typed(tmp_path: Path) -> None:
    """Neither a day nor a time: one line; put right, it is kept."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("enter", "w", "2", "enter")
        await hand.type("whenever")
        await hand.press("f2")
        assert "type 24 h, 3 days, friday" in hand.reads()
        await hand.press(*["backspace"] * 8)
        await hand.type("friday")
        await hand.press("f2")
        [wait] = hand.app.desk.book.case("B-0303").waits
        assert (wait.what, str(wait.until)) == ("part", "2026-03-13")
        assert "o over" in hand.sees()
        await hand.press("o")
        assert hand.app.desk.book.case("B-0303").waits[0].ended is not None
        assert "o over" not in hand.sees()


async def test_the_wood_comes_to_rest_by_its_readings(tmp_path: Path) -> None:
    """Three readings alike within a week end the wait; each is typed on its day."""
    clock = [datetime(2026, 3, 9, 9, 0)]
    async with at_the_screens(_desk_at(tmp_path / "book.db", clock)) as hand:
        await hand.press("enter", "w", "3", "f2")
        for day in (9, 12, 15):
            clock[0] = datetime(2026, 3, day, 9, 0)
            await hand.press("y")
            await hand.type("98,4 g")
            await hand.press("f2")
        assert "wood at rest since Mon 9 Mar" in hand.reads()
        await hand.press("y")
        await hand.type("heavy")
        await hand.press("f2")
        assert "is no weight: type it as 182.4 g" in hand.reads()
        await hand.press("escape", "escape", "escape")
        assert "wood at rest since Mon 9 Mar" in hand.reads()


async def test_ready_told_fetched_is_one_key_and_open_consent_holds_it(tmp_path: Path) -> None:
    """h does the next act each time; what goes back with it is shown; a 'later' must be answered before."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        book = hand.app.desk.book
        await hand.press("enter", "k", "3", "f2", "h", "h")
        assert book.case("B-0303").visit.told_on is not None
        await hand.press("h")
        assert "Goes back with it: case, crook" in hand.reads()
        await hand.type("45")
        await hand.press("f2")
        assert "the answer was 'later'; write down yes or no" in hand.reads()
        assert not book.case("B-0303").finished
        await hand.press("escape", "escape", "k", "2", "f2", "h", "f2")
        assert hand.screen == "Mind"
        assert "goes back with it: case, crook" in hand.reads()
        await hand.press("enter")
        case = book.case("B-0303")
        assert (case.finished, case.visit.paid) == (True, "45")


async def test_an_impossible_day_is_refused_in_the_form(tmp_path: Path) -> None:
    """Needed before it came in: one line, the form stays."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "v")
        await hand.type("2026-01-01")
        await hand.press("f2")
        assert "needed by 2026-01-01 is before it was taken in on 2026-03-02" in hand.reads()
        assert hand.app.desk.book.case("B-0302").visit.needed_by is None


async def test_parking_keeps_half_typed_words_and_the_same_key_comes_back(tmp_path: Path) -> None:
    """In the middle of a form: ^T, another job, ^T, and every letter still stands there."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "e")
        await hand.type(" again")
        await hand.press("ctrl+t")
        assert hand.screen == "CasesScreen"
        assert "parked: B-0302" in hand.sees()
        await hand.press("enter", "escape", "ctrl+t")
        assert hand.screen == "Form"
        assert "G sharp post torn out again" in hand.sees()
        await hand.press("f2")
        assert hand.app.desk.book.case("B-0302").title == "G sharp post torn out again"
        await hand.press("escape")
        assert "parked" not in hand.sees()
        await hand.press("ctrl+t", "ctrl+t")
        assert hand.screen == "CasesScreen"


async def test_leaving_with_something_parked_goes_back_to_it_first(tmp_path: Path) -> None:
    """q on the other bench does not throw half a form away."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("n")
        await hand.type("half a thought")
        await hand.press("ctrl+t", "q")
        assert hand.screen == "Form"
        assert "half a thought" in hand.sees()
