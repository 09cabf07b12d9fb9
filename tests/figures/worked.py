"""Worksheets worked on what was typed, as the command line does it."""

from __future__ import annotations

from fractions import Fraction

from casebook.figures import worksheet
from casebook.figures.inputs import read
from casebook.figures.worksheet import Result


def work(id: str, error: str = "0", **typed: str) -> Result:
    """Work the worksheet `id` on what was typed, with a reading error in mm."""
    sheet = worksheet(id)
    return sheet.run(read(sheet.inputs, typed, error=Fraction(error)))


def value(result: Result, name: str) -> float:
    """Give a figure's value."""
    found = result.figures[name].value
    assert found is not None
    return found


def margin(result: Result, name: str) -> float:
    """Give a check's margin."""
    found = result.checks[name].margin
    assert found is not None
    return found
