"""Days of a shop at the keyboard, on the rule packs as they ship; the test sets the dates, nothing sleeps."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.records.book import Book
from casebook.screens.questionnaire import QuestionnaireScreen
from tests.screens.hand import Hand, at_the_screens

LIBRARY = Library()
# What the owner says when it comes in.
INTAKE = {
    "owner_aim": "play_daily", "historical_importance": "ordinary", "owner_consent": "sound_repair",
    "body_wood": "grenadilla", "key_metal": "nickel_silver", "white_part": "none_seen", "age_class": "after_1970",
}  # fmt: skip


def _desk(place: Path, clock: list[datetime]) -> Callable[[], Desk]:
    return lambda: Desk(Book.open(place), LIBRARY, clock[0].date(), clock=lambda: clock[0])


async def _answer(hand: Hand, plan: Mapping[str, str | list[str]]) -> None:
    """Answer what is asked as somebody who knows this much; the rest is not known yet."""
    left = dict(plan)
    for _ in range(80):
        screen = hand.app.screen
        assert isinstance(screen, QuestionnaireScreen)
        question = screen._question
        if question is None or not left:
            return
        said = left.pop(question, None)
        if said is None:
            await hand.press("ctrl+n")
            continue
        known = screen.at.session.guide.questions[question]
        if known.measured:
            assert isinstance(said, str)
            await hand.type(said)
            await hand.press("enter")
            continue
        ids = [option.id for option in screen.at.session.options(question)]
        if isinstance(said, list):
            await hand.press(*[f"{ids.index(one) + 1}" for one in said], "enter")
        else:
            await hand.press(f"{ids.index(said) + 1}")


async def _through_the_plan(hand: Hand) -> None:
    """Read the dangers, get the yes, choose."""
    for _ in range(8):
        match hand.screen:
            case "Dangers":
                await hand.press("r")
            case "Mind":
                await hand.press("enter")
            case "Form" if "may it be done?" in hand.reads():
                await hand.press("1", "f2")
            case "Form":
                await hand.press("f2")
            case _:
                return


async def test_the_knocked_off_post_with_earlier_solder(tmp_path: Path) -> None:
    """Two looks: the solder comes off first; what was judged under it is asked anew, and both looks stay."""
    clock = [datetime(2026, 3, 2, 10, 0)]
    async with at_the_screens(_desk(tmp_path / "book.db", clock)) as hand:
        await hand.press("n")
        await hand.type("Low F post off")
        await hand.press("enter", "4", "enter", "enter", "enter", "enter", "enter")
        await hand.type("It fell, again.")
        await hand.press("f2", "6", "enter")
        await hand.type("low F key, lower post")
        await hand.press("f2")
        await _answer(
            hand,
            INTAKE
            | {
                "post_problem": "torn_out", "prior_solder": "soft_solder",
                "solder_where": ["on_shank", "in_wood"], "flange_diameter": "7 mm",
            },
        )  # fmt: skip
        await hand.press("p")
        assert "Clean out the solder" in hand.reads() or "solder" in hand.reads()
        await hand.press("enter")
        await _through_the_plan(hand)
        assert hand.screen == "WorkScreen"
        await hand.press("space", "space")
        clock[0] = datetime(2026, 3, 3, 9, 0)
        await hand.press("o")
        assert hand.screen == "SecondLookScreen"
        await hand.press("enter")
        assert "second look" in hand.sees()
        await _answer(
            hand,
            {
                "post_problem": "torn_out",
                "prior_solder": "no_solder",
                "post_hole": ["coned_out"],
                "flange_diameter": "6.9 mm",
            },
        )
        case = hand.app.desk.book.case(hand.app.desk.on_the_bench()[0].number)
        first, second = case.damages[0].looks
        assert (str(first.taken), str(second.taken)) == ("2026-03-02", "2026-03-03")
        assert (first.answers["prior_solder"], second.answers["prior_solder"]) == ("soft_solder", "no_solder")
        assert second.answers["post_hole"] == {"all": ["coned_out"]}
        assert case.owner_words == "It fell, again."
        assert len(case.damages[0].steps) == 2


async def test_a_crack_that_waits_for_wood(tmp_path: Path) -> None:
    """Weeks of dated readings: moving, then the same three times, and the job stands under 'me' again."""
    clock = [datetime(2026, 2, 2, 9, 0)]
    async with at_the_screens(_desk(tmp_path / "book.db", clock)) as hand:
        await hand.press("n")
        await hand.type("Crack in the head joint")
        await hand.press("enter", "1", "f2", "2", "enter")
        await hand.type("head joint")
        await hand.press("f2")
        await _answer(
            hand,
            INTAKE
            | {
                "wood_state": "dry_shrunk", "crack_moving": "still_opening", "crack_place": "body_plain",
                "crack_depth": "deep_not_through", "crack_width": "0.15 mm",
            },
        )  # fmt: skip
        await hand.press("p")
        assert "Rest" in hand.sees()
        await hand.press("enter")
        await _through_the_plan(hand)
        assert hand.screen == "WorkScreen"
        await hand.press("escape", "escape", "v")
        await hand.type("2026-03-20")
        await hand.press("enter")
        await hand.type("a wedding")
        await hand.press("f2", "w", "3", "f2")
        readings = (
            ("2026-02-02", "98.4", "26.10"), ("2026-02-09", "99.6", "26.18"), ("2026-02-23", "100.4", "26.24"),
            ("2026-03-03", "100.6", "26.26"), ("2026-03-05", "100.6", "26.26"), ("2026-03-09", "100.6", "26.27"),
        )  # fmt: skip
        for day, weight, width in readings:
            clock[0] = datetime.fromisoformat(f"{day}T09:00")
            await hand.press("y")
            await hand.type(weight)
            await hand.press("enter", "enter")
            await hand.type(width)
            await hand.press("f2")
            if day == "2026-03-05":
                assert "the same 2 of 3 times, weigh on Sun 8 Mar" in hand.reads()
        assert "wood at rest since Tue 3 Mar" in hand.reads()
        await hand.press("escape")
        [row] = hand.app.desk.bench_list()
        assert (row.waits_for, row.overdue) == ("me", False)
        assert "wood at rest since Tue 3 Mar" in hand.reads()
        assert "Fri 20 Mar, for a wedding" in hand.reads()
