"""Two people on one case: both sides on the screen, a clear choice, and nothing typed lost."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from casebook.records.case import Case
from casebook.screens.app import CasebookApp
from tests.screens.hand import Hand, at_the_screens, pressing
from tests.screens.shop import CASES, shop

Compare = Callable[..., bool]

_OPEN = replace(CASES[0], finished=False)
_TITLE = CASES[1].title


def _case(hand: Hand, number: str = "B-0302") -> Case:
    return hand.app.desk.book.case(number)


def _somebody_else(hand: Hand, **wrote: Any) -> None:
    now = _case(hand)
    hand.app.desk.amend(now, replace(now, **wrote))


async def _write_a_title(hand: Hand, title: str) -> None:
    """Open what was taken in, and type another title over it; not kept yet."""
    await hand.press("enter", "e", *["backspace"] * len(_TITLE))
    await hand.type(title)


async def test_what_somebody_else_wrote_elsewhere_on_the_case_is_no_question(tmp_path: Path) -> None:
    """Their answer, their damage and their words for the owner stay; my title is kept at once."""
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _write_a_title(hand, "Post torn out")
        _somebody_else(hand, owner="owner 9")
        hand.app.desk.book.save_intake_answer("B-0302", "instrument_kind", "oboe")
        damages = hand.app.desk.add_damage("B-0302", "posts", "trill key")
        await hand.press("f2")
        assert hand.screen == "CaseScreen"
        case = _case(hand)
        assert (case.title, case.owner, len(case.damages)) == ("Post torn out", "owner 9", damages)
        assert case.answers["instrument_kind"] == "oboe"


async def test_what_both_wrote_is_shown_from_both_sides_and_theirs_is_kept_unless_i_say_mine(
    tmp_path: Path,
) -> None:
    """Enter keeps theirs; what I alone changed is kept beside it."""
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _write_a_title(hand, "Post torn out")
        await hand.press("tab", "tab")
        await hand.type(", in a black box")
        _somebody_else(hand, title="Upper post out")
        await hand.press("f2")
        assert hand.screen == "BothSides"
        shown = hand.reads()
        assert "1 theirs Upper post out" in shown
        assert "2 mine Post torn out" in shown
        assert "in a black box" not in shown
        await hand.press("enter")
        assert hand.screen == "CaseScreen"
        case = _case(hand)
        assert case.title == "Upper post out"
        assert case.instrument.description.endswith(", in a black box")
        assert "Upper post out" in hand.sees()


async def test_mine_is_kept_by_its_digit(tmp_path: Path) -> None:
    """2 puts mine there; the case screen shows it."""
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _write_a_title(hand, "Post torn out")
        _somebody_else(hand, title="Upper post out")
        await hand.press("f2", "2")
        assert hand.screen == "CaseScreen"
        assert _case(hand).title == "Post torn out"
        assert "Post torn out" in hand.sees()


async def test_esc_decides_later_and_all_that_was_typed_is_still_there(tmp_path: Path) -> None:
    """Nothing is written; the form says so, F2 asks again, and only Esc asked twice throws it away."""
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _write_a_title(hand, "Post torn out")
        _somebody_else(hand, title="Upper post out")
        await hand.press("f2", "escape")
        assert hand.screen == "Form"
        assert "Post torn out" in hand.sees()
        assert "F2 shows both sides" in hand.reads()
        assert _case(hand).title == "Upper post out"
        await hand.press("f2", "2")
        assert _case(hand).title == "Post torn out"


async def test_what_changes_while_both_sides_are_read_is_shown_anew(tmp_path: Path) -> None:
    """No third edit is overwritten unseen either."""
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _write_a_title(hand, "Post torn out")
        _somebody_else(hand, title="Upper post out")
        await hand.press("f2")
        _somebody_else(hand, title="Both posts out")
        await hand.press("2")
        assert hand.screen == "BothSides"
        assert "changed once more" in hand.reads()
        assert "1 theirs Both posts out" in hand.reads()
        assert _case(hand).title == "Both posts out"
        await hand.press("2")
        assert _case(hand).title == "Post torn out"


async def test_the_record_of_the_work_is_not_overwritten_unseen(tmp_path: Path) -> None:
    """Two write what was done; both texts are shown with the damage, and the hours of one are kept."""
    async with at_the_screens(shop(tmp_path / "book.db", _OPEN)) as hand:
        await hand.press("enter", "1", "r")
        await hand.press("end")
        await hand.type(" And washed.")
        base = _case(hand, "B-0301")
        hand.app.desk.record_done(base, 1, done="Bushed by somebody else.", hours=3.0)
        await hand.press("f2")
        assert "damage 1, done" in hand.sees()
        assert "Bushed by somebody else." in hand.reads()
        await hand.press("2")
        damage = _case(hand, "B-0301").damages[0]
        assert damage.done.endswith("And washed.")
        assert damage.hours == 3.0


async def test_long_and_hostile_words_of_both_are_text_and_can_be_read_to_their_end(tmp_path: Path) -> None:
    """Markup does nothing, and down reads on."""
    long = " ".join(["[bold red]word[/]"] * 120) + " the end"
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _write_a_title(hand, "[b]mine[/b]")
        _somebody_else(hand, title=long)
        await hand.press("f2")
        assert "[bold red]word[/]" in hand.sees()
        assert "[b]mine[/b]" not in hand.sees()
        await hand.press(*["down"] * 12)
        assert "[b]mine[/b]" in hand.sees()
        assert "keep theirs" in hand.sees()


async def test_a_case_that_is_gone_while_both_sides_are_read_is_said_in_one_line(tmp_path: Path) -> None:
    """The dialog stays with mine in it; Esc leads back to the form with all that was typed."""
    async with at_the_screens(shop(tmp_path / "book.db", CASES[1])) as hand:
        await _write_a_title(hand, "Post torn out")
        _somebody_else(hand, title="Upper post out")
        await hand.press("f2")
        hand.app.desk.book.remove("B-0302")
        await hand.press("2")
        assert "there is no case B-0302" in hand.reads()
        await hand.press("escape")
        assert hand.screen == "Form"
        assert "Post torn out" in hand.sees()


def test_picture_of_both_sides(snap_compare: Compare, tmp_path: Path) -> None:
    """Theirs above mine, and the three ways on."""
    app = CasebookApp(shop(tmp_path / "book.db", CASES[1]))

    async def two_write(pilot: Pilot[Any]) -> None:
        await pressing(["enter", "e", "= Low C, too.", "tab", "tab", "tab", "tab", "tab", "=owner 8"])(pilot)
        hand = Hand(pilot, app)
        _somebody_else(hand, title="Upper post of G sharp", owner="owner 9")
        await hand.press("f2")

    assert snap_compare(app, terminal_size=(80, 24), run_before=two_write)


async def test_the_visit_written_by_both_is_shown_from_both_sides(tmp_path: Path) -> None:
    """What came with it, changed by the other bench while the form lay open, is not written over unseen."""
    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        desk = hand.app.desk
        await hand.press("enter", "v", "enter", "enter")
        desk.visit("B-0303", came_in_with="case, crook, strap", needed_for="an audition")
        await hand.type(", swab")
        await hand.press("f2")
        assert hand.screen == "BothSides"
        assert "case, crook, strap" in hand.reads()
        assert "case, crook, swab" in hand.reads()
        await hand.press("2")
        visit = desk.book.case("B-0303").visit
        assert (visit.came_in_with, visit.needed_for) == ("case, crook, swab", "an audition")
