"""Movement of wood across the grain, against the Wood Handbook and its worked examples.

Sources: Wood Handbook, FPL-GTR-190, table 13-5 (read on a page scan); shrinkage of table 4-3 in a published copy;
worked examples beside each. Air is chosen so that moisture changes by a known amount.
"""

from __future__ import annotations

import pytest

from casebook.figures.moisture import coefficients, species_row
from tests.figures.worked import value, work


@pytest.mark.parametrize(
    ("species", "radial", "tangential"),
    [
        ("apple", 0.00205, 0.00376),
        ("beech", 0.0019, 0.00431),
        ("cherry", 0.00126, 0.00248),
        ("red_maple", 0.00137, 0.00289),
        ("maple", 0.00165, 0.00353),
        ("persimmon", 0.00278, 0.00403),
        ("walnut", 0.0019, 0.00274),
        ("birch", 0.00256, 0.00338),
        ("honeylocust", 0.00144, 0.0023),
    ],
)
def test_change_for_each_percent_of_moisture(species: str, radial: float, tangential: float) -> None:
    """Table 13-5: change of size over size over change of moisture."""
    result = work(
        "wood_movement", species=species, size="100mm", temperature_now="70F", humidity_now="35",
        temperature_then="70F", humidity_then="55",
    )  # fmt: skip
    change = value(result, "moisture_then") - value(result, "moisture_now")
    assert value(result, "change_radial") / 100 / change == pytest.approx(radial)
    assert value(result, "change_tangential") / 100 / change == pytest.approx(tangential)


@pytest.mark.parametrize(
    ("species", "radial", "tangential"),
    [
        ("grenadilla", 0.000986, 0.001653),
        ("boxwood", 0.002156, 0.003495),
        ("rosewood", 0.000916, 0.002011),
        ("ebony", 0.001867, 0.003116),
    ],
)
def test_coefficients_derived_from_shrinkage(species: str, radial: float, tangential: float) -> None:
    """1 / (3000 / S - 20) from published shrinkage: online wood database and USDA data sheets."""
    known = coefficients(species_row(species))
    assert known == pytest.approx((radial, tangential), abs=5e-7)


@pytest.mark.parametrize(
    ("shrinkage", "printed"), [(4.8, 0.00165), (9.9, 0.00353), (5.5, 0.0019), (11.9, 0.00431), (3.7, 0.00126)]
)
def test_the_derivation_gives_the_printed_coefficients(shrinkage: float, printed: float) -> None:
    """Sugar maple, beech and cherry: shrinkage of table 4-3 gives table 13-5 to its last digit (from memory)."""
    assert 1 / (3000 / shrinkage - 20) == pytest.approx(printed, abs=6e-6)


def test_sugar_maple_from_eight_to_eleven_percent() -> None:
    """30 mm along the rings moves 0.318 mm for three percent: 30 x 0.00353 x 3."""
    result = work(
        "wood_movement", species="sugar_maple", size="30mm", temperature_now="70F", humidity_now="42",
        temperature_then="70F", humidity_then="60",
    )  # fmt: skip
    change = value(result, "moisture_then") - value(result, "moisture_now")
    assert value(result, "change_tangential") * 3 / change == pytest.approx(0.3177, abs=5e-5)


@pytest.mark.parametrize(
    ("species", "ratio", "within"), [("grenadilla", 1.7, 0.05), ("boxwood", 1.6, 0.05), ("maple", 2.1, 0.05)]
)
def test_rings_over_rays(species: str, ratio: float, within: float) -> None:
    """Tangential over radial movement, from the same sources: 1.7 blackwood, 1.6 box, 2.1 hard maple."""
    known = coefficients(species_row(species))
    assert known is not None
    assert known[1] / known[0] == pytest.approx(ratio, abs=within)


def test_nothing_is_published_for_cocuswood() -> None:
    """No shrinkage was found, so its movement is not known."""
    result = work(
        "wood_movement", species="cocus", size="25mm", temperature_now="21C", humidity_now="40",
        temperature_then="21C", humidity_then="55",
    )  # fmt: skip
    assert result.figures["change_tangential"].value is None
    assert "not known" in result.figures["change_tangential"].how
