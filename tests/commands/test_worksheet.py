"""`casebook worksheet`: list, help, compute, and one line for bad input."""

from __future__ import annotations

import pytest

from casebook import figures
from tests.line import Casebook


def test_alone_it_lists_every_worksheet(casebook: Casebook) -> None:
    """With its title; as data too."""
    said = casebook("worksheet")
    assert said.status == 0
    assert all(id in said.out for id in figures.IDS)
    assert [row["worksheet"] for row in casebook("worksheet", "--json").data] == list(figures.IDS)


@pytest.mark.parametrize("id", figures.IDS)
def test_help_shows_inputs_and_a_true_example(casebook: Casebook, id: str) -> None:
    """Every input with unit or default, and an example that works as printed."""
    said = casebook("worksheet", id.replace("_", "-"), "--help")
    assert said.status == 0
    sheet = figures.worksheet(id)
    assert all(item.name in said.out for item in sheet.inputs)
    worked = casebook("worksheet", id, *_words(sheet.example), "--json")
    assert worked.status == 0, worked.err
    assert worked.data["worksheet"] == id
    assert worked.data["figures"] or worked.data["checks"] or worked.data["rows"]
    assert casebook("worksheet", id, *_words(sheet.example)).status == 0


def _words(example: str) -> list[str]:
    import shlex

    return shlex.split(example)


def test_the_figures_of_the_contract(casebook: Casebook) -> None:
    """Lengths in mm whatever is shown, with bounds, formula, source and how far it was checked."""
    data = casebook(
        "--unit", "in", "worksheet", "flange-seat", "body=27mm", "flange=7mm", "flange-thickness=0.8mm",
        "seat=recessed", "error=0mm", "--json",
    ).data  # fmt: skip
    seat = data["figures"]["seat_depth"]
    assert seat["unit"] == "mm"
    assert seat["value"] == pytest.approx(0.4616 + 0.8 + 0.05, abs=1e-4)
    assert seat["low"] == pytest.approx(seat["high"])
    assert {"how", "source", "checked"} <= set(seat)


def test_an_input_may_carry_its_own_error(casebook: Casebook) -> None:
    """`hole=5.2mm+-0.05` widens that input alone."""
    data = casebook("worksheet", "bushing", "hole=5.2mm+-0.05", "error=0mm", "--json").data
    trued = data["figures"]["trued_hole"]
    assert trued["high"] - trued["low"] == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("bushng",), "did you mean bushing?"),
        (("tap-drill", "thred=3-48"), "thred: no such input; did you mean thread?"),
        (("tap-drill", "thread"), "no name=value"),
        (("tap-drill", "thread=3-48", "thread=4-40"), "given twice"),
        (("tap-drill", "thread="), "thread"),
        (("tap-drill", "thread=3-49"), "thread"),
        (("tap-drill", "thread=3-48", "percent=0"), "percent"),
        (("flange-seat", "body=27", "flange=7mm"), "body"),
        (("flange-seat", "body=7mm", "flange=27mm"), "flange"),
        (("flange-seat", "body=-27mm", "flange=7mm"), "body"),
        (("flange-seat", "body=0mm", "flange=7mm"), "body"),
        (("flange-seat", "body=nanmm", "flange=7mm"), "body"),
        (("flange-seat", "body=infmm", "flange=7mm"), "body"),
        (("flange-seat", "body=1e308mm", "flange=7mm"), "body"),
        (("flange-seat", "body=27kg", "flange=7mm"), "body"),
        (("bushing", "body=14mm", "bore=27mm", "flange=7mm"), "bore"),
        (("bushing", "flange=7mm", "error=1m"), "error"),
        (("bushing", "flange=7mm", "error=9mm"), "error"),
        (("flange-seat", "seat=sideways"), "seat"),
        (("compare", "this=3mm", "other=2"), "other"),
    ],
)
def test_bad_input_gets_one_line(casebook: Casebook, words: tuple[str, ...], says: str) -> None:
    """Status 2, the input by name, no traceback, no figure."""
    said = casebook("worksheet", *words, "--json")
    assert said.status == 2
    assert said.out == ""
    assert says in said.one_line()
