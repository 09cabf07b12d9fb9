"""When wood is at rest: the same weight three times in a week (common practice, no source)."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.at_desk import NotPossible
from casebook.bench.wood_rest import NoReading, checked, rest_of
from casebook.records.workshop import WoodReading
from tests.bench.shop_days import Days

MONDAY = date(2026, 2, 2)


def _weighed(*pairs: tuple[int, str], part: str = "") -> list[WoodReading]:
    return [WoodReading(MONDAY + timedelta(days=day), part, weight) for day, weight in pairs]


@pytest.mark.parametrize(
    ("readings", "since"),
    [
        ([(0, "100"), (3, "100"), (7, "100")], 0),
        ([(0, "100"), (3, "100"), (8, "100")], None),
        ([(0, "100"), (0, "100"), (0, "100")], None),
        ([(0, "98"), (2, "100"), (4, "100"), (6, "100.1")], 2),
        ([(0, "100"), (2, "100.1"), (4, "100.2")], None),
        ([(0, "100"), (2, "100"), (4, "100"), (9, "100")], 0),
        ([(0, "100"), (2, "100"), (4, "100"), (6, "101")], None),
        ([(0, "0,1 kg"), (2, "100 g"), (4, "100")], 0),
    ],
)
def test_three_equal_weights_within_a_week_are_rest(
    readings: list[tuple[int, str]], since: int | None
) -> None:
    """On three days; a slow drift is no agreement; a later odd reading ends it."""
    assert rest_of(_weighed(*readings)).since == (None if since is None else MONDAY + timedelta(days=since))


def test_every_part_that_is_watched_must_rest() -> None:
    """And the one that moves is named."""
    resting = _weighed((0, "100"), (2, "100"), (4, "100"), part="head")
    moving = _weighed((0, "80"), (4, "81"), part="foot")
    assert rest_of(resting).since == MONDAY
    rest = rest_of(resting + moving)
    assert rest.since is None
    assert rest.says.startswith("foot: still moving")


def test_a_width_still_moving_is_no_rest() -> None:
    """Even where the weight has come to rest; a caliper's 0.05 mm is the same width."""
    readings = [
        WoodReading(MONDAY + timedelta(days=2 * at), weight="100", widths=(f"26.{width} mm",))
        for at, width in enumerate(("10", "20", "30"))
    ]
    assert rest_of(readings).since is None


@given(
    st.lists(
        st.tuples(st.integers(0, 40), st.decimals(50, 52, places=1)), min_size=1, max_size=8, unique_by=lambda r: r[0]
    ),
    st.randoms(use_true_random=False),
)  # fmt: skip
def test_the_order_of_writing_changes_nothing_and_rest_means_what_it_says(
    readings: list[tuple[int, object]], chance: object
) -> None:
    """Whatever was read: at rest only if all readings since then agree and three lie within a week."""
    weighed = _weighed(*((day, str(weight)) for day, weight in readings))
    rest = rest_of(weighed)
    chance.shuffle(weighed)  # type: ignore[attr-defined]
    assert rest_of(weighed) == rest
    if rest.since:
        run = sorted((r.read_on, float(r.weight)) for r in weighed if r.read_on and r.read_on >= rest.since)
        weights = [weight for _, weight in run]
        assert max(weights) - min(weights) < 0.1001
        assert any((run[at + 2][0] - run[at][0]).days <= 7 for at in range(len(run) - 2))
    else:
        assert rest.weigh_on is not None


@pytest.mark.parametrize(
    "reading",
    [
        WoodReading(MONDAY),
        WoodReading(MONDAY, weight="12 stone"),
        WoodReading(MONDAY, weight="-3 g"),
        WoodReading(MONDAY, weight="100", humidity="130"),
        WoodReading(MONDAY, weight="100", humidity="damp"),
        WoodReading(MONDAY, widths=("wide",)),
    ],
)
def test_a_reading_that_says_nothing_is_refused_in_one_line(reading: WoodReading) -> None:
    with pytest.raises(NoReading) as refused:
        checked(reading)
    assert "\n" not in str(refused.value)


def test_a_reading_refused_keeps_nothing_and_a_bare_width_gets_the_shops_unit(days: Days) -> None:
    desk = days.on("2026-02-02")
    number = desk.take_in("Crack").number
    with pytest.raises(NotPossible, match="no weight"):
        desk.weigh(number, "heavy")
    with pytest.raises(NotPossible, match="still to come"):
        desk.weigh(number, "100", on=date(2026, 2, 3))
    assert desk.book.case(number).wood_readings == ()
    desk.weigh(number, widths=("26,1", "1.02 in"))
    assert desk.book.case(number).wood_readings[0].widths == ("26,1 mm", "1.02 in")
