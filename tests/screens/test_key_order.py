"""Keys typed ahead of the screen: every one goes where it was meant for."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.keys import _character_to_key

from tests.screens.hand import Hand, at_the_screens
from tests.screens.shop import CASES, shop


async def _ahead(hand: Hand, *keys: str) -> None:
    """Send keys without waiting for anything; ``=words`` sends words."""
    for key in keys:
        if key.startswith("="):
            for character in key[1:]:
                hand._send(_character_to_key(character), character)
        else:
            hand._send(key)
    await hand.settle()


async def test_a_form_is_filled_by_who_types_faster_than_it_opens(tmp_path: Path) -> None:
    """No letter is lost, none acts as a command of the screen below, each line stands in its own field."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await _ahead(
            hand,
            "n",
            "=Post c off, quite",
            "enter",
            "4",
            "enter",
            "=B flat",
            "f2",
            "1",
            "enter",
            "=low c",
            "f2",
        )
        number = hand.app.desk.on_the_bench()[0].number
        case = hand.app.desk.book.case(number)
        assert case.title == "Post c off, quite"
        assert case.instrument.description == "B flat"
        assert [damage.place for damage in case.damages] == ["low c"]
        assert hand.screen == "QuestionnaireScreen"


async def test_answers_given_ahead_each_count_for_the_question_then_shown(tmp_path: Path) -> None:
    """The same digits, one by one or in a burst, leave the same answers."""
    answers = []
    for place, burst in (("slow.db", False), ("fast.db", True)):
        async with at_the_screens(shop(tmp_path / place, *CASES)) as hand:
            await hand.press("down", "enter", "2")
            keys = ("1", "2", "3", "enter")
            await (_ahead(hand, *keys) if burst else hand.press(*keys))
            answers.append(hand.app.desk.book.case("B-0302").damages[1].looks[0].answers)
    assert answers[0]
    assert answers[0] == answers[1]


async def test_a_dialog_gets_the_key_that_was_meant_for_it(tmp_path: Path) -> None:
    """Choose, read, keep, in one breath."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await _ahead(hand, "down", "enter", "1", "p", "enter", "r", "f2")
        assert hand.screen == "WorkScreen"


@pytest.mark.parametrize("gone", ["escape", "f2"])
async def test_a_field_that_goes_takes_no_later_key_with_it(tmp_path: Path, gone: str) -> None:
    """After a form closed, kept or dropped, the next keys reach the screen below."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await _ahead(
            hand, "down", "enter", "w", "2", "enter", gone, gone, "escape", "escape", "slash", "=post"
        )
        assert hand.screen == "FindScreen"
        assert "post" in hand.sees()


async def test_a_key_whose_end_is_never_told_holds_the_next_one_up_no_longer_than_a_second(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The mark behind a key is lost with the field it was sent to: what was typed after it still counts."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        with monkeypatch.context() as lost:
            lost.setattr(hand.app, "_mark", lambda _: None)
            hand._send("w")
            await hand.pilot.pause()
            assert hand.app.keys_held
        await _ahead(hand, "f1")
        assert hand.screen == "Help"
