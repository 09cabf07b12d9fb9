"""Springs: moduli of Machinery's Handbook, 31st edition, p. 346, table 20, and worked cantilevers.

Force and stress of the worked springs follow the clamped beam of any text on strength of materials.
"""

from __future__ import annotations

import pytest

from tests.figures.worked import value, work

_PSI_IN_GPA = 6.894757e-6


@pytest.mark.parametrize(
    ("material", "million_psi"),
    [
        ("music_wire", 29.5),
        ("hard_drawn_steel", 28.8),
        ("stainless", 28.0),
        ("phosphor_bronze", 15.0),
        ("spring_brass", 15.0),
    ],
)
def test_modulus(material: str, million_psi: float) -> None:
    """A spring of the material pushes as one of the printed modulus."""
    sizes = {"kind": "needle", "diameter": "0.7 mm", "length": "28 mm", "travel": "3 mm"}
    by_name = value(work("spring_force", **sizes, material=material), "force")
    by_modulus = value(
        work("spring_force", **sizes, modulus=f"{million_psi * 1e6 * _PSI_IN_GPA:.4f}"), "force"
    )
    assert by_name == pytest.approx(by_modulus, rel=5e-4)


def test_beryllium_copper_lies_between_cold_drawn_and_hardened() -> None:
    """17 to 19 million psi."""
    sizes = {"kind": "flat", "width": "3 mm", "thickness": "0.3 mm", "length": "25 mm", "travel": "3 mm"}
    force = work("spring_force", **sizes, material="beryllium_copper").figures["force"]
    low, high = (value(work("spring_force", **sizes, modulus=e), "force") for e in ("117.2", "131.0"))
    assert force.low == pytest.approx(low)
    assert force.high == pytest.approx(high)


def test_needle_of_music_wire() -> None:
    """D 0.8, L 25, bent 3 mm, E 203.4 GPa: I = 0.020106 mm4, 2.3556 N, 1171.6 MPa."""
    result = work(
        "spring_force", kind="needle", diameter="0.8mm", length="25mm", travel="3mm", material="music_wire"
    )
    assert value(result, "inertia") == pytest.approx(0.020106, abs=5e-7)
    assert value(result, "force") == pytest.approx(2.3556, abs=5e-5)
    assert value(result, "stress") == pytest.approx(1171.6, abs=0.05)


def test_leaf_of_phosphor_bronze() -> None:
    """b 3, t 0.30, L 25, bent 3 mm, E 103.4 GPa: I = 0.00675 mm4, 0.402 N, 223.3 MPa."""
    result = work(
        "spring_force",
        kind="flat",
        width="3mm",
        thickness="0.3mm",
        length="25mm",
        travel="3mm",
        modulus="103.4",
    )
    assert value(result, "inertia") == pytest.approx(0.00675, abs=5e-7)
    assert value(result, "force") == pytest.approx(0.402, abs=5e-4)
    assert value(result, "stress") == pytest.approx(223.3, abs=0.05)


@pytest.mark.parametrize(
    ("kind", "size", "other", "percent"),
    [
        ("needle", {"diameter": "0.6mm"}, {"diameter": "0.66mm"}, 46.4),
        ("flat", {"thickness": "0.3mm", "width": "3mm"}, {"thickness": "0.33mm", "width": "3mm"}, 33.1),
    ],
)
def test_ten_percent_thicker(kind: str, size: dict[str, str], other: dict[str, str], percent: float) -> None:
    """Force goes with d^4 of a needle (46 percent) and t^3 of a leaf (33 percent)."""
    rest = {"kind": kind, "length": "25mm", "travel": "3mm", "material": "stainless"}
    thin, thick = work("spring_force", **rest, **size), work("spring_force", **rest, **other)
    assert 100 * (value(thick, "force") / value(thin, "force") - 1) == pytest.approx(percent, abs=0.05)
    assert value(thin, "ten_percent_thicker") == pytest.approx(percent, abs=0.05)


@pytest.mark.parametrize(
    ("inches", "million_psi"), [(0.025, 29.5), (0.032, 29.5), (0.040, 29.0), (0.063, 29.0)]
)
def test_music_wire_is_less_stiff_the_thicker_it_is(inches: float, million_psi: float) -> None:
    """Table 20: to 0.032 in 29.5, from 0.033 to 0.063 in 29.0 million psi."""
    sizes = {"kind": "needle", "diameter": f"{inches} in", "length": "30 mm", "travel": "3 mm"}
    by_name = value(work("spring_force", **sizes, material="music_wire"), "force")
    by_modulus = value(
        work("spring_force", **sizes, modulus=f"{million_psi * 1e6 * _PSI_IN_GPA:.4f}"), "force"
    )
    assert by_name == pytest.approx(by_modulus, rel=5e-4)


def test_music_wire_read_across_a_step_of_the_table_may_be_of_either_stiffness() -> None:
    """0.81 mm read to 0.02 mm lies on both sides of 0.032 in (0.8128 mm)."""
    sizes = {"kind": "needle", "diameter": "0.81 mm +- 0.02", "length": "30 mm +- 0", "travel": "3 mm +- 0"}
    force = work("spring_force", **sizes, material="music_wire").figures["force"]
    low, high = (
        value(work("spring_force", **sizes | {"diameter": f"{d} mm"}, modulus=e), "force")
        for d, e in ((0.79, "199.9"), (0.83, "203.4"))
    )
    as_read = value(work("spring_force", **sizes, modulus="203.4"), "force")
    assert (force.low, force.value, force.high) == pytest.approx((low, as_read, high))
