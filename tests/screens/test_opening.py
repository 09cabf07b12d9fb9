"""Opening, going about, and what goes wrong."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from casebook.bench.desk import Desk
from casebook.records.case import Damage
from casebook.records.errors import StorageError
from casebook.screens.app import CasebookApp
from casebook.screens.keys import bindings_of, key_name
from tests.screens.hand import at_the_screens, seen, settle
from tests.screens.shop import CASES, shop


async def test_a_book_that_cannot_be_opened_is_one_line_and_the_way_out() -> None:
    """The line of the storage error stands in a dialog; Enter leaves with status 1."""

    def open_desk() -> Desk:
        raise StorageError("the book lies in a folder that is not yours: name another one")

    app = CasebookApp(open_desk)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        assert "the book lies in a folder that is not yours" in seen(app)
        await pilot.press("enter")
    assert app.return_code == 1


async def test_a_write_that_fails_is_a_dialog_and_the_answer_is_not_shown_as_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the book refuses, the question stays where it was, unanswered."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "2")
        before = hand.sees()

        def refuse(*_: object, **__: object) -> int:
            raise StorageError("the disk is full: make room, then try again")

        monkeypatch.setattr(hand.app.desk.book, "save_answer", refuse)
        await hand.press("1")
        assert "the disk is full: make room, then try again" in hand.sees()
        await hand.press("enter")
        assert hand.sees() == before


async def test_a_fault_of_the_program_tells_no_word_of_a_case(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The report names the kind of fault and where, never what is in the case."""
    app = CasebookApp(shop(tmp_path / "book.db", *CASES))

    def fail() -> None:
        raise ZeroDivisionError("owner 4 of the flopping key")

    async def press_into_it() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            await settle(pilot)
            monkeypatch.setattr(app.screen, "action_all", fail)
            await pilot.press("a")

    with pytest.raises(ZeroDivisionError):
        await press_into_it()
    said = "".join(capsys.readouterr())
    assert "a fault in the program itself (ZeroDivisionError in" in " ".join(said.split())
    assert "owner 4" not in said
    assert app.return_code == 1


async def test_an_empty_bench_says_what_to_do(tmp_path: Path) -> None:
    """The first screen of a new book names the key that takes an instrument in."""
    async with at_the_screens(shop(tmp_path / "book.db")) as hand:
        assert "Nothing lies on the bench." in hand.sees()
        assert "n takes an instrument in." in hand.sees()


# Every screen with the keys that lead from the one before to it.
_SCREENS: list[tuple[str, tuple[str, ...]]] = [
    ("CasesScreen", ()),
    ("SheetsScreen", ("w",)),
    ("FindScreen", ("escape", "slash")),
    ("CaseScreen", ("escape", "escape", "down", "enter")),
    ("QuestionnaireScreen", ("1",)),
    ("LikeItScreen", ("s",)),
    ("ProposalsScreen", ("escape", "p")),
    ("FiguresScreen", ("f",)),
]


async def test_every_screen_has_its_help_and_every_action_in_the_palette(tmp_path: Path) -> None:
    """? and F1 show all its keys; the palette offers each by name."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES), size=(100, 60)) as hand:
        for name, keys in _SCREENS:
            await hand.press(*keys)
            assert hand.screen == name
            screen = hand.app.screen
            commands = {command.title.lower() for command in hand.app.get_system_commands(screen)}
            named = [
                one for one in bindings_of(screen) if one.description and one.action not in ("back", "help")
            ]
            assert {binding.description.lower() for binding in named} <= commands
            await hand.press("f1")
            assert hand.screen == "Help"
            for binding in named:
                assert key_name(binding.key.split(",")[0]) in hand.sees()
            await hand.press("escape")


async def test_every_screen_can_be_made_small_and_large(tmp_path: Path) -> None:
    """A window drawn small and large again breaks no screen, and the way back stays open."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        for name, keys in _SCREENS:
            await hand.press(*keys)
            for size in ((40, 10), (200, 60), (80, 24)):
                await hand.pilot.resize_terminal(*size)
                await hand.settle()
                assert hand.screen == name
        assert hand.app.is_running


async def test_esc_never_goes_round_in_circles(tmp_path: Path) -> None:
    """Going from find to a case to its damage and to find again leaves no pile of screens behind."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "1")
        for _ in range(5):
            await hand.press("p", "f", "escape", "g", "p")
        assert len(hand.app.screen_stack) <= 6


async def test_find_shows_hits_while_words_are_typed_and_mends_a_slip(tmp_path: Path) -> None:
    """busching is bushing: the hit is there, and the line says how it was searched."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("slash")
        await hand.type("busching")
        assert "B-0301" in hand.sees()
        assert "showing bushing for busching" in hand.sees()
        await hand.press("enter")
        assert "Throat A key post loose" in hand.sees()


async def test_like_it_shows_what_agrees_and_how_it_turned_out(tmp_path: Path) -> None:
    """The damage of the past with the same hole comes first, and that it let go stands beside it."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES), size=(120, 40)) as hand:
        await hand.press("enter", "s")
        assert hand.screen == "LikeItScreen"
        assert "B-0301" in hand.sees()
        assert "let go: glue" in hand.sees()
        assert "hole in the body: Enlarged or oval" in hand.sees()


async def test_a_damage_of_a_family_that_has_no_rule_pack_any_more_is_one_line(tmp_path: Path) -> None:
    """Its case still opens; looking at it says what is missing, and the screen stays."""
    old = replace(CASES[1], damages=(Damage("reeds", place="both"),))
    async with at_the_screens(shop(tmp_path / "book.db", old)) as hand:
        await hand.press("enter", "1")
        assert "no rule pack for 'reeds'" in hand.reads()
        await hand.press("enter")
        assert hand.screen == "CaseScreen"
