"""Worksheets on the screen: filled from the answers, typed over, kept, and drawn to scale."""

from __future__ import annotations

from math import hypot
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.sheet import filled
from casebook.figures import worksheet
from casebook.figures.inputs import read
from casebook.figures.section import circle, drawing
from casebook.screens.fields import TextLine
from casebook.screens.section_canvas import section
from casebook.screens.sheet_text import result_content
from tests.screens.hand import at_the_screens
from tests.screens.shop import CASES, shop


async def test_a_worksheet_is_filled_from_the_answers_and_kept_with_the_damage(tmp_path: Path) -> None:
    """Flange and hole come from the look with their reading error; k keeps what was computed."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "1", "f")
        assert "from your answer: diameter of the flange" in hand.reads()
        await hand.press("k")
        [used] = hand.app.desk.book.case("B-0302").damages[0].figures
        assert used.worksheet == "bushing"
        assert used.inputs == {"flange": "7.5 mm", "hole": "5.2 mm +- 0.05 mm"}
        sheet = filled("bushing", None, "mm", [used])
        assert sheet.result is not None
        assert used.result["figures"]["outside_max"]["value"] == sheet.result.figures["outside_max"].value


async def test_choosing_keeps_the_figures_that_were_kept_before(tmp_path: Path) -> None:
    """A decision does not throw away the worksheets it rests on."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "1", "f", "k", "escape", "p", "enter", "r", "f2")
        damage = hand.app.desk.book.case("B-0302").damages[0]
        assert damage.choice is not None
        assert [used.worksheet for used in damage.figures] == ["bushing"]


async def test_a_size_typed_over_moves_the_figures_while_it_is_typed_and_esc_brings_the_old_one_back(
    tmp_path: Path,
) -> None:
    """What would follow is shown at once; only Enter takes it."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "1", "f")
        before = hand.sees()
        await hand.press("6")
        await hand.type(" mm")
        assert hand.sees().splitlines()[2:6] != before.splitlines()[2:6]
        await hand.press("escape")
        assert hand.sees() == before


async def test_an_input_that_cannot_be_used_stays_in_its_field_with_one_line(tmp_path: Path) -> None:
    """The figures stay as they were, and the line says what to type."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("down", "enter", "1", "f")
        await hand.press("6")
        await hand.type(" ells")
        await hand.press("enter")
        assert hand.app.screen.query_one(TextLine).value == "6 ells"
        assert "no unit of length" in hand.reads()


def test_a_circle_is_drawn_round() -> None:
    """Two by four dots in a cell that is twice as high as wide: as many dots across as down, within one."""
    rows = section(drawing("", [circle("body", "body", 0, 0, 10)]), 60, 20)[:-1]
    dots = _dots([row.plain for row in rows])
    across = max(x for x, _ in dots) - min(x for x, _ in dots)
    down = max(y for _, y in dots) - min(y for _, y in dots)
    assert abs(across - down) <= 1


@given(
    st.floats(0.5, 50), st.floats(-20, 20), st.floats(-20, 20), st.integers(8, 120), st.integers(5, 40)
)  # fmt: skip
def test_every_dot_of_a_circle_lies_on_it_to_within_a_dot(
    r: float, x: float, y: float, width: int, height: int
) -> None:
    """Whatever the room, the drawing keeps its scale and stays inside."""
    rows = [row.plain for row in section(drawing("", [circle("body", "", x, y, r)]), width, height)[:-1]]
    assert len(rows) <= height
    assert all(len(row) == width for row in rows)
    dots = _dots(rows)
    size = max(x for x, _ in dots)
    middle = size / 2
    for across, down in dots:
        assert abs(hypot(across - middle, down - middle) - middle) <= 1.5


def _dots(rows: list[str]) -> list[tuple[int, int]]:
    places = (
        (0, 0, 0x01),
        (0, 1, 0x02),
        (0, 2, 0x04),
        (1, 0, 0x08),
        (1, 1, 0x10),
        (1, 2, 0x20),
        (0, 3, 0x40),
        (1, 3, 0x80),
    )
    return [
        (column * 2 + dx, row * 4 + dy)
        for row, text in enumerate(rows)
        for column, character in enumerate(text)
        if character != " "
        for dx, dy, bit in places
        if ord(character) - 0x2800 & bit
    ]


@pytest.mark.parametrize("whole", [False, True])
def test_a_figure_known_from_memory_only_is_marked_with_and_without_how_it_was_made(whole: bool) -> None:
    """M1.7 stands in no table that was looked at; M2.5 does."""
    said = {}
    for thread in ("M1.7x0.35", "M2.5"):
        sheet = worksheet("thread")
        said[thread] = str(
            result_content(sheet.run(read(sheet.inputs, {"thread": thread})), "mm", whole=whole)
        )
    assert "? unverified" in said["M1.7x0.35"]
    assert "nverified" not in said["M2.5"]
