"""The strength of an anchorage: every link, the weakest named, and what nobody knows."""

from __future__ import annotations

from math import pi

import pytest

from casebook.figures.inputs import BadInput
from casebook.tables import load
from tests.figures.worked import margin, value, work

_BUSHED = {
    "thread": "3-48", "engaged": "3mm", "metal": "nickel_silver", "bushing_metal": "brass",
    "outside": "5.2mm", "length": "3.8mm", "adhesive": "epoxy", "wood": "maple", "load": "3",
    "hinge_height": "6mm", "flange": "6mm",
}  # fmt: skip


def test_the_wood_holds_by_half_of_its_ring_only() -> None:
    """Pull-out = pi d L x shear x (1/2 + 1/2 x 0.18 to 0.28), maple at 16.1 MPa (Wood Handbook table 5-3)."""
    figure = work("joint_strength", **_BUSHED).figures["pull_out_wood"]
    area = pi * 5.2 * 3.8
    assert figure.low == pytest.approx(area * 16.1 * (0.5 + 0.5 * 0.18))
    assert figure.high == pytest.approx(area * 16.1 * (0.5 + 0.5 * 0.28))
    assert figure.checked == "memory"
    assert "unverified" in figure.how


def test_the_share_of_rolling_shear_is_said() -> None:
    """Half of the ring is in rolling shear, and the result says so."""
    assert value(work("joint_strength", **_BUSHED), "rolling_share") == 50


def test_glue_holds_by_its_cylinder() -> None:
    """Pull-out in glue = pi d L x lap shear of 14 to 25 MPa."""
    figure = work("joint_strength", **_BUSHED).figures["pull_out_glue"]
    assert figure.low == pytest.approx(pi * 5.2 * 3.8 * 14)
    assert figure.high == pytest.approx(pi * 5.2 * 3.8 * 25)


def test_the_load_pries_about_the_edge_of_the_flange() -> None:
    """3 N at 6 mm over half a flange of 6 mm pulls with 6 N; without a flange the load pulls straight."""
    assert value(work("joint_strength", **_BUSHED), "pull") == pytest.approx(6.0)
    assert value(work("joint_strength", load="3"), "pull") == 3.0


def test_bending_is_that_of_a_round_rod() -> None:
    """A sideways force at 6 mm bends a root of 3-48 by pi d^3 / 32 x strength / 6 mm."""
    figure = work("joint_strength", **_BUSHED).figures["bending"]
    root = 0.099 * 25.4 - 1.082531755 * 25.4 / 48
    assert figure.low == pytest.approx(pi / 32 * root**3 * 450 / 6)


def test_the_weakest_link_is_named_and_ranked_first() -> None:
    """The rows go from the weakest link up, and the figure names the first."""
    result = work("joint_strength", **_BUSHED)
    times = [row["times"] for row in result.rows]
    assert times == sorted(times)
    assert result.rows[0]["link"] in result.figures["times_held"].how
    assert value(result, "times_held") == times[0]


@pytest.mark.parametrize("wood", ["grenadilla", "boxwood", "cocus", "ebony"])
def test_a_wood_nobody_measured_is_not_known(wood: str) -> None:
    """No published shear strength was found: the link is not known, the check stays open and says why."""
    result = work("joint_strength", **{**_BUSHED, "wood": wood})
    assert result.figures["pull_out_wood"].value is None
    assert "not known" in result.figures["pull_out_wood"].how
    check = result.checks["holds_load"]
    assert check.holds == "unknown"
    assert "trial joint in scrap" in check.says
    assert "pull out wood" in result.figures["times_held"].how


def test_a_link_that_fails_decides_even_where_another_is_not_known() -> None:
    """A load that bends the shank is a no, whatever the wood may hold."""
    result = work("joint_strength", **{**_BUSHED, "wood": "ebony", "load": "100"})
    assert result.checks["holds_load"].holds == "no"
    assert margin(result, "holds_load") < 0


def test_shellac_is_no_glue_to_count_on() -> None:
    """No trustworthy strength of shellac was found, so none is given."""
    assert work("joint_strength", **{**_BUSHED, "adhesive": "shellac"}).figures["pull_out_glue"].value is None


def test_without_a_bushing_the_thread_sits_in_the_wood() -> None:
    """A post screwed into maple strips at 7/8 pi D L x the shear of the wood's ring."""
    result = work("joint_strength", thread="M2.5", engaged="4mm", wood="maple", metal="silver")
    expected = 7 / 8 * pi * 2.5 * 4 * 16.1 * (0.5 + 0.5 * 0.23)
    assert value(result, "strip_internal") == pytest.approx(expected, rel=1e-6)
    assert "pull_out_glue" not in result.figures


def test_more_engagement_never_holds_less() -> None:
    """A longer thread and a longer bushing hold at least as much."""
    short, long = (
        work("joint_strength", **_BUSHED),
        work("joint_strength", **{**_BUSHED, "engaged": "4mm", "length": "5mm"}),
    )
    for name in ("strip_external", "strip_internal", "pull_out_glue", "pull_out_wood", "tension"):
        assert value(long, name) >= value(short, name), name


def test_limits_are_said_with_every_result() -> None:
    """The result says that it is no design value and that heat softens glue."""
    steps = " ".join(work("joint_strength", thread="6BA").steps)
    assert "not design values" in steps
    assert "softens epoxy" in steps


def test_every_strength_in_the_table_has_its_source_and_order() -> None:
    """Each row of the table of materials names its source, and low is not above high."""
    for section in load("materials").values():
        for row in section:
            assert row.text("source")
            unit = "ratio" if "low_ratio" in row else "mpa"
            if f"low_{unit}" in row:
                assert 0 < row.number(f"low_{unit}") <= row.number(f"high_{unit}")


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"outside": "6mm", "wood_hole": "5mm"}, "outside"),
        ({"load": "-3"}, "load"),
        ({"wood": "plywood"}, "wood"),
        ({"thread": "3-48", "shank": "4mm"}, "shank"),
    ],
)
def test_senseless_readings_are_refused_by_name(typed: dict[str, str], name: str) -> None:
    """A reading that cannot be names its input."""
    with pytest.raises(BadInput) as refused:
        work("joint_strength", **typed)
    assert refused.value.name == name
