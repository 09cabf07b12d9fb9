"""What is to be looked at again, and the calendar file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from casebook.records.case import Case, Damage
from casebook.screens.app import CasebookApp
from tests.screens.hand import Hand, at_the_screens, settle
from tests.screens.shop import CASES, shop


def _repaired(number: str, title: str, *on: str) -> Case:
    damages = tuple(
        Damage("posts", place=f"place {n}", done="Bushed.", repaired_on=date.fromisoformat(day))
        for n, day in enumerate(on, 1)
    )
    return replace(CASES[0], number=number, title=title, damages=damages, owner="owner 5", taken_in=None)


# The day of the shop is the 9th of March 2026.
DUE = (
    _repaired("B-0401", "Post loose", "2026-01-10"),
    _repaired("B-0402", "Two posts", "2026-02-07", "2026-03-06"),
    _repaired("B-0403", "Post torn out", "2025-06-01"),
)


async def _open(hand: Hand) -> None:
    hand.app.due()
    await hand.settle()


@pytest.fixture(autouse=True)
def home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A user's folder of its own."""
    folder = tmp_path / "home"
    folder.mkdir()
    monkeypatch.setenv("HOME", str(folder))
    return folder


async def test_what_is_overdue_stands_first_and_opens_where_it_was_repaired(tmp_path: Path) -> None:
    """Overdue, due now, due later, each by its last day."""
    async with at_the_screens(shop(tmp_path / "book.db", *DUE)) as hand:
        await _open(hand)
        seen = hand.sees()
        assert "2 overdue, 1 now, 1 later" in seen
        places = [
            seen.index(one)
            for one in ("! overdue B-0403", "! overdue B-0401", "= now     B-0402", "later     B-0402")
        ]
        assert places == sorted(places)
        assert "until Sat 21 Feb" in seen
        assert "owner 5" not in seen
        await hand.press("down", "down")
        assert "after 4 to 6 weeks: Sat 7 Mar to Sat 21 Mar" in hand.reads()
        await hand.press("enter")
        assert hand.screen == "WorkScreen"
        assert "B-0402" in hand.sees()


async def test_a_look_that_was_kept_is_no_longer_due_when_one_comes_back(tmp_path: Path) -> None:
    """From the list to the repair, how it held, and back: the row has gone on to the season's end."""
    async with at_the_screens(shop(tmp_path / "book.db", DUE[0])) as hand:
        await _open(hand)
        assert "1 overdue" in hand.sees()
        desk = hand.app.desk
        await hand.press("enter")
        desk.turned_out("B-0401", 1, "holding")
        await hand.press("escape")
        assert hand.screen == "DueScreen"
        assert "1 later" in hand.sees()


async def test_nothing_due_says_so_and_offers_no_calendar(tmp_path: Path) -> None:
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _open(hand)
        assert "No repair waits to be looked at." in hand.sees()
        assert "calendar" not in hand.sees()
        await hand.press("i", "enter")
        assert hand.screen == "DueScreen"


async def test_the_days_go_into_a_calendar_in_the_users_folder(tmp_path: Path, home: Path) -> None:
    """The place stands there already; written again it is renewed; no owner is named."""
    async with at_the_screens(shop(tmp_path / "book.db", *DUE)) as hand:
        await _open(hand)
        for _ in range(2):
            await hand.press("i", "f2")
            assert hand.screen == "DueScreen"
        [file] = home.iterdir()
        text = file.read_text()
        assert text.count("BEGIN:VEVENT") == 4
        assert "owner 5" not in text


async def test_another_file_is_written_over_only_when_said_twice(tmp_path: Path, home: Path) -> None:
    """And a place that cannot be written to stays in its field, with one line."""
    letter = home / "casebook-looks.ics"
    letter.write_text("a letter")
    async with at_the_screens(shop(tmp_path / "book.db", *DUE)) as hand:
        await _open(hand)
        await hand.press("i", "f2")
        assert "is another file: F2 once more writes over it" in hand.reads()
        await hand.press("end")
        await hand.type("/nowhere")
        await hand.press("f2")
        assert "cannot be written" in hand.reads()
        assert letter.read_text() == "a letter"
        await hand.press(*["backspace"] * len("/nowhere"))
        await hand.press("f2")
        assert hand.screen == "DueScreen"
        assert letter.read_text().startswith("BEGIN:VCALENDAR")


def _at(keys: tuple[str, ...]) -> Callable[[Any], Any]:
    async def go(pilot: Any) -> None:
        hand = Hand(pilot, pilot.app)
        await settle(pilot)
        await _open(hand)
        await hand.press(*keys)

    return go


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_picture_of_what_is_due(
    snap_compare: Callable[..., bool], tmp_path: Path, size: tuple[int, int]
) -> None:
    """The list as it looked when somebody last looked at it."""
    app = CasebookApp(shop(tmp_path / "book.db", *DUE))
    assert snap_compare(app, terminal_size=size, run_before=_at(("down",)))


def test_picture_of_nothing_due(snap_compare: Callable[..., bool], tmp_path: Path) -> None:
    """Empty, it says what would stand here."""
    app = CasebookApp(shop(tmp_path / "book.db", CASES[1]))
    assert snap_compare(app, terminal_size=(80, 24), run_before=_at(()))
