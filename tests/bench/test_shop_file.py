"""The shop's file: what it sets, what it refuses with file and line, and the way back into a file."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.library import Library
from casebook.bench.shop import Glue, Money, Price, Shop
from casebook.bench.shop_file import read_shop, write_shop
from casebook.bench.shop_ids import refuse_unknown
from casebook.bench.shop_text import example
from casebook.figures.drawer import pieces
from casebook.figures.inputs import list_of
from casebook.quantity import TOOL_ERRORS, ToolError
from casebook.strict_yaml import BrokenFile

TODAY = date(2026, 11, 25)


def read(text: str) -> Shop:
    """Read a shop's file."""
    return read_shop(text, "shop.yaml", TODAY)


def test_the_example_reads_and_knows_the_packs() -> None:
    """What the program gives to begin with is fine as it stands, and names only what there is."""
    shop = read(example())
    refuse_unknown(shop, Library(), "shop.yaml")
    assert shop.money.flat("spring_replace_needle") is not None
    # Number drills #1 to #80 and 51 sizes from 1 to 6 mm.
    assert len(list_of(shop.drawer["drills"])) == 80 + 51


def test_an_empty_file_is_the_defaults() -> None:
    """As a file that is not there."""
    assert read("") == read("# nothing yet\n") == Shop()
    assert Shop().tools == TOOL_ERRORS


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("unit: furlong", 1, "none of mm, in, thou"),
        ("rate: -5", 1, "plain number"),
        ("rate: NaN", 1, "plain number"),
        ("rate: 9999999", 1, "sensible"),
        ("tax: 101", 1, "sensible: 0 to 100"),
        ("unit: mm\nrat: 60", 2, "did you mean rate"),
        ("prices:\n- work: a pad\n", 2, "price is missing"),
        ("prices:\n- work: a pad\n  price:\n", 3, "is empty"),
        ("prices:\n- {work: pad, price: 3}\n- {work: Pad, price: 4}", 3, "twice"),
        ("drawer:\n  cutters: [5 mm, 500 mm]", 2, "sensible"),
        ("drawer:\n  cutters: [5 mm, wide]", 2, "wide"),
        ("drawer:\n  cutters: []\n  hammers: [1 mm]", 3, "unknown key"),
        ("drawer:\n  taps: [3-48, 3-4800]", 2, "3-48"),
        ("drawer:\n  drills: 6 mm to 1 mm by 0.1 mm", 2, "goes nowhere"),
        ("drawer:\n  drills: 1 mm to 6 mm by 0.001 mm", 2, "step"),
        ("drawer:\n  speeds: [fast]", 2, "fast"),
        ("drawer:\n  sheet:\n", 2, "is empty"),
        ("glues:\n- {name: epoxy, opened: 2026-02-30}", 2, "is no day"),
        ("glues:\n- {name: epoxy, opened: 2027-01-01}", 2, "has not come yet"),
        ("once: 2/1/3", 1, "out of order"),
        ("once: an hour", 1, "low/likely/high"),
        ("reading_errors:\n  spoon: 1 mm", 2, "spoon"),
        ("reading_errors:\n  caliper: 30 mm", 2, "sensible"),
        ("reading_errors:\n  caliper: 0.03", 2, "unit"),
        ("season_end: 02-30", 1, "no day of every year"),
        ("- a list", 1, "wanted here"),
        ("people: {A: one, A: two}", 1, "twice"),
    ],
)
def test_nonsense_is_one_line_with_file_and_line(text: str, line: int, says: str) -> None:
    """What, where and what would be sensible."""
    with pytest.raises(BrokenFile, match=says) as refused:
        read(text)
    assert refused.value.line == line
    assert str(refused.value).startswith(f"shop.yaml, line {line}: ")
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("unit: mm\nshop_rules: [caution_wood_dusk]", "did you mean caution_wood_dust"),
        ("unit: mm\nprices: [{work: a, price: 1, strategies: [spring_replace_needles]}]", "did you mean"),
        (
            "prices:\n- {work: b, price: 2, strategies: [pad_replace]}\n"
            "- {work: a, price: 1, strategies: [pad_replace]}",
            "has a price already",
        ),
    ],
)
def test_ids_are_held_against_the_packs(text: str, says: str) -> None:
    """A slip in an id would otherwise be a rule that never counts."""
    with pytest.raises(BrokenFile, match=says):
        refuse_unknown(read(text), Library(), "shop.yaml")


def test_a_danger_is_no_shop_rule() -> None:
    """What is special to one object cannot be accepted once for all."""
    dangers = [
        id for pack in Library().packs.values() for id, caution in pack.cautions.items()
        if caution.level == "danger" and not caution.shop_rule
    ]  # fmt: skip
    assert dangers
    with pytest.raises(BrokenFile, match="no rule to accept"):
        refuse_unknown(read(f"shop_rules: [{dangers[0]}]"), Library(), "shop.yaml")


def test_bare_sizes_are_in_the_shops_unit() -> None:
    """250 in a shop of thousandths is a quarter inch, 6.35 mm exactly."""
    shop = read("drawer:\n  cutters: [250, 5 mm]\nunit: thou")
    assert [piece.size for piece in pieces(shop.drawer["cutters"])] == [5, Fraction("6.35")]


@given(first=st.integers(30, 400), steps=st.integers(1, 60), step=st.integers(1, 40), sets=st.booleans())
def test_a_series_has_every_step_and_both_ends(first: int, steps: int, step: int, sets: bool) -> None:
    """In hundredths of a millimetre, exactly, with or without a set before it."""
    last = first + steps * step
    series = f"{first / 100} mm to {last / 100} mm by {step / 100} mm"
    shop = read(f"drawer:\n  drills: [{'letter set, ' if sets else ''}{series}]")
    sizes = {piece.size for piece in pieces(shop.drawer["drills"])}
    assert {Fraction(first + step * n, 100) for n in range(steps + 1)} <= sizes


_WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=12)
_SUMS = st.integers(0, 99_999).map(lambda cents: cents / 100)
SHOPS = st.builds(
    Shop,
    unit=st.sampled_from(["mm", "in", "thou"]),
    tools=st.builds(
        lambda below, above: {**TOOL_ERRORS, "gauge": ToolError(below, above)},
        st.integers(0, 200).map(lambda n: Fraction(n, 1000)),
        st.integers(0, 200).map(lambda n: Fraction(n, 1000)),
    ),
    money=st.builds(
        Money,
        currency=_WORDS,
        rate=st.none() | _SUMS,
        tax=st.integers(0, 100).map(float),
        once=st.none() | st.just((0.5, 1.0, 2.25)),
        prices=st.lists(st.builds(Price, _WORDS, _SUMS, st.just(("pad_replace",))), max_size=1).map(tuple),
    ),
    people=st.dictionaries(_WORDS, _WORDS, max_size=2),
    drawer=st.just({}) | st.just({"cutters": "5 mm; 13/64", "taps": "3-48; 2.8 mm x 48 tpi"}),
    glues=st.lists(st.builds(Glue, _WORDS, st.just(TODAY), st.none() | st.just(6)), max_size=1).map(tuple),
    season_end=st.none() | st.just((4, 1)),
)


@given(SHOPS)
def test_what_is_written_reads_back_the_same(shop: Shop) -> None:
    """Whatever somebody is called, whatever it costs: a screen may change one value and save."""
    assert read(write_shop(shop)) == shop


def test_a_glue_is_over_when_its_months_are() -> None:
    """Six months from 15 May end with 15 November."""
    glue = Glue("thin", date(2026, 5, 15), 6)
    assert not glue.over(date(2026, 11, 15))
    assert glue.over(date(2026, 11, 16))
    assert not Glue("hide glue", date(2020, 1, 1)).over(TODAY)
