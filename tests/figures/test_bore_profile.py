"""A bore at its stations: ovality, taper, and where it is off."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.inputs import BadInput, read
from casebook.figures.worksheet import Result
from tests.figures.worked import margin, value, work

_STATIONS = "0 mm, 40 mm, 80 mm, 120 mm"
_DIAMETERS = st.lists(st.integers(1400, 1600), min_size=4, max_size=4)


def listed(hundredths: list[int]) -> str:
    """Type hundredths of a millimetre as a list of lengths."""
    return ", ".join(f"{one / 100:.2f} mm" for one in hundredths)


def run(**typed: str) -> Result:
    """Work it with an exact gauge."""
    return work("bore_profile", **{"stations": _STATIONS, "gauge_error": "0 mm"} | typed)


@given(bore=_DIAMETERS, across=_DIAMETERS)
def test_the_worst_station_makes_the_figure(bore: list[int], across: list[int]) -> None:
    """Ovality is the greatest difference, in whichever direction it was gauged first."""
    result = run(bore=listed(bore), across=listed(across))
    worst = max(abs(a - b) for a, b in zip(bore, across, strict=True)) / 100
    assert value(result, "ovality") == pytest.approx(worst, abs=1e-9)
    turned = run(bore=listed(across), across=listed(bore))
    assert value(turned, "ovality_percent") == pytest.approx(value(result, "ovality_percent"))


@given(bore=_DIAMETERS, across=_DIAMETERS, allowed=st.integers(1, 40))
def test_round_enough_is_ovality_within_what_is_allowed(
    bore: list[int], across: list[int], allowed: int
) -> None:
    """The check holds at every station or not at all."""
    percent = value(run(bore=listed(bore), across=listed(across)), "ovality_percent")
    if abs(percent - allowed / 10) < 1e-6:
        return
    result = run(bore=listed(bore), across=listed(across), most_oval=f"{allowed / 10}")
    assert result.checks["round_enough"].holds == ("yes" if percent <= allowed / 10 else "no")


@given(bore=_DIAMETERS, wanted=_DIAMETERS)
def test_off_the_reference_anywhere_is_off(bore: list[int], wanted: list[int]) -> None:
    """The margin is the tolerance less the worst station's difference."""
    result = run(bore=listed(bore), across=listed(bore), reference=listed(wanted), tolerance="0.5 mm")
    worst = max(abs(a - b) for a, b in zip(bore, wanted, strict=True)) / 100
    if worst > 0.5:
        assert result.checks["agrees_with_reference"].holds == "no"
    assert margin(result, "agrees_with_reference") == pytest.approx(0.5 - worst)
    assert [row["off_misfit"] for row in result.rows] == pytest.approx(
        [(a - b) / 100 for a, b in zip(bore, wanted, strict=True)]
    )


@given(bore=_DIAMETERS, wanted=_DIAMETERS)
def test_a_bore_gauged_one_way_is_held_against_the_reference_all_the_same(
    bore: list[int], wanted: list[int]
) -> None:
    """Then nothing is said of ovality, and the one diameter stands for the mean."""
    one = run(bore=listed(bore), reference=listed(wanted))
    both = run(bore=listed(bore), across=listed(bore), reference=listed(wanted))
    assert margin(one, "agrees_with_reference") == pytest.approx(margin(both, "agrees_with_reference"))
    assert "ovality" not in one.figures
    assert one.checks["round_enough"].holds == "unknown"


@given(bore=_DIAMETERS)
def test_taper_is_what_the_ends_differ_on_a_hundred_millimetres(bore: list[int]) -> None:
    """From the first station to the last, wherever the others lie."""
    assert value(run(bore=listed(bore)), "taper") == pytest.approx((bore[3] - bore[0]) / 100 / 1.2)


@pytest.mark.parametrize(("small", "holds"), [("14.90mm", "yes"), ("14.80mm", "no"), ("14.85mm", "unknown")])
def test_one_place_measured_both_ways(small: str, holds: str) -> None:
    """15 mm and one percent of it, read to 0.02 mm: near the limit it stays open."""
    result = work("bore_profile", "0.02", largest="15mm", smallest=small)
    assert result.checks["round_enough"].holds == holds


def test_the_gauge_error_runs_through() -> None:
    """An ovality of 0.05 mm read to 0.05 mm lies between nothing and 0.15 mm."""
    figure = run(bore="15.05 mm", across="15.00 mm", stations="0 mm", gauge_error="0.05 mm").figures[
        "ovality"
    ]
    assert figure.low == 0
    assert figure.high == pytest.approx(0.15)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"bore": "15 mm, 15 mm", "stations": "0 mm"}, "stations"),
        ({"bore": "15 mm", "stations": "0 mm", "across": "15 mm, 14 mm"}, "across"),
        ({"bore": "15 mm, 14 mm", "stations": "20 mm, 10 mm"}, "stations"),
        ({"bore": "0 mm", "stations": "0 mm"}, "bore"),
    ],
)
def test_lists_that_do_not_go_together_are_refused(typed: dict[str, str], name: str) -> None:
    """One line that names the list and says what is missing."""
    with pytest.raises(BadInput) as refused:
        run(**typed)
    assert refused.value.name == name


def test_a_smallest_diameter_over_the_largest_is_refused() -> None:
    """One place, gauged both ways: one of the two was read wrong."""
    with pytest.raises(BadInput) as refused:
        work("bore_profile", largest="14 mm", smallest="15 mm")
    assert refused.value.name == "smallest"


def test_bare_numbers_of_a_list_are_in_the_unit_of_the_shop() -> None:
    """On a screen that works in thou, 590 is 590 thou."""
    from casebook.figures import worksheet

    sheet = worksheet("bore_profile")
    typed = {"stations": "0, 500", "bore": "590, 585"}
    result = sheet.run(read(sheet.inputs, typed, bare="thou"))
    assert [row["mean_diameter"] for row in result.rows] == pytest.approx([14.986, 14.859])


def test_the_plot_runs_through_the_stations() -> None:
    """One line from station to station, at the mean diameters."""
    drawn = run(bore="15 mm, 14.8 mm, 14.6 mm, 14.5 mm").drawing["shapes"]
    assert [(shape["x1"], shape["y1"]) for shape in drawn] == [(0, 15), (40, 14.8), (80, 14.6)]
