"""What somebody typed is shown as typed, and does nothing: on every screen that shows a person's words."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from casebook.records.case import Case, Instrument, Measured
from casebook.screens.fields import TextBlock, TextLine
from casebook.screens.plain import plain
from tests.screens.hand import at_the_screens
from tests.screens.shop import CASES, shop

WORDS = ("[/]", "[@click=app.quit]press[/]", "[Bb]", "[link=https://example.org]x", "[$x]", "\\[b]", "{name}")


def _case(words: str) -> Case:
    case = CASES[0]
    [damage] = case.damages
    hostile = replace(
        damage,
        place=words,
        story=words,
        done=words,
        learned=words,
        measured=(Measured(words, "5 mm", words),),
    )
    return replace(
        case,
        title=words,
        finished=False,
        instrument=Instrument("clarinet", words, words, words),
        owner_words=words,
        damages=(hostile,),
    )


@pytest.mark.parametrize("words", WORDS)
async def test_words_that_look_like_markup_are_shown_as_typed(tmp_path: Path, words: str) -> None:
    """From the list to the work, and in find, every bracket stands where it was typed."""
    async with at_the_screens(shop(tmp_path / "book.db", _case(words)), size=(120, 40)) as hand:
        assert words in hand.sees()
        await hand.press("enter")
        assert hand.sees().count(words) >= 5
        await hand.press("1")
        assert hand.screen == "WorkScreen"
        assert hand.sees().count(words) >= 4
        await hand.press("slash")
        await hand.type("b 0301")
        await hand.press("escape", "escape", "s")
        assert hand.app.is_running


@pytest.mark.parametrize("words", WORDS)
async def test_the_pages_around_a_case_show_words_as_typed(tmp_path: Path, words: str) -> None:
    """The instrument and its list, what is due, the telephone and its price."""
    case = _case(words)
    [done] = case.damages
    undone = replace(done, done="", hours=None, repaired_on=None, followups=(), number=2)
    case = replace(case, owner=words, damages=(replace(done, followups=(), number=1), undone))
    async with at_the_screens(shop(tmp_path / "book.db", case), size=(120, 40)) as hand:
        [row] = hand.app.desk.book.instruments()
        for open_it, times in (
            (hand.app.instruments, 2),
            (lambda: hand.app.instrument(row.instrument.uid), 6),
            (hand.app.due, 3),
            (lambda: hand.app.phone(case.number), 2),
        ):
            open_it()
            await hand.settle()
            assert hand.sees().count(words) >= times
            await hand.press("escape")
        hand.app.phone_call()
        await hand.settle()
        await hand.press("tab", "tab", "1", "enter")
        await hand.type(words)
        await hand.press("f2")
        assert hand.screen == "PhoneScreen"
        assert f"Posts, {words}" in hand.sees()


async def test_escape_sequences_pasted_into_a_form_never_reach_the_terminal(tmp_path: Path) -> None:
    """ESC and the override of the writing direction become U+FFFD in the field, and so in the book."""
    async with at_the_screens(shop(tmp_path / "book.db")) as hand:
        await hand.press("n")
        form = hand.app.screen
        form.query_one("#title", TextLine).value = "red \x1b[31m post\u202e"
        form.query_one("#owner_words", TextBlock).insert("bell \x07 and \x1b]52;c;AAAA\x07")
        await hand.press("f2")
        [row] = hand.app.desk.on_the_bench()
        case = hand.app.desk.book.case(row.number)
        assert case.title == "red \ufffd[31m post\ufffd"
        assert case.owner_words == "bell \ufffd and \ufffd]52;c;AAAA\ufffd"
        assert "\x1b" not in hand.sees()


def test_text_for_the_screen_holds_no_control_character() -> None:
    """C0, C1 and bidirectional controls are replaced; line ends stay."""
    assert plain("a\x1b[2Jb\x9bc\u2066d\ne").plain == "a\ufffd[2Jb\ufffdc\ufffdd\ne"
