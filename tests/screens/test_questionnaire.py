"""The questionnaire: answers of every form, sizes in any unit, and taking things back."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import pytest

from casebook.guide.advice import Advice
from casebook.guide.next_question import Asked, next_questions
from casebook.screens.fields import TextLine
from tests.screens.hand import Hand, at_the_screens
from tests.screens.shop import CASES, shop


@asynccontextmanager
async def _second_damage(tmp_path: Path) -> AsyncIterator[Hand]:
    """Open the damage of which nothing is known yet, at its first question."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "2")
        yield hand


def _answers(hand: Hand) -> dict[str, Any]:
    return dict(hand.app.desk.book.case("B-0302").damages[1].looks[0].answers)


async def _ask(hand: Hand, question: str) -> None:
    hand.app.screen._go_on(question)  # type: ignore[attr-defined]
    await hand.settle()


async def test_a_digit_answers_and_the_standings_follow_at_once(tmp_path: Path) -> None:
    """One key, and beside it stands what moved."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "post_problem")
        await hand.press("3")
        assert _answers(hand) == {"post_problem": "leaning"}
        assert "+›Straighten the post" in hand.sees()
        assert "› moved just now: 1 fits, 2 ruled out" in hand.sees()


async def test_not_this_one_keeps_what_it_surely_is_not(tmp_path: Path) -> None:
    """n, the digits, Enter: the rest stays possible."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "post_problem")
        await hand.press("n", "1", "2", "enter")
        assert _answers(hand) == {"post_problem": {"not": ["loose", "torn_out"]}}


async def test_it_may_be_one_of_several(tmp_path: Path) -> None:
    """m, the digits, Enter: one of these it is, who knows which."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "post_problem")
        await hand.press("m", "1", "2", "enter")
        assert _answers(hand) == {"post_problem": ["loose", "torn_out"]}


async def test_several_things_hold_together(tmp_path: Path) -> None:
    """Where several may hold, digits mark and Enter takes them."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "post_hole")
        await hand.press("2", "3", "2", "4", "enter")
        assert _answers(hand) == {"post_hole": {"all": ["coned_out", "broken_out_side"]}}


async def test_what_cannot_hold_together_is_refused_in_one_line_and_stays_marked(tmp_path: Path) -> None:
    """A hole is not sound and coned at once: the line says so, and nothing is kept."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "post_hole")
        await hand.press("1", "3", "enter")
        assert "cannot hold together" in hand.sees()
        await hand.press("enter")
        assert "[x] Sound, threads present" in hand.sees()
        assert _answers(hand) == {}


async def test_not_known_passes_on_and_takes_an_answer_away(tmp_path: Path) -> None:
    """0 goes on to the next question; on an answered one it takes the answer away."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "post_problem")
        await hand.press("1")
        await _ask(hand, "post_problem")
        await hand.press("0")
        assert _answers(hand) == {}
        assert "What is wrong with the post?" not in hand.sees()


async def test_a_size_shows_its_conversion_while_it_is_typed(tmp_path: Path) -> None:
    """0.205 in is 5.207 mm: an inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "hole_diameter")
        await hand.type("0.205 in")
        assert "5.21 mm = 0.205 in = 205 thou" in hand.reads()


async def test_a_size_typed_wrong_stays_in_its_field(tmp_path: Path) -> None:
    """One line says what is wrong; what was typed is not lost, and nothing is kept."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "hole_diameter")
        await hand.type("5.2 ells")
        await hand.press("enter")
        assert hand.app.screen.query_one(TextLine).value == "5.2 ells"
        assert "no unit of length" in hand.reads()
        assert _answers(hand) == {}
        await hand.press(*["backspace"] * 4, "m", "m", "enter")
        assert _answers(hand) == {"hole_diameter": "5.2 mm"}


async def test_a_senseless_size_is_asked_back(tmp_path: Path) -> None:
    """A hole of 52 mm in a post's place makes no sense, and the line names what would."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "hole_diameter")
        await hand.type("52")
        await hand.press("enter")
        assert "sensible: 0.5 mm to 20 mm" in hand.reads()
        assert _answers(hand) == {}


async def test_undo_takes_back_one_answer_after_the_other_even_from_within_a_field(tmp_path: Path) -> None:
    """u, or F4 in a field, asks the question again whose answer it took back."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "prior_solder")
        await hand.press("1")
        await _ask(hand, "post_problem")
        await hand.press("2")
        await _ask(hand, "hole_diameter")
        await hand.press("f4")
        assert "What is wrong with the post?" in hand.sees()
        assert _answers(hand) == {"prior_solder": "no_solder"}
        await hand.press("u", "u")
        assert _answers(hand) == {}


async def test_back_goes_through_the_questions_that_were_answered(tmp_path: Path) -> None:
    """b shows the question before with its answer, and keeps it."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "post_problem")
        await hand.press("2", "b")
        assert "So far: Torn out, post is here" in hand.sees()
        assert _answers(hand) == {"post_problem": "torn_out"}


async def test_a_reason_to_stop_stands_above_everything(tmp_path: Path) -> None:
    """Ivory at the place: the stop is on the screen with the next frame, and c reads it whole."""
    async with _second_damage(tmp_path) as hand:
        await _ask(hand, "white_part")
        await hand.press("2")
        third = hand.sees().splitlines()[2]
        assert "STOP There is ivory at the place." in third
        await hand.press("c")
        assert "No heat, no water; consult a specialist." in hand.reads()


async def test_what_follows_is_painted_before_the_next_question_is_chosen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """However long choosing takes, the answer's effect already stands there, and a key typed meanwhile waits."""
    painted: list[str] = []
    async with _second_damage(tmp_path) as hand:

        def watched(advice: Advice) -> tuple[Asked, ...]:
            if not painted:
                hand._send("2")
            painted.append(hand.sees())
            return next_questions(advice)

        monkeypatch.setattr("casebook.bench.look.next_questions", watched)
        await hand.press("1")
        assert len(painted) == 2
        assert "moved just now" in painted[0]
        assert "choosing the next question" in painted[0]
        assert "choosing" not in hand.sees()
        assert len(_answers(hand)) == 2
