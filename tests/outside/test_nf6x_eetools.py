"""Drill sizes against the package nf6x-eetools 1.0.1 (ASME B94.11M)."""

from fractions import Fraction

import pytest
from nf6x_eetools import fractional_drill_table, letter_drill_table, number_drill_table

from casebook.quantity import INCH, drills


@pytest.mark.parametrize("number", range(1, 81))
def test_number_drill(number: int) -> None:
    assert dict(drills("number"))[f"#{number}"] == Fraction(number_drill_table[f"no{number}"]) * INCH


@pytest.mark.parametrize("letter", "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
def test_letter_drill(letter: str) -> None:
    assert dict(drills("letter"))[letter] == Fraction(letter_drill_table[letter]) * INCH


@pytest.mark.parametrize("name", [name for name, _ in drills("fraction")])
def test_fraction_drill(name: str) -> None:
    inches = float(dict(drills("fraction"))[name] / INCH)
    assert inches == pytest.approx(float(fractional_drill_table[name.replace(" ", "")]), abs=1e-9)
