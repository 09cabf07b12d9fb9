"""A ring or cap on its seat: gap, shim, what shrinking takes, and the fit once the wood has moved."""

from __future__ import annotations

from math import pi

from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.moisture import (
    CLIMATE,
    FREE_MOVEMENT,
    SPECIES,
    derive_movement,
    has_climate,
    moved_figure,
)
from casebook.figures.round_body import GEOMETRY, keep_below
from casebook.figures.shims import SHIMS, choose_shims, filling
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_RING_BORE = Input("ring_bore", "length", "inside diameter of the ring", low="4 mm", high="150 mm")
_RING_SEAT = Input("ring_seat", "length", "diameter of the wood where it sits", low="4 mm", high="150 mm")
_WAIT_UNDER = Input(
    "wait_under", "length", "gap that moist air or paper in shellac takes up",
    default="0.1 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_SHIM_UNDER = Input(
    "shim_under", "length", "gap up to which a shim does",
    default="0.4 mm", low="0 mm", high="4 mm", measured=False,
)  # fmt: skip
_SLIP = Input(
    "slip", "length", "how much wider than its seat a shrunk ring is left, for shellac: never a squeeze",
    default="0.03 mm", low="0 mm", high="0.5 mm", measured=False,
)  # fmt: skip
_MOST_STRAIN = Input(
    "most_strain", "number", "most that a plain metal ring is shrunk, percent",
    default="3", low="0.1", high="10", measured=False,
)  # fmt: skip
_MOST_SQUEEZE = Input(
    "most_squeeze", "length", "how much wider than the ring the wood may grow before it is under strain",
    default="0.1 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip

GAP = term("ring_bore") - term("ring_seat")
_SHIM = Formula(
    lambda ring_bore, ring_seat: max(ring_bore - ring_seat, 0.0) / 2, rises="ring_bore", falls="ring_seat"
)
_STRIP = Formula(lambda ring_bore, ring_seat: pi * (ring_bore + ring_seat) / 2, rises="ring_bore ring_seat")
_SHRUNK_BORE = term("ring_seat") + term("slip")
_SHRINK = GAP - term("slip")
_SHRINK_PERCENT = Formula(
    lambda ring_bore, ring_seat, slip: 100 * (1 - (ring_seat + slip) / ring_bore),
    rises="ring_bore",
    falls="ring_seat slip",
)
# The ring does not move with the air; the wood's mean diameter does.
_SEAT_AFTER = Formula(
    lambda ring_seat, radial_strain, tangential_strain: (
        ring_seat * (1 + (radial_strain + tangential_strain) / 2)
    ),
    rises="ring_seat radial_strain tangential_strain",
)
_GAP_AFTER = term("ring_bore") - _SEAT_AFTER
# A ring is driven on, so the wood may be a little wider; more is a reading gone wrong.
_WIDEST_SEAT = 1.05


def _run(inputs: Inputs) -> Result:
    keep_below(inputs, "ring_seat", "ring_bore", _WIDEST_SEAT)
    derive_movement(inputs)
    result = Result(WORKSHEET.id, inputs)
    result.figure("gap", GAP, how="ring bore - seat, on the diameter", source=GEOMETRY)
    result.figure("shim", _SHIM, how="gap / 2: thickness of a shim all round", source=GEOMETRY)
    result.figure(
        "shim_strip", _STRIP, how="pi x mean of bore and seat: length of the strip", source=GEOMETRY
    )
    for name, formula, unit, how in (
        ("shrunk_bore", _SHRUNK_BORE, "mm", "seat + slip: bore to shrink a plain metal ring to"),
        ("shrink", _SHRINK, "mm", "gap - slip: what that takes off its bore"),
        ("shrink_percent", _SHRINK_PERCENT, "percent", "shrink / ring bore"),
    ):
        result.figure(name, formula, unit=unit, how=how, source=COMMON_PRACTICE, checked="common practice")
    moved_figure(
        result,
        "gap_after",
        _GAP_AFTER,
        how="ring bore - seat once its mean diameter has moved (negative: it grips)",
    )
    _packing(result)
    _checks(result)
    result.steps += _STEPS
    return result


def _packing(result: Result) -> None:
    """Choose one or two papers or foils, as thick as the gap lets in; shellac fills the rest."""
    shim, leave = _SHIM(result.inputs.spans), result.inputs.spans["wait_under"].value
    if shim is None or shim.value <= 0:
        return
    packing = choose_shims(result, filling(max(shim.value - leave / 2, 0.0), shim.value))
    result.chosen_figure("packing", packing, how="papers or foils all round, as thick as the gap lets in")


def _checks(result: Result) -> None:
    result.check(
        "waiting_enough",
        term("wait_under") - GAP,
        yes="moist air, or paper in shellac, takes up this gap",
        no="the gap is more than moist air or paper takes up",
        ways_out=("a shim all round", "shrink a plain metal ring"),
    )
    result.check(
        "shim_enough",
        term("shim_under") - GAP,
        yes="a shim takes up this gap",
        no="the gap is more than a shim takes up: build up the seat",
        ways_out=(
            "build up the seat with like wood or thread and shellac",
            "ask whether the ring belongs here",
        ),
    )
    result.check(
        "shrinking_sane",
        joined(lambda most, percent: most - percent, "+-", term("most_strain"), _SHRINK_PERCENT),
        unit="percent",
        yes="a plain metal ring can be shrunk by so much",
        no="that is more than a ring should be shrunk",
        ways_out=("a shim", "build up the seat"),
    )
    if has_climate(result.inputs):
        result.check(
            "no_strain_after",
            _GAP_AFTER + term("most_squeeze"),
            yes="the ring will not strain the wood, or itself, after it has moved",
            no="the wood will outgrow the ring: a tight ring cracks itself or the socket",
            ways_out=(
                "fit it at the moisture it will live in",
                "leave a yielding packing, not metal on wood",
            ),
        )


_STEPS = (
    f"Rest the wood before the gap is believed ({COMMON_PRACTICE}).",
    "Never heat, stretch or load an ivory ring, nor one that may be celluloid: it burns like a fuse.",
    "A ring tight on a crack comes off first.",
    FREE_MOVEMENT,
)

WORKSHEET = Worksheet(
    id="ring_fit",
    title="Ring or cap: gap, shim, shrinking, and the fit after the wood has moved",
    inputs=(
        _RING_BORE, _RING_SEAT, _WAIT_UNDER, _SHIM_UNDER, _SLIP, _MOST_STRAIN, _MOST_SQUEEZE, SPECIES,
        *CLIMATE, SHIMS,
    ),
    run=_run,
    example="ring_bore=31.5mm ring_seat=31.3mm species=grenadilla temperature_now=21C humidity_now=35"
    " temperature_then=21C humidity_then=55",
)  # fmt: skip
