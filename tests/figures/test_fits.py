"""Parts that fit into each other: tenon, hinge, pad, ring, liner."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.inputs import BadInput
from tests.figures.worked import margin, value, work

_DRYING = {
    "species": "maple", "temperature_now": "21C", "humidity_now": "60", "temperature_then": "21C",
    "humidity_then": "30",
}  # fmt: skip
_SWELLING = _DRYING | {"humidity_now": "30", "humidity_then": "60"}


def mm(hundredths: int) -> str:
    """Type hundredths of a millimetre as a length."""
    return f"{hundredths / 100:.2f}mm"


@pytest.mark.parametrize(
    ("tenon", "goes_in", "close", "rocks"),
    [
        ("22.18mm", "no", "yes", "yes"),
        ("22.10mm", "yes", "yes", "yes"),
        ("22.00mm", "yes", "no", "yes"),
        ("21.85mm", "yes", "no", "no"),
    ],
)
def test_play_of_a_tenon(tenon: str, goes_in: str, close: str, rocks: str) -> None:
    """In a socket of 22.2 mm: at least 0.05, well at most 0.15, rocking over 0.3 mm (common practice)."""
    checks = work("tenon_fit", socket="22.2mm", tenon=tenon).checks
    assert [checks[name].holds for name in ("goes_in", "close_fit", "does_not_rock")] == [
        goes_in,
        close,
        rocks,
    ]


@given(space=st.integers(30, 250), squeeze=st.integers(5, 50))
def test_cork_squeezed_as_asked_fills_the_space(space: int, squeeze: int) -> None:
    """Cork before squeezing, less the asked percent of it, is the space between groove and socket."""
    result = work("tenon_fit", socket="22mm", groove_diameter=mm(2200 - 2 * space), compression=str(squeeze))
    assert value(result, "cork") * (1 - squeeze / 100) == pytest.approx(space / 100)
    assert value(result, "space") == pytest.approx(space / 100)


@given(space=st.integers(30, 220))
def test_the_sheet_is_the_thinnest_that_is_squeezed_enough(space: int) -> None:
    """No thinner sheet in the drawer is squeezed by the quarter asked for."""
    result = work("tenon_fit", socket="22mm", groove_diameter=mm(2200 - 2 * space))
    chosen = value(result, "sheet")
    thinner = [row["sheet_size"] for row in result.rows if row["sheet_size"] < chosen]
    assert chosen >= space / 100 / 0.75 - 1e-9 or chosen == 3.0
    assert all(size < space / 100 / 0.75 - 1e-9 for size in thinner)


def test_sheets_of_the_drawer_come_before_those_on_sale() -> None:
    """A drawer of two thicknesses gives one of the two."""
    result = work("tenon_fit", socket="22mm", groove_diameter="19.4mm", sheets="1/16, 2.4 mm")
    assert value(result, "sheet") == 2.4


def test_thread_fills_the_groove() -> None:
    """Wraps lie round the middle of the lapping, so length x thread^2 is the volume of the groove's space."""
    result = work(
        "tenon_fit", socket="22mm", groove_diameter="20mm", groove_length="12mm", lapping_thread="0.25mm"
    )
    assert value(result, "layers") == pytest.approx(4)
    assert value(result, "wraps") == pytest.approx(4 * 48)
    assert value(result, "thread_length") == pytest.approx(192 * pi * 21)


def test_a_tenon_that_swells_is_judged_as_it_will_be() -> None:
    """Maple from 30 to 60 percent humidity takes more than a play of 0.1 mm."""
    result = work("tenon_fit", socket="22.2mm", tenon="22.1mm", **_SWELLING)
    assert value(result, "clearance_after") < 0 < value(result, "clearance")
    assert result.checks["goes_in_after"].holds == "no"
    assert (
        work("tenon_fit", socket="22.2mm", tenon="22.1mm", **_DRYING).checks["goes_in_after"].holds == "yes"
    )


def test_a_groove_wider_than_its_tenon_is_refused() -> None:
    """One of the two was misread."""
    with pytest.raises(BadInput, match="groove_diameter"):
        work("tenon_fit", socket="22.2mm", tenon="21mm", groove_diameter="21.5mm")


@pytest.mark.parametrize(
    ("play", "small", "swedge"),
    [("0.05mm", "yes", "yes"), ("0.1mm", "no", "yes"), ("0.15mm", "no", "yes"), ("0.2mm", "no", "no")],
)
def test_side_play_of_a_hinge(play: str, small: str, swedge: str) -> None:
    """Over 0.05 mm it shows at the pad, over 0.15 mm closing in is not enough (common practice)."""
    checks = work("hinge_fit", side_play=play).checks
    assert (checks["side_play_small"].holds, checks["swedging_enough"].holds) == (small, swedge)


@given(rod=st.integers(100, 400), play=st.integers(0, 40))
def test_side_play_by_feeler_or_by_two_diameters_is_one(rod: int, play: int) -> None:
    """Tube bore less rod judges as the same play measured at once."""
    by_two = work("hinge_fit", tube_bore=mm(rod + play), rod=mm(rod))
    at_once = work("hinge_fit", side_play=mm(play))
    assert margin(by_two, "side_play_small") == pytest.approx(margin(at_once, "side_play_small"))


def test_a_sleeve_needs_metal_on_both_sides() -> None:
    """Rod 2.0 + 0.02 + 2 x 0.2 in a tube of 2.9 less 2 x 0.3 does not go."""
    result = work("hinge_fit", rod="2mm", tube_outside="2.9mm")
    assert value(result, "sleeve_outside_min") == pytest.approx(2.42)
    assert result.checks["room_for_sleeve"].holds == "no"
    assert work("hinge_fit", rod="2mm", tube_outside="3.1mm").checks["room_for_sleeve"].holds == "yes"


@pytest.mark.parametrize(
    ("pad", "holds"), [("11.1mm", "yes"), ("10.9mm", "yes"), ("11.15mm", "no"), ("10.8mm", "no")]
)
def test_a_pad_is_one_to_three_tenths_under_its_cup(pad: str, holds: str) -> None:
    """Common practice, no source."""
    assert work("pad_size", cup="11.2mm", pad=pad).checks["fits_cup"].holds == holds


@given(deep=st.integers(50, 400), rim=st.integers(0, 300))
def test_a_pad_of_the_figured_thickness_closes_level(deep: int, rim: int) -> None:
    """Bed and pad fill cup and gap, less what the seat sinks in."""
    result = work("pad_size", cup_depth=mm(deep), cup_to_seat=mm(rim))
    assert value(result, "thickness") + 0.3 - 0.1 == pytest.approx((deep + rim) / 100)
    if value(result, "thickness") > 0.5:
        typed = f"{value(result, 'thickness'):.4f}mm"
        right = work("pad_size", cup_depth=mm(deep), cup_to_seat=mm(rim), pad_thickness=typed)
        assert right.checks["thickness_right"].holds == "yes"


def test_a_pad_that_does_not_cover_its_seat_is_no_pad_matter() -> None:
    """A seat nearly as wide as the cup: the cup is the wrong one or off the hole."""
    assert work("pad_size", cup="11mm", seat="10.5mm").checks["covers_seat"].holds == "no"


@pytest.mark.parametrize(
    ("seat", "wait", "shim"), [("31.4mm", "yes", "yes"), ("31.3mm", "no", "yes"), ("31.0mm", "no", "no")]
)
def test_gap_of_a_ring(seat: str, wait: str, shim: str) -> None:
    """Up to 0.1 mm it waits, up to 0.4 mm it is shimmed, more is built up (common practice)."""
    checks = work("ring_fit", ring_bore="31.5mm", ring_seat=seat).checks
    assert (checks["waiting_enough"].holds, checks["shim_enough"].holds) == (wait, shim)


@given(bore=st.integers(2000, 4000), gap=st.integers(1, 100))
def test_a_shrunk_ring_slips_on_by_what_was_asked(bore: int, gap: int) -> None:
    """Its bore less what shrinking takes is the seat and the slip: shellac holds it, not a squeeze."""
    result = work("ring_fit", ring_bore=mm(bore), ring_seat=mm(bore - gap), slip="0.05mm")
    assert bore / 100 - value(result, "shrink") == pytest.approx((bore - gap) / 100 + 0.05)
    assert value(result, "shrink_percent") == pytest.approx(100 * value(result, "shrink") / (bore / 100))
    assert value(result, "shim") == pytest.approx(gap / 200)


def test_a_ring_loosens_as_its_wood_dries_and_strains_as_it_swells() -> None:
    """Maple, a ring fitted without gap: drying opens one, swelling outgrows the ring."""
    sizes = {"ring_bore": "31.5mm", "ring_seat": "31.5mm"}
    dry, swollen = work("ring_fit", **sizes, **_DRYING), work("ring_fit", **sizes, **_SWELLING)
    assert value(dry, "gap_after") > 0 > value(swollen, "gap_after")
    assert (dry.checks["no_strain_after"].holds, swollen.checks["no_strain_after"].holds) == ("yes", "no")


@pytest.mark.parametrize(
    ("bore", "enough", "not_much"),
    [("19.05mm", "no", "yes"), ("19.15mm", "yes", "yes"), ("19.3mm", "yes", "no")],
)
def test_play_over_a_liner(bore: str, enough: str, not_much: str) -> None:
    """0.1 to 0.2 mm, filled with something that yields (common practice)."""
    checks = work("liner_fit", liner="19mm", wood_bore=bore).checks
    assert (checks["play_enough"].holds, checks["play_not_much"].holds) == (enough, not_much)


def test_drying_wood_closes_on_its_liner() -> None:
    """Maple from 60 to 30 percent humidity takes more than a play of 0.15 mm on 19 mm."""
    result = work("liner_fit", liner="19mm", wood_bore="19.15mm", **_DRYING)
    assert result.checks["free_after"].holds == "no"
    assert (
        work("liner_fit", liner="19mm", wood_bore="19.15mm", **_SWELLING).checks["free_after"].holds == "yes"
    )


def test_wood_that_nobody_has_measured_is_not_judged() -> None:
    """Cocuswood: the play after is not known, and the check stays open."""
    result = work("liner_fit", liner="19mm", wood_bore="19.15mm", **_DRYING | {"species": "cocus"})
    assert result.figures["play_after"].value is None
    assert result.checks["free_after"].holds == "unknown"


def test_wood_tight_on_its_liner_leaves_no_room_for_sealant() -> None:
    """A bore a little under the liner gives no film, not a negative one."""
    result = work("liner_fit", liner="19mm", wood_bore="18.95mm", length="100mm")
    assert (value(result, "film"), value(result, "sealant_volume")) == (0, 0)
