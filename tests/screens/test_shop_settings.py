"""The shop's settings at the keyboard: each changed in its own line of the file, and counted at once."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from difflib import ndiff
from pathlib import Path

import pytest

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.quoting import money_of
from casebook.screens.app import CasebookApp
from tests.screens.hand import Hand, at_the_screens
from tests.screens.shop_settings import SETTINGS, settled_shop


@asynccontextmanager
async def at_the_shop(folder: Path, settings: str | None = SETTINGS) -> AsyncIterator[Hand]:
    """Open the shop screen."""
    async with at_the_screens(settled_shop(folder, settings)) as hand:
        await hand.press("s")
        yield hand


def lines_changed(folder: Path) -> list[str]:
    """Give the lines of the file that went and came."""
    now = (folder / "shop.yaml").read_text(encoding="utf-8")
    return [row for row in ndiff(SETTINGS.splitlines(), now.splitlines()) if row[0] in "+-"]


async def go_to(hand: Hand, name: str) -> None:
    """Mark a setting by its name, and press Enter."""
    await hand.press("home")
    while name not in marked(hand):
        await hand.press("down")
    await hand.press("enter")


def marked(hand: Hand) -> str:
    """Give the id of the marked row."""
    from casebook.screens.rows import Rows

    return hand.app.screen.query_one(Rows).marked or ""


async def test_every_setting_stands_in_one_list_in_words(tmp_path: Path) -> None:
    """What is set, what is not, and what wants to be minded, with its file below."""
    async with at_the_shop(tmp_path) as hand:
        seen = hand.sees()
        for words in (
            "mm, of a bare number", "HB, JV", "inside jaws 0.02 mm less, 0.10 mm more", "65 EUR an hour",
            "30 EUR", "0 percent on top", "not charged", "0.8/1/1.5 hours", "2 flat prices",
            "0 of 1 accepted", "04-15 (the usual day)", "! 2 glues, 1 older than it keeps", "3 shelves",
        ):  # fmt: skip
            assert words in seen
        assert "shop.yaml" in hand.reads()


async def test_a_rate_is_typed_and_only_its_line_changes(tmp_path: Path) -> None:
    """With its currency behind it or without; the remark beside it stays; nonsense stays in the form."""
    async with at_the_shop(tmp_path) as hand:
        await go_to(hand, "rate")
        await hand.press("ctrl+u")
        await hand.type("dear")
        await hand.press("enter")
        assert "rate: 'dear' is no plain number, as 65 or 12.50" in hand.reads()
        assert hand.screen == "Form"
        assert lines_changed(tmp_path) == []
        await hand.press("ctrl+u")
        await hand.type("72,50 EUR")
        await hand.press("enter")
        assert "72.50 EUR an hour" in hand.sees()
        assert lines_changed(tmp_path) == [
            "- rate: 65           # an hour", "+ rate: 72,50           # an hour",
        ]  # fmt: skip


async def test_an_emptied_value_is_left_out_of_the_file(tmp_path: Path) -> None:
    """And the usual one holds."""
    async with at_the_shop(tmp_path) as hand:
        await go_to(hand, "minimum")
        await hand.press("ctrl+u", "enter")
        assert lines_changed(tmp_path) == ["- minimum: 30"]
        await go_to(hand, "season_end")
        await hand.type("03-31")
        await hand.press("enter")
        assert lines_changed(tmp_path) == ["- minimum: 30", "+ season_end: 03-31"]
        assert hand.app.desk.season_end == (3, 31)


async def test_what_was_half_typed_is_dropped_only_when_asked_twice(tmp_path: Path) -> None:
    """Esc once says so, Esc again leaves; nothing is written."""
    async with at_the_shop(tmp_path) as hand:
        await go_to(hand, "tax")
        await hand.type("19")
        await hand.press("escape")
        assert hand.screen == "Form"
        await hand.press("escape")
        assert hand.screen == "ShopScreen"
        assert lines_changed(tmp_path) == []


async def test_another_unit_and_error_count_in_a_look_that_lies_open(tmp_path: Path) -> None:
    """A bare number typed afterwards is in the new unit, with the error of the tool as now set."""
    async with at_the_screens(settled_shop(tmp_path)) as hand:
        await hand.press("down", "enter", "2")
        session = hand.app.screen.at.session  # type: ignore[attr-defined]
        assert session.unit == "mm"
        await hand.press("1", "2", "2", "enter")
        hand.app.shop()
        await hand.settle()
        await go_to(hand, "unit")
        await hand.press("2", "f2")
        await go_to(hand, "reading_errors")
        await hand.press("tab")
        await hand.type("0.05 mm")
        await hand.press("f2")
        assert lines_changed(tmp_path) == [
            "- unit: mm", "+ unit: in", "+   caliper: 0.05 mm",
        ]  # fmt: skip
        await hand.press("escape")
        assert hand.screen == "QuestionnaireScreen"
        assert session.unit == hand.app.desk.unit == "in"
        assert float(session.tools["caliper"].below) == 0.05
        await hand.type("0.3")
        await hand.press("enter")
        kept = hand.app.desk.book.case("B-0302").damages[1].looks[0].answers
        assert "0.3 in" in str(kept.values())


async def test_an_error_that_lies_more_one_way_is_typed_as_it_is_shown(tmp_path: Path) -> None:
    """Less and more; half of it is refused with both ways of typing it."""
    async with at_the_shop(tmp_path) as hand:
        await go_to(hand, "reading_errors")
        await hand.press("tab", "tab", "ctrl+u")
        await hand.type("0.02 mm less")
        await hand.press("f2")
        assert "type 0.03 mm, or 0.03 mm less, 0.1 mm more" in hand.reads()
        await hand.type(", 0.15 mm more")
        await hand.press("f2")
        assert hand.screen == "ShopScreen"
        assert lines_changed(tmp_path)[1] == "+   inside_jaws: {less: 0.02 mm, more: 0.15 mm}"


async def test_the_price_list_is_added_to_changed_and_taken_from(tmp_path: Path) -> None:
    """What is taken out can be put back; every other price stays as written."""
    async with at_the_shop(tmp_path) as hand:
        await hand.press("p", "n")
        await hand.type("play test")
        await hand.press("enter")
        await hand.type("15")
        await hand.press("enter")
        assert lines_changed(tmp_path) == ["+ - {work: play test, price: 15}"]
        await hand.press("home", "enter", "tab", "ctrl+u")
        await hand.type("22 EUR")
        await hand.press("enter")
        assert "22 EUR" in hand.sees()
        assert "  price: 22" in lines_changed(tmp_path)[1]
        await hand.press("home", "x")
        assert "post straightened" not in hand.sees()
        await hand.press("u")
        assert "post straightened" in hand.sees()
        money = hand.app.desk.shop.money  # type: ignore[union-attr]
        assert [(one.work, one.price) for one in money.prices] == [
            ("written opinion", 40), ("play test", 15), ("post straightened", 22),
        ]  # fmt: skip
        assert money.prices[2].strategies == ("straighten",)


async def test_a_price_is_the_price_of_strategies_found_by_a_word(tmp_path: Path) -> None:
    """Taken and let go by one key; a strategy with a price elsewhere is not taken twice."""
    async with at_the_shop(tmp_path) as hand:
        await hand.press("p", "down", "s")
        await hand.type("bush")
        await hand.press("enter")
        assert "● taken" in hand.sees()
        assert lines_changed(tmp_path) == ["+   strategies: [hidden_bushing]"]
        await hand.press("enter")
        assert lines_changed(tmp_path) == []
        await hand.press("escape")
        await hand.type("straighten")
        assert "(price: post straightened)" in " ".join(hand.sees().split())
        await hand.press("enter")
        assert "has a price already" in hand.reads()
        await hand.press("enter", "escape", "escape")
        assert hand.screen == "Prices"


async def test_a_price_with_a_hole_stays_in_the_form(tmp_path: Path) -> None:
    """No price, no work, or the same work twice."""
    async with at_the_shop(tmp_path) as hand:
        await hand.press("p", "n")
        await hand.type("written opinion")
        await hand.press("f2")
        assert "Price: wanted here" in hand.reads()
        await hand.type("12")
        await hand.press("f2")
        assert "written opinion stands here twice" in hand.reads()
        assert lines_changed(tmp_path) == []


async def test_people_come_go_and_are_called_otherwise(tmp_path: Path) -> None:
    """Somebody without a name is called by the initials; initials that are taken are refused."""
    async with at_the_shop(tmp_path) as hand:
        await go_to(hand, "people")
        await hand.press("n")
        await hand.type("HB")
        await hand.press("f2")
        assert "HB stands for first bench already" in hand.reads()
        await hand.press("ctrl+u")
        await hand.type("[red]")
        await hand.press("f2")
        assert hand.app.desk.shop.people["[red]"] == "[red]"  # type: ignore[union-attr]
        assert "[red]" in hand.sees()
        await hand.press("home", "x", "escape")
        assert "JV, [red]" in hand.sees()
        assert lines_changed(tmp_path) == ["-   HB: first bench", '+   "[red]": "[red]"']


async def test_a_new_bottle_of_glue_is_today_and_one_that_is_over_is_marked(tmp_path: Path) -> None:
    """The day takes 'today'; only that line changes."""
    async with at_the_shop(tmp_path) as hand:
        await hand.press("g")
        assert hand.sees().count("! older than it keeps") == 1
        await hand.press("down", "enter", "tab", "ctrl+u")
        await hand.type("tomorrow")
        await hand.press("f2")
        assert "is no day" in hand.reads()
        await hand.press("ctrl+u")
        await hand.type("today")
        await hand.press("f2")
        assert "older than it keeps" not in hand.sees()
        assert lines_changed(tmp_path) == ["-   opened: 2025-06-15", "+   opened: 2026-03-09"]


async def test_a_rule_of_the_shop_is_read_accepted_and_taken_back(tmp_path: Path) -> None:
    """Then it stands in one line and is not asked; the file holds its id."""
    async with at_the_shop(tmp_path) as hand:
        await hand.press("r")
        assert "Wood dust harms skin and lungs. Extract at the tool." in hand.reads() + hand.sees()
        await hand.press("space")
        assert "● accepted" in hand.sees()
        assert hand.app.desk.accepted == {"caution_wood_dust"}
        assert lines_changed(tmp_path) == ["+ shop_rules: [caution_wood_dust]"]
        await hand.press("space")
        assert (hand.app.desk.accepted, lines_changed(tmp_path)) == (frozenset(), [])


async def test_a_shelf_is_one_line_and_says_while_it_is_typed_how_it_is_understood(tmp_path: Path) -> None:
    """Pieces counted, nonsense named with the sensible range, the remark beside it kept."""
    async with at_the_screens(settled_shop(tmp_path)) as hand:
        hand.app.drawer()
        await hand.settle()
        assert "131 pieces" in hand.sees()
        await go_to(hand, "cutters")
        assert "5 mm, 5,5 mm" in hand.sees()
        await hand.press("ctrl+u")
        await hand.type("2 to 10 by 0.5 mm")
        assert "understood as 17 pieces, 2 mm ... 10 mm" in hand.reads()
        await hand.type(", 900 mm")
        assert "'900 mm' makes no sense here (sensible: 0.3 mm to 60 mm)" in hand.reads()
        await hand.press("f2")
        assert hand.screen == "ShelfForm"
        assert lines_changed(tmp_path) == []
        await hand.press(*["backspace"] * len(", 900 mm"))
        await hand.press("f2")
        assert "17 pieces" in hand.sees()
        assert lines_changed(tmp_path)[-1] == "+   cutters: 2 to 10 by 0.5 mm   # sharp ones"
        assert len(hand.app.desk.shop.drawer["cutters"].split("; ")) == 17  # type: ignore[union-attr]


async def test_a_shelf_written_as_a_list_stays_when_nothing_is_changed(tmp_path: Path) -> None:
    """Kept as shown it means the same; emptied, the standard series holds."""
    async with at_the_screens(settled_shop(tmp_path)) as hand:
        hand.app.drawer()
        await hand.settle()
        await go_to(hand, "taps")
        before = hand.app.desk.shop
        await hand.press("f2")
        assert hand.app.desk.shop == before
        await go_to(hand, "taps")
        await hand.press("ctrl+u", "f2")
        assert "taps" not in hand.app.desk.shop.drawer  # type: ignore[union-attr]
        assert "the standard series" in hand.sees()


async def test_what_was_changed_by_hand_meanwhile_is_shown_and_kept(tmp_path: Path) -> None:
    """The form stays with what was typed; done again it goes in beside the other change."""
    async with at_the_shop(tmp_path) as hand:
        await go_to(hand, "tax")
        await hand.type("19")
        place = tmp_path / "shop.yaml"
        place.write_text(place.read_text(encoding="utf-8").replace("rate: 65", "rate: 80"), encoding="utf-8")
        await hand.press("f2")
        assert "changed outside meanwhile" in hand.reads()
        await hand.press("f2")
        assert "80 EUR an hour" in hand.sees()
        assert "19 percent" in hand.sees()
        assert "rate: 80" in place.read_text(encoding="utf-8")


async def test_a_new_shop_is_asked_once_then_reads_its_rules(tmp_path: Path) -> None:
    """Unit, initials, currency and rate; the file is made; the next start asks nothing."""
    async with at_the_screens(settled_shop(tmp_path, None)) as hand:
        await hand.press("3", "enter")
        await hand.type("AB")
        await hand.press("enter", "enter")
        await hand.type("EUR")
        await hand.press("enter")
        await hand.type("much")
        await hand.press("enter")
        assert "rate: 'much' is no plain number" in hand.reads()
        assert not (tmp_path / "shop.yaml").exists()
        await hand.press("ctrl+u")
        await hand.type("55 EUR")
        await hand.press("enter")
        assert hand.screen == "ShopRulesScreen"
        await hand.press("a", "escape")
        assert hand.screen == "CasesScreen"
        shop = hand.app.desk.shop
        assert shop is not None
        assert (shop.unit, dict(shop.people), shop.money.rate) == ("thou", {"AB": "AB"}, 55)
        assert hand.app.desk.accepted == {"caution_wood_dust"}
    async with at_the_screens(settled_shop(tmp_path, (tmp_path / "shop.yaml").read_text())) as hand:
        assert hand.screen == "CasesScreen"


async def test_a_new_shop_may_put_it_off_for_today_or_for_good(tmp_path: Path) -> None:
    """Esc writes nothing and it is asked again; F4 makes a file in which nothing is set."""
    async with at_the_screens(settled_shop(tmp_path, None)) as hand:
        await hand.press("escape")
        assert hand.screen == "CasesScreen"
        assert not (tmp_path / "shop.yaml").exists()
    async with at_the_screens(settled_shop(tmp_path, None)) as hand:
        assert hand.screen == "FirstRun"
        await hand.press("f4")
        assert hand.screen == "CasesScreen"
        text = (tmp_path / "shop.yaml").read_text(encoding="utf-8")
        assert all(row.startswith("#") for row in text.splitlines())


async def test_an_id_that_the_packs_do_not_know_is_told_and_the_rest_counts(tmp_path: Path) -> None:
    """On opening and on the shop screen; the rate can be changed nevertheless."""
    settings = SETTINGS.replace("[straighten]", "[straigten]")
    async with at_the_screens(settled_shop(tmp_path, settings)) as hand:
        assert "did you mean straighten?" in hand.reads()
        await hand.press("enter")
        await hand.press("s")
        assert "no strategy is called 'straigten'" in hand.reads()


@pytest.mark.parametrize(
    ("broken", "line", "says"),
    [
        ("  price: 20", "  price:", "price: is empty"),
        ("5 mm, 5,5 mm", "5 mm, 500 mm", "'500 mm' makes no sense here"),
    ],
)
async def test_a_broken_file_is_one_line_on_opening_and_nothing_is_lost(
    tmp_path: Path, broken: str, line: str, says: str
) -> None:
    """With file and line, and the way out; the file is left as it is."""
    settings = SETTINGS.replace(broken, line)
    app = CasebookApp(settled_shop(tmp_path, settings))
    async with app.run_test(size=(80, 24)) as pilot:
        hand = Hand(pilot, app)
        await hand.settle()
        number = settings[: settings.index(line)].count("\n") + 1
        assert f"shop.yaml, line {number}: " in hand.reads()
        assert says in hand.reads()
        await hand.press("enter")
    assert app.return_code == 1
    assert (tmp_path / "shop.yaml").read_text(encoding="utf-8") == settings


async def test_a_shop_without_a_file_of_settings_says_how_to_have_one(tmp_path: Path) -> None:
    """Nothing is changed that would be gone with the program."""
    from tests.screens.shop import CASES, shop

    async with at_the_screens(shop(tmp_path / "book.db", *CASES)) as hand:
        await hand.press("s")
        assert "--shop FILE" in hand.reads()
        await go_to(hand, "rate")
        await hand.type("50")
        await hand.press("f2")
        assert "keeps no file of settings" in hand.reads()


async def test_every_shop_screen_can_be_made_small_and_has_its_help(tmp_path: Path) -> None:
    """And Esc leads back from each."""
    async with at_the_shop(tmp_path) as hand:
        for keys, name in (
            ((), "ShopScreen"), (("p",), "Prices"), (("s",), "PriceOfScreen"), (("escape", "escape", "g"), "Glues"),
            (("escape", "r"), "ShopRulesScreen"), (("escape", "d"), "DrawerScreen"),
        ):  # fmt: skip
            await hand.press(*keys)
            assert hand.screen == name
            for size in ((40, 10), (200, 60), (80, 24)):
                await hand.pilot.resize_terminal(*size)
                await hand.settle()
            await hand.press("f1")
            assert hand.screen == "Help"
            await hand.press("escape")
        await hand.press("escape", "escape")
        assert hand.screen == "CasesScreen"


async def test_a_quote_takes_the_new_price_at_once(tmp_path: Path) -> None:
    """With the packs as they ship: an hour's price set on the screen is the one a quote counts with."""

    def library() -> Library:
        return Library()

    async with at_the_screens(settled_shop(tmp_path, "rate: 50\n", library)) as hand:
        await hand.press("s")
        await go_to(hand, "rate")
        await hand.press("ctrl+u")
        await hand.type("60")
        await hand.press("enter")
        desk: Desk = hand.app.desk
        assert money_of(desk).rate == 60
