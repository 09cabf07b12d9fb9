"""Springs: force and stress, the size for a wanted force, and the speed to turn at."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.inputs import BadInput
from tests.figures.worked import value, work

_NEEDLE = {"kind": "needle", "length": "28mm", "travel": "3mm", "material": "blued_steel"}


@given(diameter=st.integers(30, 150), length=st.integers(200, 500), travel=st.integers(10, 60))
def test_force_and_stress_go_together(diameter: int, length: int, travel: int) -> None:
    """Root stress is the moment F L over the section pi D^3 / 32, whatever the spring."""
    result = work(
        "spring_force", kind="needle", diameter=f"{diameter / 100}mm", length=f"{length / 10}mm",
        travel=f"{travel / 10}mm", modulus="200",
    )  # fmt: skip
    section = 3.141592653589793 * (diameter / 100) ** 3 / 32
    assert value(result, "force") * length / 10 / section == pytest.approx(value(result, "stress"))


@given(thick=st.integers(10, 80), wide=st.integers(10, 60))
def test_a_leaf_of_twice_the_width_pushes_twice(thick: int, wide: int) -> None:
    """Force goes with the width; stress does not know it."""
    rest = {"thickness": f"{thick / 100}mm", "length": "25mm", "travel": "3mm", "modulus": "110"}
    one = work("spring_force", kind="flat", width=f"{wide / 10}mm", **rest)
    two = work("spring_force", kind="flat", width=f"{wide / 5}mm", **rest)
    assert value(two, "force") == pytest.approx(2 * value(one, "force"))
    assert value(two, "stress") == pytest.approx(value(one, "stress"))


@given(wanted=st.integers(10, 300))
def test_the_real_size_nearest_to_the_wanted_force_is_marked(wanted: int) -> None:
    """Working the marked size gives the row's force, and no other listed size comes nearer."""
    result = work("spring_force", **_NEEDLE, wanted=f"{wanted / 100} N")
    chosen = next(row for row in result.rows if row["chosen"])
    again = work("spring_force", **_NEEDLE, diameter=f"{chosen['diameter_size']}mm")
    assert value(again, "force") == pytest.approx(chosen["force_N"])
    off = [abs(row["force_N"] - wanted / 100) for row in result.rows]
    assert abs(chosen["force_N"] - wanted / 100) == min(off)


def test_grams_are_what_a_balance_shows() -> None:
    """One newton is 101.97 g (standard gravity)."""
    result = work("spring_force", **_NEEDLE, diameter="0.7mm")
    assert value(result, "force_grams") == pytest.approx(value(result, "force") * 101.9716, rel=1e-6)


@pytest.mark.parametrize(("travel", "holds"), [("3mm", "yes"), ("6mm", "no"), ("4.2mm", "unknown")])
def test_a_spring_bent_too_far_takes_a_set(travel: str, holds: str) -> None:
    """0.8 mm music wire, 25 mm long: 1500 to 1725 MPa are allowed by typical values."""
    result = work(
        "spring_force", kind="needle", diameter="0.8mm", length="25mm", travel=travel, material="music_wire"
    )
    assert result.checks["does_not_set"].holds == holds
    assert result.figures["stress_allowed"].checked == "memory"


def test_strength_that_nobody_knows_is_not_guessed() -> None:
    """Blued needles: force yes, allowed stress not known, no check."""
    result = work("spring_force", **_NEEDLE, diameter="0.7mm")
    assert result.figures["stress_allowed"].value is None
    assert result.figures["force"].checked == "memory"
    assert "does_not_set" not in result.checks


def test_a_spring_bent_farther_than_it_is_long_is_refused() -> None:
    """Small bends only: the travel is named with what is sensible."""
    with pytest.raises(BadInput, match="travel"):
        work("spring_force", kind="needle", diameter="0.8mm", length="10mm", travel="9mm", modulus="200")


@given(speed=st.integers(5, 200), diameter=st.integers(10, 500))
def test_at_the_figured_speed_the_rim_runs_at_the_cutting_speed(speed: int, diameter: int) -> None:
    """Turns a minute times the way round is the cutting speed again."""
    result = work("lathe_speed", surface_speed=str(speed), diameter=f"{diameter / 10}mm")
    assert value(result, "speed") * 3.141592653589793 * diameter / 10 / 1000 == pytest.approx(speed)


@pytest.mark.parametrize(("fastest", "holds"), [("2000", "no"), ("2400", "yes"), ("4000", "yes")])
def test_a_machine_reaches_the_slow_end_or_not(fastest: str, holds: str) -> None:
    """Brass on 6.35 mm begins at 2292 turns a minute."""
    result = work("lathe_speed", diameter="6.35mm", material="brass", fastest=fastest)
    assert result.checks["machine_reaches"].holds == holds


def test_taps_turn_slowly_whatever_their_size() -> None:
    """A slow cap, and the steps say only in contact."""
    small, large = (work("lathe_speed", operation="tap", diameter=d) for d in ("1 mm", "6 mm"))
    assert value(small, "speed") == value(large, "speed") <= 100
    assert any("only in contact" in step for step in small.steps)


def test_a_cutting_speed_and_a_material_are_two_answers() -> None:
    """Refused by name, not one silently preferred."""
    with pytest.raises(BadInput, match="material"):
        work("lathe_speed", diameter="6mm", surface_speed="60", material="brass")
