"""The wood plug: sizes, volumes, and what is left of the wood."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.inputs import BadInput
from casebook.figures.worksheet import Result
from tests.figures.worked import value, work


def run(error: str = "0", **typed: str) -> Result:
    """Work the worksheet on what was typed."""
    return work("plug", error, **typed)


@given(top=st.integers(20, 90), bottom=st.integers(20, 90), depth=st.integers(10, 120))
def test_the_void_of_a_cone_is_the_sum_of_its_slices(top: int, bottom: int, depth: int) -> None:
    """Sliced thin, a coned hole has the volume of the figure, whichever end is wider."""
    result = run(hole=f"{top / 10}mm", hole_bottom=f"{bottom / 10}mm", depth=f"{depth / 10}mm")
    slices = 2000
    across = [(top + (bottom - top) * (i + 0.5) / slices) / 10 for i in range(slices)]
    summed = sum(pi / 4 * d * d * depth / 10 / slices for d in across)
    assert value(result, "void_volume") == pytest.approx(summed, rel=1e-5)


def test_a_hole_that_is_not_coned_is_a_cylinder() -> None:
    """With one diameter the void is pi D^2 / 4 times the depth, the same as a cone of equal ends."""
    plain = value(run(hole="6mm", depth="5mm"), "void_volume")
    assert plain == pytest.approx(pi / 4 * 36 * 5)
    assert plain == pytest.approx(value(run(hole="6mm", hole_bottom="6mm", depth="5mm"), "void_volume"))


def test_the_plug_is_the_hole_as_trued_less_the_glue_film() -> None:
    """Widest 5.8 mm + 0.1 mm clean-up - 2 x 0.05 mm film."""
    result = run(hole="5.8mm", hole_bottom="4.6mm", depth="6mm")
    assert value(result, "wood_hole") == pytest.approx(5.9)
    assert value(result, "diameter") == pytest.approx(5.8)
    assert value(result, "length") == 6.0
    assert value(result, "length_to_cut") == 7.0


def test_wood_removed_is_what_the_hole_gains() -> None:
    """The cylinder that is cut less the void that was there."""
    for typed in (
        {"hole": "5.8mm", "hole_bottom": "4.6mm", "depth": "6mm"},
        {"hole": "5.8mm", "depth": "6mm"},
    ):
        result = run(**typed)
        cut = pi / 4 * value(result, "wood_hole") ** 2 * 6
        assert value(result, "wood_removed") == pytest.approx(cut - value(result, "void_volume"))


def test_a_filler_is_mixed_with_its_waste() -> None:
    """A batch is the void and 30 percent, or what was asked."""
    void = value(run(hole="5mm", depth="4mm"), "void_volume")
    assert value(run(hole="5mm", depth="4mm"), "batch") == pytest.approx(1.3 * void)
    assert value(run(hole="5mm", depth="4mm", waste="0"), "batch") == pytest.approx(void)


@pytest.mark.parametrize(("wall", "holds"), [("7.5mm", "yes"), ("7mm", "yes"), ("6.9mm", "no")])
def test_wood_is_left_under_the_plug(wall: str, holds: str) -> None:
    """A plug 6 mm deep leaves the least 1.0 mm from a wall of 7 mm on."""
    assert run(hole="5mm", depth="6mm", wall=wall).checks["wood_to_bore"].holds == holds


def test_an_undercut_hole_gives_no_false_waste() -> None:
    """Where the hole is wider below, the wood removed is not known and says so; the rest still stands."""
    result = run(hole="4.6mm", hole_bottom="5.8mm", depth="6mm")
    assert result.figures["wood_removed"].value is None
    assert value(result, "wood_hole") == pytest.approx(5.9)


def test_a_flange_narrower_than_the_plug_shows_the_glue_line() -> None:
    """The glue line hides under a flange of 6 mm and shows beside one of 5.5 mm."""
    for flange, holds in (("6mm", "yes"), ("5.5mm", "no")):
        assert run(hole="5.8mm", depth="6mm", flange=flange).checks["hidden_by_flange"].holds == holds


@pytest.mark.parametrize(
    ("typed", "name"),
    [({"hole": "0mm"}, "hole"), ({"depth": "-1mm"}, "depth"), ({"hole": "30mm", "body": "27mm"}, "hole")],
)
def test_senseless_readings_are_refused_by_name(typed: dict[str, str], name: str) -> None:
    """A reading that cannot be names its input."""
    with pytest.raises(BadInput) as refused:
        run(**typed)
    assert refused.value.name == name
