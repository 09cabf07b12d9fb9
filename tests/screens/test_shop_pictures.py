"""Pictures of the shop's screens on a frozen shop, compared to the letter."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from casebook.screens.app import CasebookApp
from tests.screens.hand import Hand, settle
from tests.screens.shop_settings import SETTINGS, settled_shop

Compare = Callable[..., bool]

# What is on the screen -> the keys that lead there from the first one.
PICTURES: dict[str, tuple[str, ...]] = {
    "shop": ("s",),
    "value_refused": ("s", *["down"] * 4, "enter", "ctrl+u", "=dear", "enter"),
    "reading_errors": ("s", "down", "down", "enter"),
    "people": ("s", "down", "enter"),
    "prices": ("s", "p"),
    "price_form": ("s", "p", "n"),
    "taken_out": ("s", "p", "x"),
    "price_of": ("s", "p", "s"),
    "glues": ("s", "g"),
    "rules": ("s", "r", "space"),
    "drawer": ("s", "d", "down", "down"),
    "shelf": ("s", "d", "down", "down", "enter", "ctrl+u", "=letter set, 2 to 6 by 0.5 mm"),
    "shelf_refused": ("s", "d", "down", "down", "enter", "ctrl+u", "=number set, 900 mm"),
}


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Call the shop's file by a name that is the same everywhere."""
    monkeypatch.chdir(tmp_path)


def _at(keys: tuple[str, ...]) -> Callable[[Pilot[Any]], Any]:
    async def go(pilot: Pilot[Any]) -> None:
        assert isinstance(pilot.app, CasebookApp)
        hand = Hand(pilot, pilot.app)
        await settle(pilot)
        for key in keys:
            await (hand.type(key[1:]) if key.startswith("=") else hand.press(key))

    return go


@pytest.mark.parametrize("name", PICTURES)
def test_picture_at_80_by_24(snap_compare: Compare, name: str) -> None:
    """The screen looks as it did when somebody last looked at it."""
    app = CasebookApp(settled_shop(Path()))
    assert snap_compare(app, terminal_size=(80, 24), run_before=_at(PICTURES[name]))


@pytest.mark.parametrize("name", ["shop", "prices", "drawer"])
def test_picture_at_120_by_40(snap_compare: Compare, name: str) -> None:
    """And in a large terminal."""
    app = CasebookApp(settled_shop(Path()))
    assert snap_compare(app, terminal_size=(120, 40), run_before=_at(PICTURES[name]))


def test_a_new_shop(snap_compare: Compare) -> None:
    """What is asked when there is no file yet."""
    app = CasebookApp(settled_shop(Path(), None))
    assert snap_compare(app, terminal_size=(80, 24), run_before=_at(()))


def test_a_broken_file(snap_compare: Compare) -> None:
    """One line, and the way out."""
    app = CasebookApp(settled_shop(Path(), SETTINGS.replace("rate: 65", "rate: dear")))
    assert snap_compare(app, terminal_size=(80, 24), run_before=_at(()))
