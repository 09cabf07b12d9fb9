"""Wherever the true sizes lie within the readings, every figure lies within its bounds, and no check is wrong."""

from __future__ import annotations

import shlex
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures import IDS, worksheet
from casebook.figures.inputs import BadInput, take
from casebook.figures.inputs import read as read_inputs
from casebook.quantity import Reading

_ERROR = Fraction(5, 100)
# Further ways to ask the same sheets, beside their examples.
_MORE = {
    "bushing": (
        "flange=6.4mm shank=2.5mm pitch=0.53mm engaged=3mm hole=5.2mm hole_as_cut=5.5mm wall=7mm"
        " seat_depth=1.2mm tone_hole=4mm off_centre=0.1mm",
        "flange=6.4mm thread=6BA engaged=3mm hole=5mm body=27mm bore=14.6mm seat=proud",
    ),
    "flange_seat": (
        "body=27mm flange=7mm flange_thickness=0.8mm seat=proud old_seat=0.5mm hinge_height=6mm wall=6mm",
        "body=27mm flange=7mm flange_thickness=0.8mm seat=recessed seat_as_cut=1.4mm old_seat=1.3mm"
        " hinge_height=6mm bore=14.6mm",
    ),
    "plug": (
        "hole=5.8mm depth=6mm body=27mm bore=14.6mm flange=7mm",
        "hole=5.8mm hole_bottom=4.6mm depth=6mm wall=7.5mm hole_as_cut=6.2mm flange=7mm",
    ),
    "post_angle": ("body=27mm hinge_height=6mm spacing=22mm layout=lengthwise offset=0.3mm other_body=26.5mm",),
    "crack_pin_layout": (
        "body=27mm wall=6.2mm pin=1.2mm crack=45mm width=0.1mm depth=3mm",
        "body=27mm bore=14.6mm thread=0-80 crack=45mm",
    ),
    "tone_hole_insert": (
        "hole=8mm depth=3mm body=27mm wall=6mm undercut=1.5mm neighbour=4mm stands=0.5mm",
        "hole=8mm damage=10.5mm depth=3mm body=27mm bore=14.6mm neighbour=4mm hole_as_cut=11mm",
        "hole=8mm outside=11mm depth=3mm body=27mm bore=14.6mm neighbour=4mm",
    ),
    "tenon_graft": (
        "body=26mm bore=14.8mm to_tone_hole=30mm",
        "body=26mm bore=14.8mm hole_as_cut=20mm to_tone_hole=30mm",
    ),
    "ring_fit": ("ring_bore=31.5mm ring_seat=31.0mm slip=0.05mm",),
    "hinge_fit": ("side_play=0.1mm end_play=0.2mm rod=2mm tube_outside=3.6mm",),
    "spring_force": ("kind=flat width=3mm thickness=0.3mm length=25mm travel=3mm material=phosphor_bronze",),
    "wall": ("body=27mm bore=14.6mm",),
    "joint_strength": ("shank=2.5mm pitch=0.53mm engaged=3mm tapped_hole=2mm metal=brass bushing_metal=brass",),
}  # fmt: skip
_CASES = [(id, words) for id in IDS for words in (worksheet(id).example, *_MORE.get(id, ()))]


def _true(data: st.DataObject, name: str, reading: Reading) -> Reading:
    """Draw an exact size within the bounds of a reading: an end, the middle, or between."""
    part = data.draw(st.integers(0, 8), label=name)
    return Reading.exact(reading.low + (reading.high - reading.low) * part / 8, unit=reading.unit)


@pytest.mark.parametrize(("id", "words"), _CASES)
@given(data=st.data())
def test_the_true_result_lies_within_the_bounds(id: str, words: str, data: st.DataObject) -> None:
    """Read to 0.05 mm; the truth may be anywhere within, for every input by itself."""
    sheet = worksheet(id)
    typed = dict(word.split("=", 1) for word in shlex.split(words))
    blurred = sheet.run(read_inputs(sheet.inputs, typed, error=_ERROR))
    true = {
        name: _true(data, name, value) if isinstance(value, Reading) else value
        for name, value in read_inputs(sheet.inputs, typed, error=_ERROR).values.items()
        if name in typed
    }
    try:
        sharp = sheet.run(take(sheet.inputs, true))
    except BadInput:
        return
    for name, figure in blurred.figures.items():
        exact = sharp.figures.get(name)
        if exact is None or exact.value is None or figure.low is None or figure.high is None:
            continue
        if figure.low == figure.high:
            continue  # a real size that was chosen, or one that no reading moves
        noise = 1e-9 * max(1.0, abs(exact.value))
        assert figure.low - noise <= exact.value <= figure.high + noise, name
    for name, check in blurred.checks.items():
        if check.holds != "unknown" and name in sharp.checks:
            assert sharp.checks[name].holds in (check.holds, "unknown"), name
