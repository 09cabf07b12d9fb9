"""The thread worksheet."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures import worksheet
from casebook.figures.inputs import BadInput, read
from casebook.figures.worksheet import Result
from casebook.quantity import Thread, standard_threads
from tests.figures.worked import work

THREADS = sorted(standard_threads().values(), key=lambda thread: thread.designation)


def run(**typed: str) -> Result:
    sheet = worksheet("thread")
    return sheet.run(read(sheet.inputs, typed))


def test_a_named_thread_gives_its_figures_with_their_source() -> None:
    figures = run(thread="M2.5").figures
    assert {name: round(figures[name].value or 0, 3) for name in ("major", "pitch", "angle")} == {
        "major": 2.5,
        "pitch": 0.45,
        "angle": 60,
    }
    assert {"pitch_diameter", "minor_diameter", "stress_area"} <= set(figures)
    assert all(figure.source and figure.checked for figure in figures.values())


def test_a_thread_known_from_memory_only_is_marked_so() -> None:
    assert run(thread="M1.7x0.35").figures["major"].checked == "memory"


def test_full_threads_carry_the_doubt_of_the_length() -> None:
    full = run(thread="M6", length="4mm+-0.5").figures["full_threads"]
    assert (full.low, full.value, full.high) == (3.5, 4.0, 4.5)


@pytest.mark.parametrize(("length", "holds"), [("2.5mm", "yes"), ("1.5mm", "no"), ("2.0mm", "unknown")])
def test_threads_in_a_length_are_held_against_the_least_turns(length: str, holds: str) -> None:
    check = run(thread="M6", length=length).checks["threads_in_length"]
    assert check.holds == holds
    assert check.waits_on == (("length",) if holds == "unknown" else ())


def test_the_least_turns_can_be_set() -> None:
    assert run(turns="3", least_turns="4").checks["threads_hold"].holds == "no"


def test_crests_over_a_span_give_the_pitch_over_one_less() -> None:
    pitch = run(crests="7", span="3.18mm+-0.06").figures["pitch"]
    assert pitch.value == pytest.approx(0.53)
    assert (pitch.low, pitch.high) == pytest.approx((0.52, 0.54))


def test_a_worn_thread_is_ranked_with_its_misfit_in_each_dimension() -> None:
    result = run(outside="2.45mm", pitch="48 tpi")
    row = result.rows[0]
    assert (row["thread"], row["system"]) == ("3-48", "unified")
    assert row["outside_misfit"] == pytest.approx(2.45 - 2.5146)
    assert row["pitch_misfit"] == pytest.approx(0)
    assert result.checks["standard"].holds == "yes"


def test_a_hole_is_held_against_minor_diameters() -> None:
    rows = run(hole="#47", pitch="48 tpi").rows
    assert [row["thread"] for row in rows] == ["3-48"]
    assert rows[0]["hole_misfit"] > 0


@pytest.mark.parametrize(
    ("outside", "pitch"), [("3.3mm", "0.9mm"), ("2.51mm", "60 tpi"), ("3.1mm", "0.53mm"), ("5mm", "0.3mm")]
)
def test_what_fits_no_table_is_called_non_standard_and_never_rounded(outside: str, pitch: str) -> None:
    result = run(outside=outside, pitch=pitch)
    assert result.rows == []
    assert result.checks["standard"].holds == "no"
    assert "non-standard" in result.checks["standard"].says
    assert "major" not in result.figures


def test_twins_are_named_with_what_would_tell_them_apart() -> None:
    rows = run(outside="2.82mm", pitch="0.53mm").rows
    assert {row["thread"] for row in rows} == {"6BA", "4-48"}
    assert all("flank angle" in " ".join(row["tell_apart"]) for row in rows)


def test_a_long_engaged_thread_parts_twins_that_a_short_one_does_not() -> None:
    short = run(outside="2.18mm", pitch="56 tpi", engaged="4mm").rows[0]
    long = run(outside="2.18mm", pitch="56 tpi", engaged="20mm").rows[0]
    assert short["twins"] == ["M2.2x0.45"]
    assert long["twins"] == []


def test_equal_pitches_are_never_parted_by_length() -> None:
    assert run(outside="6mm", pitch="1mm", engaged="60mm").rows[0]["twins"]


@given(st.sampled_from(THREADS), st.floats(0, 0.25))
def test_every_standard_thread_somewhat_worn_is_among_its_own_candidates(thread: Thread, worn: float) -> None:
    outside = float(thread.major) - worn * float(thread.pitch)
    rows = run(outside=f"{outside:.4f} mm", pitch=f"{float(thread.pitch):.6f} mm").rows
    assert thread.designation in [row["thread"] for row in rows]


@given(st.sampled_from(THREADS))
def test_an_unworn_thread_leads_its_candidates_or_shares_the_lead(thread: Thread) -> None:
    rows = run(outside=f"{float(thread.major):.6f} mm", pitch=f"{float(thread.pitch):.6f} mm").rows
    best = rows[0]
    assert best["outside_misfit"] == pytest.approx(0, abs=1e-5)
    assert best["pitch_misfit"] == pytest.approx(0, abs=1e-5)


def test_an_outside_alone_waits_for_the_pitch() -> None:
    check = run(outside="2.8mm").checks["standard"]
    assert (check.holds, check.waits_on) == ("unknown", ("pitch",))


def test_nothing_given_gives_nothing() -> None:
    result = run()
    assert (result.figures, result.checks, result.rows) == ({}, {}, [])


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"thread": "3-48", "pitch": "48 tpi"}, "pitch"),
        ({"thread": "3-48", "crests": "7"}, "crests"),
        ({"outside": "2.5mm", "pitch": "48 tpi", "crests": "7", "span": "3mm"}, "crests"),
        ({"outside": "2.5mm", "hole": "2mm", "pitch": "48 tpi"}, "hole"),
        ({"crests": "40", "span": "0.1mm+-0.099", "outside": "2mm", "hole": "2mm", "pitch": "1mm"}, "crests"),
        ({"crests": "1", "span": "2mm"}, "crests"),
        ({"outside": "0 mm"}, "outside"),
        ({"outside": "3-48"}, "outside"),
        ({"thread": "3"}, "thread"),
        ({"length": "-4mm", "thread": "3-48"}, "length"),
        ({"out_side": "2mm"}, "out_side"),
    ],
)
def test_what_cannot_go_together_is_refused_by_the_name_of_the_input(
    typed: dict[str, str], name: str
) -> None:
    with pytest.raises(BadInput) as refused:
        run(**typed)
    assert refused.value.name == name
    assert "\n" not in str(refused.value)


_WORN = {"outside": "2.82mm", "pitch": "0.53mm", "engaged": "3mm"}


def test_of_twins_the_neighbour_s_thread_comes_first() -> None:
    """6BA and 4-48 are alike to a worn shank: the one that its neighbours have is the likelier."""
    for neighbour in ("6BA", "4-48"):
        result = work("thread", **_WORN, neighbour=neighbour)
        assert result.rows[0]["thread"] == neighbour
        assert result.checks["as_neighbour"].holds == "yes"
        assert "cannot be told" in result.checks["standard"].says


def test_a_neighbour_that_does_not_go_in_is_left_out() -> None:
    """Tried by hand it tells more than the caliper."""
    result = work("thread", **_WORN, neighbour="6BA", goes_in="no")
    assert "6BA" not in [row["thread"] for row in result.rows]
    assert result.checks["as_neighbour"].holds == "no"
    assert result.checks["standard"].says.startswith("fits 4-48")


def test_a_neighbour_of_another_size_is_said() -> None:
    """3-48 is 0.3 mm thinner; where it goes in all the same, a reading is wrong."""
    assert work("thread", **_WORN, neighbour="3-48").checks["as_neighbour"].holds == "no"
    assert (
        "one of the two"
        in work("thread", **_WORN, neighbour="3-48", goes_in="yes").checks["as_neighbour"].says
    )
    assert "as_neighbour" not in work("thread", **_WORN).checks
