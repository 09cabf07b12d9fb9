"""Readings as taken: the tool's error, crests, go and no-go, and a line from the measuring card."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.card import card
from casebook.bench.library import Library
from casebook.bench.look import LookSession, NotTaken
from casebook.bench.sheet import filled
from casebook.bench.shop import Shop
from casebook.guide.knowledge import read_answers
from casebook.quantity import INCH, TOOL_ERRORS, ToolError

LIBRARY = Library()
POSTS = LIBRARY.guide("posts")


def session(tools: bool = True) -> LookSession:
    """A look at a post that keeps nothing."""
    return LookSession(POSTS, {}, lambda _question, _answer: None, tools=TOOL_ERRORS if tools else None)


def bounds(typed: str, question: str = "hole_diameter_top", tools: bool = True) -> tuple[float, float]:
    """Give how far under and over its value a reading may be."""
    reading = session(tools).read(question, typed)
    return float(reading.value - reading.low), float(reading.high - reading.value)


@pytest.mark.parametrize(
    ("question", "error"), [("shank_diameter", 0.01), ("flange_diameter", 0.03), ("hole_depth", 0.1)]
)
def test_a_size_has_the_error_of_its_questions_tool(question: str, error: float) -> None:
    """Micrometer 0.01, caliper 0.03, depth rod 0.1 mm (common practice, no source)."""
    assert bounds("2.5 mm", question) == pytest.approx((error, error))


def test_without_a_shop_every_size_has_the_usual_error() -> None:
    """0.02 mm, as answers files have it."""
    assert bounds("2.5 mm", "flange_diameter", tools=False) == pytest.approx((0.02, 0.02))
    knowledge, _ = read_answers(POSTS, {"hole_depth": "5 mm"}, "answers")
    assert knowledge.readings["hole_depth"].high == Fraction("5.02")


def test_jaws_in_a_small_hole_read_small() -> None:
    """The true size lies further above the reading than below it (common practice, no source)."""
    assert bounds("5.2 mm by inside jaws") == pytest.approx((0.03, 0.1))
    assert bounds("5.2 by jaws") == pytest.approx((0.03, 0.1))


def test_an_error_of_its_own_comes_before_the_tools() -> None:
    """Whoever says it knows."""
    assert bounds("5.2 mm +- 0.05 by jaws") == pytest.approx((0.05, 0.05))


def test_go_and_no_go_is_an_interval() -> None:
    """Between #21 (0.159 in) and #20 (0.161 in), whatever the tool (drill tables)."""
    reading = session().read("hole_diameter_top", "goes #21 not #20")
    assert (reading.low / INCH, reading.high / INCH) == (Fraction("0.159"), Fraction("0.161"))


def test_a_pitch_over_crests_shares_the_error() -> None:
    """Seven crests over 3.2 mm are six pitches of 0.5333 mm; 0.03 mm of a caliper becomes 0.005."""
    reading = session().read("shank_pitch", "7 crests over 3.2 mm by caliper")
    assert reading.value == Fraction("3.2") / 6
    assert reading.high - reading.value == Fraction("0.03") / 6


@pytest.mark.parametrize("typed", ["1 crests over 3 mm", "7 crests over 0 mm", "5.2 mm by spoon"])
def test_what_is_no_reading_is_said_in_one_line(typed: str) -> None:
    """And what to type instead."""
    with pytest.raises(NotTaken) as refused:
        session().read("shank_pitch", typed)
    assert "\n" not in str(refused.value)


@given(st.integers(100, 900), st.integers(0, 30), st.integers(0, 30))
def test_a_larger_error_of_the_tool_only_widens(value: int, below: int, above: int) -> None:
    """And holds what the smaller one held."""
    small = {"gauge": ToolError(Fraction(below, 100), Fraction(above, 100))}
    large = {"gauge": ToolError(Fraction(below + 1, 100), Fraction(above + 1, 100))}
    answers = {"hole_diameter_top": f"{value / 100} mm"}
    one, other = (
        read_answers(POSTS, answers, "a", errors=errors)[0].readings["hole_diameter_top"]
        for errors in (small, large)
    )
    assert other.low < one.low <= one.value <= one.high < other.high


def test_a_worksheet_filled_from_the_answers_has_the_same_doubt() -> None:
    """The tool goes along with the size, so the check of the guide and of the sheet are one."""
    look = session()
    look.answer("flange_diameter", "7 mm")
    look.answer("hole_diameter_top", "5.2 by jaws")
    sheet = filled("bushing", look, "mm", shop=Shop())
    assert sheet.typed["flange"] == "7 mm by caliper"
    assert sheet.result is not None
    assert sheet.result.inputs.spans["hole"].high == pytest.approx(5.3)
    assert sheet.result.inputs.spans["flange"].high == pytest.approx(7.03)


def test_a_worksheet_takes_the_shops_drawer() -> None:
    """And shows it as its input, to be typed over."""
    sheet = filled("tap_drill", None, "mm", shop=Shop(drawer={"drills": "2.1 mm"}))
    sheet.put("thread", "3-48")
    assert sheet.shown("drills") == "2.1 mm"
    assert sheet.result is not None
    assert [row["drill"] for row in sheet.result.rows if row["chosen"]] == ["2.1 mm"]
    other = sheet.tried("drills", "#47").result
    assert other is not None
    assert [row["drill"] for row in other.rows if row["chosen"]] == ["#47"]


# -- the measuring card ------------------------------------------------------------------------------------


def test_every_family_has_letters_that_are_not_taken_for_figures() -> None:
    """Each size has one letter, none is I, M or O, and they do not depend on the answers."""
    for pack in LIBRARY.families:
        lines = card(LIBRARY.guide(pack.id))
        letters = [line.letter for line in lines]
        assert len(set(letters)) == len(letters)
        assert not {"I", "M", "O"} & set(letters)


def test_a_line_of_letters_is_taken() -> None:
    """Sizes as typed, bare ones in the shop's unit, in any spelling of the letters."""
    look = session()
    letter = {line.question: line.letter for line in card(POSTS)}
    flange, hole, body = (letter[q] for q in ("flange_diameter", "hole_diameter_top", "body_diameter_here"))
    taken = look.answer_card(f"{flange} 7.5 {hole}5.2 by jaws, {body}: 1 1/16 in")
    assert taken == ("flange_diameter", "hole_diameter_top", "body_diameter_here")
    assert look.answers == {
        "flange_diameter": "7.5 mm", "hole_diameter_top": "5.2 mm by jaws", "body_diameter_here": "1 1/16 in",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("A 7.5 A 7.6", "twice"),
        ("A 7.5 B", "no size behind it"),
        ("Z 7.5", "no letter of this card"),
        ("7.5 B 5.2", "no letter before it"),
        ("", "no letter before it"),
        ("A 7.5 B lots", "thickness of the flange"),
        ("A 7.5 B 700", "sensible"),
    ],
)
def test_a_line_that_does_not_fit_takes_nothing(line: str, says: str) -> None:
    """All of it or nothing, and one line that says which letter."""
    look = session()
    with pytest.raises(NotTaken, match=says) as refused:
        look.answer_card(line)
    assert look.answers == {}
    assert "\n" not in str(refused.value)


def test_a_size_that_cannot_be_there_is_not_taken() -> None:
    """A lost post has no shank to measure."""
    look = session()
    look.answer("post_problem", "post_lost")
    letter = next(line.letter for line in card(POSTS) if line.question == "shank_length")
    with pytest.raises(NotTaken, match="does not apply"):
        look.answer_card(f"{letter} 6")
