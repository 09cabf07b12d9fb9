"""The quote: hours, spread, range, contingency and the shop's own past."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.inputs import BadInput
from casebook.figures.worksheet import Result
from tests.figures.worked import value, work

_STEP = st.lists(st.integers(1, 80), min_size=3, max_size=3).map(sorted)
_STEPS = st.lists(_STEP, min_size=1, max_size=5)


def run(steps: list[list[int]], **typed: str) -> Result:
    """Quote steps given in quarters of an hour, at 60 an hour."""
    hours = ", ".join("/".join(f"{part / 4:g}" for part in step) for step in steps)
    return work("quote", **{"hours": hours, "rate": "60"} | typed)


@given(steps=_STEPS)
def test_the_expected_hours_lie_between_all_lows_and_all_highs(steps: list[list[int]]) -> None:
    """And the price range lies round them, evenly."""
    result = run(steps)
    expected = value(result, "expected_hours")
    assert sum(s[0] for s in steps) / 4 <= expected + 1e-9
    assert expected - 1e-9 <= sum(s[2] for s in steps) / 4
    low, likely, high = (value(result, name) for name in ("price_low", "price_likely", "price_high"))
    assert low <= likely <= high
    assert likely == pytest.approx(60 * expected)
    if low > 0:
        assert high - likely == pytest.approx(likely - low)


@given(steps=_STEPS, chance=st.integers(10, 90))
def test_a_surer_range_is_a_wider_one(steps: list[list[int]], chance: int) -> None:
    """More chance, no higher low and no lower high."""
    one, surer = run(steps, chance=str(chance)), run(steps, chance=str(chance + 9))
    assert value(surer, "price_low") <= value(one, "price_low")
    assert value(surer, "price_high") >= value(one, "price_high")


@given(steps=st.lists(_STEP, min_size=2, max_size=5))
def test_the_order_of_the_steps_changes_nothing(steps: list[list[int]]) -> None:
    """Sums of independent steps."""
    assert value(run(steps), "price_high") == pytest.approx(value(run(steps[::-1]), "price_high"))


def test_what_comes_once_an_instrument_is_one_more_step() -> None:
    """Taking down and regulating counts as its own estimate, once."""
    with_once = work("quote", hours="0.5/1/2", once="0.8/1/1.5", rate="60")
    as_step = work("quote", hours="0.5/1/2, 0.8/1/1.5", rate="60")
    for name in ("expected_hours", "spread_hours", "price_high"):
        assert value(with_once, name) == pytest.approx(value(as_step, name))
    with pytest.raises(BadInput, match="once"):
        work("quote", hours="0.5/1/2", once="1/1/1, 1/1/1", rate="60")


@pytest.mark.parametrize(
    "typed",
    ["0.5/1/2, 1/1.5/3", "0,5/1/2, 1/1,5/3", "0.5/1/2;1/1.5/3", "0.5 / 1 / 2 , 1/1.5/3", "0.5/1/2,1/1.5/3"],
)
def test_hours_may_be_typed_with_point_or_comma(typed: str) -> None:
    """A decimal comma is none between steps."""
    assert value(work("quote", hours=typed, rate="60"), "expected_hours") == pytest.approx(2.75)


@pytest.mark.parametrize(
    "typed", ["2/1/3", "1/3/2", "1/2", "1/2/3/4", "a/b/c", "0/0/0", "1/2/900", "1/2/3 4/5/6", "-1/2/3"]
)
def test_estimates_that_make_no_sense_are_refused(typed: str) -> None:
    """Named, with how to type them."""
    with pytest.raises(BadInput) as refused:
        work("quote", hours=typed, rate="60")
    assert refused.value.name == "hours"


def test_materials_minimum_and_tax() -> None:
    """(2 hours x 50 + 20) is 120, with a tenth of tax 132; a least charge of 150 makes 165."""
    job = {"hours": "2/2/2", "rate": "50", "materials": "20", "tax": "10"}
    assert value(work("quote", **job), "price_likely") == pytest.approx(132)
    assert value(work("quote", **job, minimum="150"), "price_likely") == pytest.approx(165)


def test_contingency_is_named_beside_the_range_and_counts_against_the_limit() -> None:
    """30 percent of 2 hours at 50; a limit of 125 holds without it and not with it."""
    job = {"hours": "2/2/2", "rate": "50", "agreed": "125"}
    assert work("quote", **job).checks["within_agreed"].holds == "yes"
    unseen = work("quote", **job, contingency="30")
    assert value(unseen, "contingency_price") == pytest.approx(30)
    assert value(unseen, "price_high") == pytest.approx(100)
    assert unseen.checks["within_agreed"].holds == "no"


@pytest.mark.parametrize(
    ("past", "middle", "holds"), [("2.5 3 2.75", 2.75, "yes"), ("4, 5", 4.5, "no"), ("1", 1, "no")]
)
def test_the_shops_own_past_stands_beside_the_estimate(past: str, middle: float, holds: str) -> None:
    """The middle of the past hours, judged against the range of the estimate."""
    result = work("quote", hours="0.5/1/2, 1/1.5/3", rate="60", past=past)
    assert value(result, "past_hours") == middle
    assert result.checks["past_agrees"].holds == holds


def test_a_quote_without_a_rate_still_gives_the_hours() -> None:
    """Hours and spread, no price."""
    result = work("quote", hours="1/2/3")
    assert value(result, "expected_hours") == 2
    assert "price_high" not in result.figures
