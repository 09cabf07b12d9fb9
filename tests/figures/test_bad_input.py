"""Bad input to every worksheet by the command's door: one line that names it, status 2, nothing worked out."""

from __future__ import annotations

import shlex

import pytest

from casebook.figures import IDS, worksheet
from tests.line import Casebook

# Nothing on a bench is any of these, whatever is asked for.
_NEVER = (
    "", "nan", "inf", "-inf", "1e308", "1e308 mm", "nan mm", "-1", "-1 mm", "9999999999 mm", "1/0", "5..2 mm",
    "x" * 5000,
)  # fmt: skip
_UNITS = ("5 furlongs", "5 mm 6 mm", "5 mm +- 9 mm", "5 mm by thumb", "goes 5 mm not 4 mm")
_LENGTHS = ("length", "sizes", "pitch")


def _never(kind: str) -> tuple[str, ...]:
    return (*_NEVER, *_UNITS) if kind in _LENGTHS else _NEVER


@pytest.mark.parametrize(
    ("id", "name"), [(id, item.name) for id in IDS for item in worksheet(id).inputs if item.kind != "text"]
)
def test_what_cannot_be_is_refused_in_one_line(casebook: Casebook, id: str, name: str) -> None:
    """The line names worksheet and input, and says what would do; the typed text does not flood it."""
    sheet = worksheet(id)
    example = dict(word.split("=", 1) for word in shlex.split(sheet.example))
    kind = next(item.kind for item in sheet.inputs if item.name == name)
    for bad in _never(kind):
        typed = {**example, name: bad}
        said = casebook("worksheet", id, *[f"{key}={value}" for key, value in typed.items()], "--json")
        assert (said.status, said.out) == (2, ""), bad[:40]
        assert said.one_line().startswith(f"casebook: worksheet {id}: {name}: "), bad[:40]
        assert len(said.err) < 400
        assert any(word in said.err for word in ("sensible", "type ", "add ", "is none of")), said.err


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("bushing body=27mm bore=27.5mm", "bore"),
        ("bushing flange=28mm body=27mm", "flange"),
        ("bushing wall=14mm body=27mm", "wall"),
        ("bushing hole=28mm body=27mm", "hole"),
        ("bushing seat_depth=7mm wall=6mm", "seat_depth"),
        ("flange_seat flange=28mm body=27mm", "flange"),
        ("band_depth thickness=4mm wall=3mm", "thickness"),
        ("crack_pin_layout depth=14mm body=27mm", "depth"),
        ("tenon_fit groove_diameter=23mm socket=22mm", "groove_diameter"),
        ("tenon_graft spigot=14mm bore=14.8mm", "bore"),
        ("tenon_graft hole_as_cut=27mm body=26mm", "hole_as_cut"),
        ("tone_hole_insert damage=7mm hole=8mm", "hole"),
        ("tone_hole_insert hole_as_cut=7mm hole=8mm", "hole"),
        ("hinge_fit rod=2.2mm tube_bore=2.1mm", "rod"),
        ("hinge_fit tube_bore=3.7mm tube_outside=3.6mm", "tube_bore"),
        ("pad_size seat=12mm cup=11mm", "seat"),
        ("ring_fit ring_seat=40mm ring_bore=31mm", "ring_seat"),
        ("liner_fit liner=25mm wood_bore=19mm", "liner"),
        ("spring_force diameter=2mm length=5mm", "diameter"),
        ("post_angle body=27mm hinge_height=6mm spacing=80mm", "spacing"),
        ("thread crests=1 span=5mm", "crests"),
        ("quote hours=2/1/3 rate=60", "hours"),
        ("bore_profile stations='0 mm, 50 mm, 20 mm' bore='15 mm, 15 mm, 15 mm'", "stations"),
        ("bore_profile stations='0 mm, 50 mm' bore='15 mm'", "stations"),
    ],
)
def test_sizes_that_cannot_go_together_are_refused_by_name(casebook: Casebook, words: str, name: str) -> None:
    """Inside out, wider than what holds it, deeper than what it lies in: measured again, never reckoned on."""
    said = casebook("worksheet", *shlex.split(words))
    assert (said.status, said.out) == (2, "")
    assert said.one_line().startswith(f"casebook: worksheet {words.split()[0]}: {name}: ")


@pytest.mark.parametrize("typed", ["nan", "inf", "1e308mm", "-1mm", "6mm", "", "0.02"])
def test_an_error_of_reading_that_cannot_be_is_refused(casebook: Casebook, typed: str) -> None:
    """The error is a length with a unit, up to 5 mm."""
    said = casebook("worksheet", "bushing", "hole=5.2mm", f"error={typed}")
    assert (said.status, said.out) == (2, "")
    assert said.one_line().startswith("casebook: worksheet bushing: error: ")


def test_a_slip_in_a_word_is_met_with_the_nearest_one(casebook: Casebook) -> None:
    """Of twenty woods one is meant."""
    said = casebook("worksheet", "wood-movement", "species=granadilla")
    assert "did you mean grenadilla?" in said.one_line()


def test_a_list_without_end_is_refused(casebook: Casebook) -> None:
    """No drawer holds so much, and every pair of shims is tried."""
    said = casebook("worksheet", "clocking", "thread=3-48", "degrees=10", f"shims={'0.1 mm; ' * 501}")
    assert said.status == 2
    assert "sensible: up to 500" in said.one_line()
