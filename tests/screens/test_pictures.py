"""Pictures of every screen on frozen cases and rule packs, compared to the letter."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from casebook import figures
from casebook.screens.app import CasebookApp
from tests.screens.frozen_sheet import FROZEN
from tests.screens.hand import pressing
from tests.screens.shop import CASES, shop

Compare = Callable[..., bool]

# What is on the screen -> the keys that lead there from the first one.
PICTURES: dict[str, tuple[str, ...]] = {
    "bench": (),
    "bench_with_finished": ("a",),
    "case": ("down", "enter"),
    "intake_form": ("n",),
    "damage_form": ("enter", "n"),
    "intake_questions": ("down", "enter", "i"),
    "choice": ("down", "enter", "2", "0"),
    "choice_just_answered": ("down", "enter", "2", "1", "2"),
    "not_this": ("down", "enter", "2", "1", "n", "1", "3"),
    "several": ("down", "enter", "2", "1", "2", "2"),
    "size": ("down", "enter", "2", "1", "2", "2", "enter", "=7.5 mm"),
    "size_not_understood": ("down", "enter", "2", "1", "2", "2", "enter", "=7.5 ells", "enter"),
    "danger_above": ("enter", "1"),
    "go_to": ("down", "enter", "2", "1", "g"),
    "settled": ("down", "enter", "1"),
    "proposals": ("down", "enter", "1", "p"),
    "dangers": ("enter", "1", "p", "enter"),
    "choose": ("down", "enter", "1", "p", "enter", "r"),
    "work": ("a", "down", "down", "enter", "1"),
    "record": ("a", "down", "down", "enter", "1", "r"),
    "look_after": ("a", "down", "down", "enter", "1", "l"),
    "second_look": ("enter", "1", "p", "enter", "r", "f2", "o"),
    "figures": ("down", "enter", "1", "f", "down", "down", "2", "=6 mm", "enter"),
    "worksheets": ("w",),
    "find": ("slash", "=busching"),
    "like_it": ("enter", "s"),
    "help": ("f1",),
}


@pytest.fixture(autouse=True)
def _frozen_worksheet(monkeypatch: pytest.MonkeyPatch) -> None:
    """Calculate with one small worksheet that never changes."""
    monkeypatch.setattr(figures, "IDS", ("bushing",))
    monkeypatch.setattr(figures, "worksheet", lambda _: FROZEN)


@pytest.mark.parametrize("name", PICTURES)
def test_picture_at_80_by_24(snap_compare: Compare, tmp_path: Path, name: str) -> None:
    """The screen looks as it did when somebody last looked at it, in a small terminal."""
    app = CasebookApp(shop(tmp_path / "book.db", *CASES))
    assert snap_compare(app, terminal_size=(80, 24), run_before=pressing(PICTURES[name]))


@pytest.mark.parametrize("name", ["case", "choice_just_answered", "proposals", "figures", "like_it"])
def test_picture_at_120_by_40(snap_compare: Compare, tmp_path: Path, name: str) -> None:
    """And in a large one."""
    app = CasebookApp(shop(tmp_path / "book.db", *CASES))
    assert snap_compare(app, terminal_size=(120, 40), run_before=pressing(PICTURES[name]))


def test_picture_without_colour(
    snap_compare: Compare, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With NO_COLOR every standing still has its glyph and its word."""
    monkeypatch.setenv("NO_COLOR", "1")
    app = CasebookApp(shop(tmp_path / "book.db", *CASES))
    assert snap_compare(app, terminal_size=(80, 24), run_before=pressing(PICTURES["choice_just_answered"]))


def test_an_empty_bench(snap_compare: Compare, tmp_path: Path) -> None:
    """The first screen of a new book."""
    app = CasebookApp(shop(tmp_path / "book.db"))
    assert snap_compare(app, terminal_size=(80, 24), run_before=pressing(()))
