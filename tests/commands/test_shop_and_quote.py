"""`casebook shop` and `casebook quote`, and the shop's settings in every other command."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.line import Casebook

Write = Callable[[str, str], str]

SHOP = """\
unit: in
currency: EUR
rate: 60
once: 1/1/1
looking: 25
drawer: {drills: [2.1 mm]}
prices:
- {work: needle spring, price: 25, strategies: [spring_replace_needle]}
"""
ANSWERS = """\
answers: {owner_aim: play_daily}
damages:
- {family: posts, place: low E, answers: {post_problem: misaligned_only}}
- {family: springs, place: A key, answers: {}}
"""


def test_without_a_file_the_usual_values_are_shown(casebook: Casebook) -> None:
    """And where the file would lie."""
    said = casebook("shop")
    assert said.status == 0
    assert "no file yet" in said.out
    assert "caliper 0.03 mm" in said.out
    assert casebook("shop", "--json").data["file"] is None


def test_the_example_is_a_file_that_passes_the_check(casebook: Casebook, write: Write) -> None:
    """Printed, saved and checked as it stands."""
    place = write("shop.yaml", casebook("shop", "example").out)
    said = casebook("shop", "check", place)
    assert (said.status, said.out.strip()) == (0, f"{place}: fine")
    assert casebook("--shop", place, "shop", "--json").data["money"]["rate"] == 65


@pytest.mark.parametrize(
    ("text", "status", "says"),
    [
        ("rate: much", 3, "line 1: the shop: rate"),
        ("prices:\n- work: a pad", 3, "price is missing"),
        ("shop_rules: [no_such_rule]", 3, "no_such_rule"),
    ],
)
def test_a_broken_file_is_one_line(
    casebook: Casebook, write: Write, text: str, status: int, says: str
) -> None:
    """With its name, the line and what is wrong."""
    said = casebook("shop", "check", write("shop.yaml", text))
    assert said.status == status
    assert says in said.one_line()
    assert "shop.yaml" in said.err


def test_a_named_file_must_be_there(casebook: Casebook, tmp_path: Path) -> None:
    """Whoever names a file means it; nothing is worked out with other values."""
    for words in (("shop",), ("shop", "check"), ("worksheet", "tap-drill", "thread=3-48")):
        said = casebook("--shop", str(tmp_path / "none.yaml"), *words)
        assert said.status == 2
        assert "no such file" in said.one_line()


def test_the_shop_file_in_the_data_folder_is_found(casebook: Casebook, tmp_path: Path) -> None:
    """Beside the book: its drawer and its unit count without a word on the command line."""
    folder = tmp_path / "data" / "casebook"
    folder.mkdir(parents=True)
    (folder / "shop.yaml").write_text(SHOP, encoding="utf-8")
    said = casebook("worksheet", "tap-drill", "thread=3-48")
    assert "#47 is not in your drawer; the nearest is 2.1 mm" in said.out
    assert "0.0787 in" in said.out
    assert "78.7 thou" in casebook("--unit", "thou", "worksheet", "tap-drill", "thread=3-48").out


def test_the_phone_line(casebook: Casebook, write: Write) -> None:
    """A range, what it was near, what looking costs, when the owner is rung; no book is needed or made."""
    shop, answers = write("shop.yaml", SHOP), write("answers.yaml", ANSWERS)
    said = casebook("--shop", shop, "quote", answers)
    assert said.status == 0
    line = " ".join(said.out.split())
    assert line.startswith("Unseen, between ")
    assert "Looking costs 25 EUR and comes off the bill. I ring you before I pass " in line
    data = casebook("--shop", shop, "quote", answers, "--json").data
    assert data["price_low"] < data["price_likely"] < data["price_high"] <= data["price_most"]
    assert [one["damage"] for one in data["damages"]] == [1, 2]
    assert not Path(shop).with_name("book.db").exists()


def test_must_and_can_wait_are_said_by_damage(casebook: Casebook, write: Write) -> None:
    """What can wait is listed and not in the sum."""
    shop, answers = write("shop.yaml", SHOP), write("answers.yaml", ANSWERS)
    words = ("--shop", shop, "quote", answers, "--json")
    whole = casebook(*words).data
    part = casebook(*words, "--must", "1", "--can-wait", "2").data
    assert [one["urgency"] for one in part["damages"]] == ["must", "can_wait"]
    assert part["price_likely"] < whole["price_likely"]
    said = casebook(*words, "--must", "7")
    assert said.status == 1
    assert "no damage 7" in said.one_line()


def test_without_a_rate_no_price_is_guessed(casebook: Casebook, write: Write) -> None:
    """The hours are shown, and one line says where to set the rate."""
    said = casebook("quote", write("answers.yaml", ANSWERS))
    assert said.status == 1
    assert "rate" in said.one_line()
    assert "likely" in said.out


def test_neither_case_nor_file(casebook: Casebook, write: Write) -> None:
    """One line says so."""
    casebook("record", write("cases.yaml", "cases: [{number: B-1, title: x, damages: []}]"))
    said = casebook("quote", "B-99")
    assert said.status == 1
    assert "B-99" in said.one_line()
