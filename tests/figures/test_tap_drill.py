"""The tap drill worksheet."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures import worksheet
from casebook.figures.inputs import BadInput, read
from casebook.figures.tap_drill import near_drills
from casebook.figures.worksheet import Result
from casebook.quantity import Thread, drills, standard_threads

THREADS = sorted(standard_threads().values(), key=lambda thread: thread.designation)
SETS = ("number", "letter", "fraction", "metric")


def run(**typed: str) -> Result:
    sheet = worksheet("tap-drill")
    return sheet.run(read(sheet.inputs, typed))


def test_the_ideal_hole_takes_the_percent_off_the_diameter() -> None:
    """M6x1 at 75 percent: 6 - 0.75 x 1.299038 = 5.0257 mm, by the 60 degree form of ISO 68-1."""
    figure = run(thread="M6", percent="75").figures["ideal_hole"]
    assert figure.value == pytest.approx(5.02572, abs=1e-5)
    assert "1.299" in figure.how


def test_a_ba_thread_has_a_full_depth_of_its_own() -> None:
    """6BA at 75 percent: 2.8 - 0.75 x 1.2 x 0.53 = 2.323 mm, by the form of BS 93."""
    figure = run(thread="6BA", percent="75").figures["ideal_hole"]
    assert figure.value == pytest.approx(2.323)
    assert "100 percent = 1.2 pitches" in figure.how


@given(
    st.sampled_from([t for t in THREADS if t.major < 6]),
    st.integers(40, 90),
    st.lists(st.sampled_from(SETS), min_size=1, unique=True),
)
def test_rows_are_real_drills_nearest_first_with_one_choice(
    thread: Thread, percent: int, sets: list[str]
) -> None:
    rows = near_drills(thread, Fraction(percent), sets)
    real = {name: size for which in sets for name, size in drills(which)}
    assert all(row["diameter"] == float(real[row["drill"]]) for row in rows)
    assert [row["chosen"] for row in rows].count(True) == 1
    ideal = float(thread.hole(Fraction(percent)))
    away = [abs(row["diameter"] - ideal) for row in rows]
    assert away == sorted(away)
    assert away[0] == pytest.approx(min(abs(float(size) - ideal) for size in real.values()))
    for row in rows:
        left = (float(thread.major) - row["diameter"]) / float(thread.full_depth) * 100
        assert row["percent"] == pytest.approx(left, abs=0.051)


@pytest.mark.parametrize(
    ("sets", "drill"), [("number", "#47"), ("metric", "2 mm"), ("fraction", "5/64 in"), ("letter", "A")]
)
def test_the_choice_is_made_from_the_sets_on_hand(sets: str, drill: str) -> None:
    (row,) = [row for row in run(thread="3-48", sets=sets).rows if row["chosen"]]
    assert row["drill"] == drill


@pytest.mark.parametrize("thread", THREADS, ids=lambda thread: thread.designation)
@pytest.mark.parametrize("percent", [50, 75])
def test_no_drill_on_hand_is_nearer_than_those_shown(thread: Thread, percent: int) -> None:
    """The rows are the nearest of all drills, counted the long way, beside the choice."""
    ideal = thread.hole(Fraction(percent))
    every = sorted(
        abs(size - ideal) for sets in ("number", "letter", "fraction", "metric") for _, size in drills(sets)
    )
    shown = [abs(Fraction(row["diameter"]) - ideal) for row in near_drills(thread, Fraction(percent))]
    assert sorted(float(off) for off in shown)[:7] == pytest.approx(
        [float(off) for off in every[:7]], abs=1e-9
    )


def test_a_metric_thread_takes_a_metric_drill_where_one_is_near_enough() -> None:
    (row,) = [row for row in run(thread="M2.5").rows if row["chosen"]]
    assert row["drill"] == "2.05 mm"


def test_warnings_stand_over_80_under_50_and_below_the_minor_diameter() -> None:
    rows = {row["drill"]: row["warning"] for row in run(thread="3-48", sets="number").rows}
    assert rows["#47"] == ""
    assert "over 80" in rows["#49"]
    assert "below the basic minor diameter" in rows["#49"]
    assert "under 50" in rows["#44"]


@pytest.mark.parametrize(
    ("percent", "check"), [("95", "not_too_tight"), ("95", "above_minor_diameter"), ("40", "not_too_loose")]
)
def test_a_choice_with_too_much_or_too_little_thread_fails_its_check(percent: str, check: str) -> None:
    checks = run(thread="3-48", percent=percent, sets="number").checks
    assert checks[check].holds == "no"
    assert checks[check].ways_out


def test_the_usual_choice_passes_every_check() -> None:
    assert {check.holds for check in run(thread="3-48").checks.values()} == {"yes"}


def test_without_a_thread_nothing_is_said() -> None:
    assert run(percent="75").figures == {}


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"thread": "3-48", "percent": "110"}, "percent"),
        ({"thread": "3-48", "percent": "5"}, "percent"),
        ({"thread": "3-48", "sets": "number,inch"}, "sets"),
        ({"thread": "3-48", "sets": ""}, "sets"),
        ({"thread": "3-48", "material": "cheese"}, "material"),
        ({"thread": "2.5mm"}, "thread"),
    ],
)
def test_bad_input_is_refused_by_its_name(typed: dict[str, str], name: str) -> None:
    with pytest.raises(BadInput) as refused:
        run(**typed)
    assert refused.value.name == name
