"""The work told whole: who did what, what went otherwise, readings before and after, and how it held."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from casebook.bench.desk import Desk
from casebook.bench.shop import Shop
from casebook.records.book import Book
from casebook.records.case import Case, Damage, FollowUp, Measured
from casebook.records.workshop import LET_GO, OUTCOMES, BeforeAfter, Departure
from casebook.screens.app import CasebookApp
from tests.screens.hand import Hand, at_the_screens, pressing
from tests.screens.shop import CASES, TODAY, frozen_library, shop

Compare = Callable[..., bool]

_DONE = replace(CASES[0], finished=False)
_STEP = "True the hole with an end mill, to a stop; no drill in a coned hole. Measure the hole as cut."
# One damage with everything that can be told of it.
_WHOLE = replace(
    _DONE,
    damages=(
        replace(
            _DONE.damages[0],
            departures=(Departure(_STEP, "Trued with the 5.5 cutter, no stop", "its screw had sheared"),),
            measured=(Measured("hole as cut", "5.45 mm"),),
            before_after=(BeforeAfter("leak", "12", "3"), BeforeAfter("spring force", "0.2 N")),
            followups=(
                FollowUp("no", date(2025, 12, 1), "glue"),
                FollowUp(
                    "no", date(2026, 2, 20), "oil in it", True, kind="let_go", what="glue", redo_hours=0.5
                ),
                FollowUp("yes", date(2026, 3, 1), kind="knocked_again"),
            ),
        ),
    ),
)


def _shop_of(place: Path, people: dict[str, str], *cases: Case) -> Callable[[], Desk]:
    shop(place, *cases)().book.close()
    return lambda: Desk(Book.open(place), frozen_library(), TODAY, shop=Shop(people=people))


def _damage(hand: Hand) -> Damage:
    return hand.app.desk.book.case("B-0301").damages[0]


async def _backspace(hand: Hand, text: str) -> None:
    await hand.press(*["backspace"] * len(text))


# -- how it turned out -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("digit", "kind"), list(enumerate(OUTCOMES, 1)))
async def test_every_kind_of_outcome_is_kept_by_its_digit_and_only_one_counts_against(
    tmp_path: Path, digit: int, kind: str
) -> None:
    """What counts against the repair is said where the record stands, in words."""
    bare = replace(_DONE, damages=(replace(_DONE.damages[0], followups=()),))
    async with at_the_screens(shop(tmp_path / "book.db", bare)) as hand:
        await hand.press("enter", "1", "l", f"{digit}")
        assert ("What let go" in hand.sees()) == ("It started" in hand.sees()) == (kind == "let_go")
        assert ("told by phone" in hand.sees()) == (kind != "not_seen")
        await hand.press("f2")
        [seen] = _damage(hand).followups
        assert (seen.kind, seen.looked, seen.by_phone) == (kind, TODAY, False)
        assert ("against the repair" in hand.sees()) == (kind == "let_go")
        assert ("x against the repair" in hand.sees()) == seen.against


@pytest.mark.parametrize(("digit", "what"), list(enumerate(LET_GO, 1)))
async def test_what_let_go_when_it_started_and_the_hours_done_again_free_are_kept(
    tmp_path: Path, digit: int, what: str
) -> None:
    """And the free hours count in the hours shown."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "l", "2", f"{digit}", "enter")
        await hand.type("20 days ago")
        await hand.press("enter")
        await hand.type("oil in the joint")
        await hand.press("enter")
        await hand.type("90 min")
        await hand.press("enter", "2", "f2")
        seen = _damage(hand).followups[-1]
        assert (seen.what, seen.since, seen.cause, seen.redo_hours, seen.by_phone) == (
            what, date(2026, 2, 17), "oil in the joint", 1.5, True,
        )  # fmt: skip
        assert "2.9 hours, 1.5 of them done again free" in hand.reads()


async def test_an_outcome_that_cannot_be_keeps_the_form_and_esc_keeps_nothing(tmp_path: Path) -> None:
    """Started before the repair: one line, the words still there. Esc at the kinds is no outcome."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "l", "escape")
        assert hand.screen == "WorkScreen"
        await hand.press("l", "2", "1", "enter")
        await hand.type("2025-01-01")
        await hand.press("f2")
        assert hand.screen == "Form"
        assert "2025-01-01 is before it was repaired on 2025-11-06" in hand.reads()
        assert "2025-01-01" in hand.sees()
        await hand.press("escape", "escape")
        assert _damage(hand).followups == _DONE.damages[0].followups


async def test_an_outcome_written_by_mistake_is_taken_back(tmp_path: Path) -> None:
    """The last one, named with its day and kind; with none there is nothing to take back."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "l", "3", "f2", "l")
        assert "2026-03-09 knocked again" in hand.sees()
        await hand.press("7", "enter", "l", "7", "escape")
        assert len(_damage(hand).followups) == 2
        await hand.press("l", "7", "2")
        assert _damage(hand).followups == _DONE.damages[0].followups
        await hand.press("l", "7", "2", "l", "7")
        assert hand.screen == "Pick"
        assert _damage(hand).followups == ()
        await hand.press("escape")
        assert "against the repair" not in hand.reads()


async def test_an_outcome_of_older_books_without_a_kind_still_reads(tmp_path: Path) -> None:
    """`held: no` alone is taken for what it was kept as: it let go."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1")
        assert "x against the repair 2026-02-09 let go: glue" in hand.reads()
        assert "1.4 hours, repaired on 2025-11-06" in hand.reads()


# -- steps -------------------------------------------------------------------------------------------------


async def test_where_several_work_it_is_asked_once_who_does(tmp_path: Path) -> None:
    """Esc ticks nothing; a digit picks; from then on the ticks carry these initials, until i changes them."""
    people = {"HK": "the one at the lathe", "JV": "the one at the window"}
    async with at_the_screens(_shop_of(tmp_path / "book.db", people, _DONE)) as hand:
        await hand.press("enter", "1", "down", "space")
        assert "Who works?" in hand.sees()
        assert "the one at the window" in hand.sees()
        await hand.press("escape")
        assert len(_damage(hand).steps) == 1
        await hand.press("space", "2")
        assert [step.by for step in _damage(hand).steps] == ["JV", "JV"]
        assert "JV works" in hand.sees()
        await hand.press("space")
        assert hand.screen == "WorkScreen"
        await hand.press("space", "space")
        assert len(_damage(hand).steps) == 3
        await hand.press("i", "1", "space", "2", "space")
        assert [(step.by, step.done_on) for step in _damage(hand).steps[1:]] == [("JV", TODAY), ("HK", TODAY)]


@pytest.mark.parametrize(("people", "by"), [({}, ""), ({"HK": "alone"}, "HK")])
async def test_nobody_is_asked_who_works_alone(tmp_path: Path, people: dict[str, str], by: str) -> None:
    """The only initials of the shop are taken; without any the tick has none."""
    async with at_the_screens(_shop_of(tmp_path / "book.db", people, _DONE)) as hand:
        await hand.press("enter", "1", "down", "space")
        assert [step.by for step in _damage(hand).steps] == ["JV", by]


async def test_a_step_ticked_off_is_put_right_with_its_hours(tmp_path: Path) -> None:
    """Enter opens what stands there; the row shows initials, hours and day."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "enter", "tab")
        await _backspace(hand, "0.5")
        await hand.type("1:15")
        await hand.press("f2")
        [step] = _damage(hand).steps
        assert (step.by, step.hours, step.done_on) == ("JV", 1.25, date(2025, 11, 4))
        assert "JV   1.25 h 2025-11-04" in hand.sees()


async def test_hours_and_words_of_a_step_are_not_lost_by_a_slip_of_the_space_bar(tmp_path: Path) -> None:
    """A step with hours, by others, or of one's own goes only when that is said; Enter and Esc keep it."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        hand.app.desk.do_step("B-0301", 1, "Reamed by hand")
        await hand.press("enter", "1", "space", "enter", "space", "escape", *["down"] * 3, "space", "1")
        assert [step.text for step in _damage(hand).steps] == [
            "Fix the sizes on the bushing worksheet.", "Reamed by hand"
        ]  # fmt: skip
        await hand.press("space", "2")
        assert [step.hours for step in _damage(hand).steps] == [0.5]


async def test_what_somebody_else_ticked_meanwhile_is_seen_before_it_is_ticked_twice(tmp_path: Path) -> None:
    """The screen shows theirs first; their tick is neither doubled nor lost, and mine goes beside it."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "down")
        hand.app.desk.do_step("B-0301", 1, _STEP, by="HK")
        await hand.press("space")
        assert [step.by for step in _damage(hand).steps] == ["JV", "HK"]
        assert "HK" in hand.sees()
        await hand.press("down", "space")
        assert [step.by for step in _damage(hand).steps] == ["JV", "HK", ""]


async def test_the_same_step_done_twice_shows_twice(tmp_path: Path) -> None:
    """Nothing that was written down is hidden behind a row of the same words."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        hand.app.desk.do_step("B-0301", 1, _STEP, by="HK", hours=0.1)
        hand.app.desk.do_step("B-0301", 1, _STEP, by="MM", hours=0.2)
        await hand.press("enter", "1")
        assert "HK   0.1 h" in hand.sees()
        assert "MM   0.2 h" in hand.sees()


async def test_a_departure_stays_below_its_step_and_is_put_right_or_taken_away(tmp_path: Path) -> None:
    """d has the marked step already; it asks what was done and why."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "down", "d", "f2")
        assert "say what was done" in hand.reads()
        await hand.press("tab")
        await hand.type("By hand")
        await hand.press("enter")
        await hand.type("no stop")
        await hand.press("enter")
        assert _damage(hand).departures == (Departure(_STEP, "By hand", "no stop"),)
        shown = hand.sees().splitlines()
        [at] = [place for place, text in enumerate(shown) if "~ otherwise: By hand, because no stop" in text]
        assert "Measure the hole as cut." in shown[at - 1]
        assert "[~] True the hole" in shown[at - 2]
        await hand.press("d", "tab")
        await _backspace(hand, "By hand")
        await hand.press("tab")
        await _backspace(hand, "no stop")
        await hand.press("f2")
        assert _damage(hand).departures == ()


async def test_a_departure_from_no_step_of_the_plan_stands_by_itself(tmp_path: Path) -> None:
    """The words of the plan may be typed over; it is shown below all steps and no tick is made of it."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "d")
        await _backspace(hand, "Fix the sizes on the bushing worksheet.")
        await hand.type("Grade 2 glue")
        await hand.press("enter")
        await hand.type("grade 3")
        await hand.press("f2")
        assert "[~] Grade 2 glue" in hand.sees()
        assert len(_damage(hand).steps) == 1


# -- readings and sizes ------------------------------------------------------------------------------------


async def test_a_reading_before_waits_for_the_one_after(tmp_path: Path) -> None:
    """b asks for a reading, and the next time first for the one after it."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "b")
        await hand.type("leak")
        await hand.press("enter")
        await hand.type("12")
        await hand.press("f2")
        assert "leak 12 before, not read after yet" in hand.reads()
        await hand.press("b")
        assert "leak: 12 before the work, and now?" in hand.sees()
        await hand.type("3")
        await hand.press("tab", "tab")
        await hand.type("spring force")
        await hand.press("tab")
        await hand.type("0.2 N")
        await hand.press("f2")
        assert _damage(hand).before_after == (
            BeforeAfter("leak", "12", "3"),
            BeforeAfter("spring force", "0.2 N"),
        )
        assert "leak 12 before, 3 after" in hand.reads()


async def test_a_reading_before_is_put_right_or_taken_away(tmp_path: Path) -> None:
    """It stands in the form until the one after is there; emptied it is gone."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        hand.app.desk.read_before("B-0301", 1, "leak", "12", "by bulb")
        await hand.press("enter", "1", "b", "tab", "backspace")
        await hand.type("4")
        await hand.press("f2")
        assert _damage(hand).before_after == (BeforeAfter("leak", "14", "", "by bulb"),)
        await hand.press("b", "tab", "backspace", "backspace", "f2")
        assert _damage(hand).before_after == ()


async def test_a_reading_of_nothing_is_asked_what_it_is(tmp_path: Path) -> None:
    """The form stays with what was typed; left empty altogether it keeps nothing."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1", "b", "f2")
        assert _damage(hand).before_after == ()
        await hand.press("b", "tab")
        await hand.type("12")
        await hand.press("f2")
        assert "say what was read" in hand.reads()
        assert hand.screen == "Form"
        assert "12" in hand.sees()


async def test_a_size_as_made_is_in_the_worksheet_that_takes_it(tmp_path: Path) -> None:
    """The screen says so, and f shows it there as made; measured again, the first is not forgotten."""
    async with at_the_screens(shop(tmp_path / "book.db", _DONE)) as hand:
        await hand.press("enter", "1")
        for size in ("5.9 mm", "5.45 mm"):
            await hand.press("m")
            await hand.type("Hole")
            await hand.press("enter")
            await hand.type(size)
            await hand.press("f2")
        assert _damage(hand).measured == (Measured("Hole", "5.45 mm", "was 5.9 mm"),)
        assert "f computes bushing with Hole as made." in [one.message for one in hand.app._notifications]
        await hand.press("f")
        while "as made" not in hand.reads():
            await hand.press("down")
        assert "5.45 mm" in hand.sees()


# -- pictures ----------------------------------------------------------------------------------------------

_PICTURES: dict[str, tuple[str, ...]] = {
    "work_whole": (),
    "departure": ("down", "d"),
    "readings": ("b",),
    "take_away": ("space",),
    "outcome_kinds": ("l",),
    "let_go": ("l", "2", "1"),
    "knocked_again": ("l", "3"),
}


@pytest.mark.parametrize("name", _PICTURES)
def test_picture_at_80_by_24(snap_compare: Compare, tmp_path: Path, name: str) -> None:
    """As it looked when somebody last looked at it."""
    app = CasebookApp(shop(tmp_path / "book.db", _WHOLE))
    keys = ("enter", "1", *_PICTURES[name])
    assert snap_compare(app, terminal_size=(80, 24), run_before=pressing(keys))


def test_picture_at_120_by_40(snap_compare: Compare, tmp_path: Path) -> None:
    """And in a large terminal."""
    app = CasebookApp(shop(tmp_path / "book.db", _WHOLE))
    assert snap_compare(app, terminal_size=(120, 40), run_before=pressing(("enter", "1")))


def test_picture_of_who_works(snap_compare: Compare, tmp_path: Path) -> None:
    """The people of the shop, each with a digit."""
    open_desk = _shop_of(tmp_path / "book.db", {"HK": "at the lathe", "JV": "at the window"}, _WHOLE)
    app = CasebookApp(open_desk)
    assert snap_compare(app, terminal_size=(80, 24), run_before=pressing(("enter", "1", "down", "space")))
