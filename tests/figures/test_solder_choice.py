"""Solder: what must hold, what must come off, and what is dangerous."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.solder_choice import ALLOYS
from casebook.figures.worksheet import Result
from tests.figures.worked import margin, value, work

_ALLOY = st.sampled_from(ALLOYS)


def run(**typed: str) -> Result:
    """Work the worksheet on what was typed."""
    return work("solder_choice", **typed)


@given(present=_ALLOY, planned=_ALLOY, spare=st.integers(0, 60))
def test_an_earlier_joint_holds_by_solidus_less_liquidus(present: str, planned: str, spare: int) -> None:
    """The margin is the earlier solidus less the later liquidus less what is asked between them."""
    result = run(present=present, planned=planned, below_earlier=str(spare))
    between = value(result, "present_solidus") - value(result, "planned_liquidus")
    assert margin(result, "earlier_joints_hold") == pytest.approx(between - spare)


@given(present=st.lists(_ALLOY, min_size=1, max_size=4), planned=st.lists(_ALLOY, min_size=1, max_size=3))
def test_the_rows_run_hottest_first(present: list[str], planned: list[str]) -> None:
    """Each solder once, the one that flows hottest on top."""
    result = run(present=",".join(present), planned=",".join(planned))
    tops = [float(row["liquidus_C"].rpartition(" to ")[2]) for row in result.rows]
    assert tops == sorted(tops, reverse=True)
    assert len(result.rows) == len({*present, *planned})


@pytest.mark.parametrize(
    ("present", "planned", "holds"),
    [
        ("bag_7", "sn60pb40", "yes"),
        ("sn63pb37", "bag_7", "no"),
        ("hard", "easy", "yes"),
        ("easy", "hard", "no"),
        ("unknown_hard", "sn95sb5", "yes"),
        ("unknown_soft", "bag_7", "no"),
        ("unknown_hard", "easy", "unknown"),
        ("unknown", "sn96.5ag3.5", "unknown"),
        ("none", "bag_7", "unknown"),
    ],
)
def test_what_is_known_of_an_earlier_solder_decides(present: str, planned: str, holds: str) -> None:
    """A solder nobody identified lies somewhere in its family: enough for soft over hard, not for hard over hard."""
    result = run(present=present, planned=planned)
    check = result.checks.get("earlier_joints_hold")
    assert (check.holds if check else "unknown") == holds


def test_two_joints_to_make_must_step_down() -> None:
    """Hard and easy step down far enough for 10 degrees; two of the same do not hold each other."""
    stepping = run(present="none", planned="easy,hard")
    assert stepping.checks["earlier_joints_hold"].holds == "yes"
    assert any("hard, then easy" in step for step in stepping.steps)
    assert run(present="none", planned="medium,easy").checks["earlier_joints_hold"].holds != "yes"


@pytest.mark.parametrize(
    ("metal", "planned", "holds"),
    [
        ("silver", "easy", "yes"),
        ("silver", "bag_8", "no"),
        ("brass", "hard", "yes"),
        ("nickel_silver", "bag_8", "unknown"),
    ],
)
def test_the_metal_must_not_melt(metal: str, planned: str, holds: str) -> None:
    """30 degrees below its solidus; a nickel silver by name alone may melt early."""
    assert run(metal=metal, planned=planned).checks["metal_survives"].holds == holds


@pytest.mark.parametrize(
    ("present", "lead", "cadmium"),
    [
        ("sn60pb40", "no", "yes"),
        ("bag_1", "yes", "no"),
        ("bag_7", "yes", "yes"),
        ("unknown_soft", "unknown", "yes"),
        ("unknown_hard", "yes", "unknown"),
        ("unknown", "unknown", "unknown"),
    ],
)
def test_lead_and_cadmium_are_named_or_not_ruled_out(present: str, lead: str, cadmium: str) -> None:
    """And where one is there, or may be, its caution stands in the steps."""
    result = run(present=present)
    assert (result.checks["no_lead"].holds, result.checks["no_cadmium"].holds) == (lead, cadmium)
    assert any(step.startswith("Lead:") for step in result.steps) == (lead != "yes")
    assert any(step.startswith("Cadmium:") for step in result.steps) == (cadmium != "yes")


@pytest.mark.parametrize(
    ("present", "holds"),
    [("sn60pb40", "no"), ("bag_7", "yes"), ("unknown", "unknown"), ("unknown_soft", "no"), ("none", "yes")],
)
def test_no_hard_solder_where_soft_is_left(present: str, holds: str) -> None:
    """Every trace of soft solder comes off first."""
    assert run(present=present, planned="bag_7").checks["no_soft_under_hard"].holds == holds


def test_what_lies_near_comes_off_before_heat() -> None:
    """Named one by one, with the temperature as far as it is known, and never soldered on the body."""
    steps = run(planned="sac305", near="shellac, ivory").steps
    assert any("shellac" in step and "unverified" in step for step in steps)
    assert any("ivory" in step for step in steps)
    assert any("off the body" in step for step in steps)


def test_local_rules_always_come_first() -> None:
    """The cautions defer to local rules and licensed shops."""
    assert any("Local rules" in step and "licensed" in step for step in run(planned="bag_7").steps)


def test_without_the_solder_that_is_there_the_check_asks_for_it() -> None:
    """Not said is not none."""
    check = run(planned="sn60pb40").checks["earlier_joints_hold"]
    assert (check.holds, check.waits_on) == ("unknown", ("present",))
