"""Wood between two airs: what it does, and when to glue."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.moisture import equilibrium
from casebook.figures.worksheet import Result
from tests.figures.worked import margin, value, work

_ROOM = {"temperature_now": "21C", "temperature_then": "21C"}
_HUMIDITIES = st.integers(10, 85)
_WOODS = st.sampled_from(["grenadilla", "boxwood", "rosewood", "ebony", "maple", "cherry"])


def run(now: object, then: object, **typed: str) -> Result:
    """Work it at 21 C, at two humidities."""
    return work("wood_movement", humidity_now=str(now), humidity_then=str(then), **_ROOM, **typed)


@given(celsius=st.floats(-1, 50), humidity=st.floats(5, 94), more=st.floats(0.1, 1))
def test_moister_air_makes_moister_wood(celsius: float, humidity: float, more: float) -> None:
    """At any temperature moisture grows with humidity, and stays between dry and soaked."""
    assert 0 < equilibrium(celsius, humidity) < equilibrium(celsius, humidity + more) < 30


@given(now=_HUMIDITIES, then=_HUMIDITIES, wood=_WOODS)
def test_there_and_back_the_wood_is_as_it_was(now: int, then: int, wood: str) -> None:
    """The change from one air to another is the opposite of the change back."""
    there = run(now, then, species=wood, size="25mm")
    back = run(then, now, species=wood, size="25mm")
    for name in ("change_radial", "change_tangential", "out_of_round", "grip", "crack_opens"):
        assert value(there, name) == pytest.approx(-value(back, name), abs=1e-12)


@given(now=_HUMIDITIES, then=_HUMIDITIES, wood=_WOODS, size=st.integers(10, 400))
def test_the_figures_go_together(now: int, then: int, wood: str, size: int) -> None:
    """Out of round is the difference of the two changes, grip their mean; a crack closes where wood swells."""
    result = run(now, then, species=wood, size=f"{size / 10}mm")
    radial, tangential = value(result, "change_radial"), value(result, "change_tangential")
    assert value(result, "out_of_round") == pytest.approx(tangential - radial, abs=1e-12)
    assert value(result, "grip") == pytest.approx((radial + tangential) / 2, abs=1e-12)
    assert value(result, "crack_opens") * tangential <= 0
    assert abs(tangential) >= abs(radial)


@pytest.mark.parametrize(("now", "then"), [(30, 60), (60, 30)])
def test_the_reading_error_of_the_size_runs_through(now: int, then: int) -> None:
    """Swelling or shrinking, the bounds are those of the size's own bounds."""
    figure = work(
        "wood_movement",
        "0.5",
        species="maple",
        size="25mm",
        humidity_now=str(now),
        humidity_then=str(then),
        **_ROOM,
    ).figures["change_tangential"]
    assert figure.low is not None
    assert figure.value is not None
    assert figure.high is not None
    assert (figure.high - figure.low) / abs(figure.value) == pytest.approx(1 / 25)


@pytest.mark.parametrize(("then", "holds"), [(45, "yes"), (50, "yes"), (60, "no"), (30, "no")])
def test_it_is_glued_at_the_moisture_it_will_live_in(then: int, holds: str) -> None:
    """More than one percent of moisture apart, wetter or drier, it rests first."""
    check = run(47, then).checks["glue_now"]
    assert check.holds == holds
    assert holds == "yes" or any("rest" in way for way in check.ways_out)


def test_outside_the_coefficients_range_the_movement_is_marked_rough() -> None:
    """At 90 percent humidity the coefficients no longer hold, and the figures say so."""
    result = run(45, 90, species="maple", size="25mm")
    assert result.checks["coefficient_holds"].holds == "no"
    assert result.figures["change_tangential"].checked == "memory"
    assert "only rough" in result.figures["change_tangential"].how


def test_one_wood_has_one_movement_whatever_it_is_called() -> None:
    """African blackwood, blackwood and grenadilla are one wood."""
    changes = {
        value(run(40, 55, species=name, size="25mm"), "change_tangential")
        for name in ("african blackwood", "Blackwood", "grenadilla")
    }
    assert len(changes) == 1


def test_the_margin_is_what_moisture_may_still_differ() -> None:
    """Margin: one percent less how far the two moistures lie apart."""
    result = run(45, 48)
    apart = value(result, "moisture_then") - value(result, "moisture_now")
    assert margin(result, "glue_now") == pytest.approx(1 - apart)


def test_a_missing_air_is_named() -> None:
    """Without the air to come there is no change, and the check says what to ask."""
    result = work("wood_movement", species="maple", size="25mm", temperature_now="21C", humidity_now="45")
    assert "change_tangential" not in result.figures
    assert set(result.checks["glue_now"].waits_on) == {"temperature_then", "humidity_then"}
