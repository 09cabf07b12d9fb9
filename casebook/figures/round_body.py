"""The round body of the instrument: fall-away under a flat flange, seat, wall. Plane geometry, in mm.

R is half the body's diameter. The fall-away (sagitta) under a flange of diameter F is
R - sqrt(R^2 - (F/2)^2): how far the wood has dropped below the high line at the flange's edge.
"""

from __future__ import annotations

from math import sqrt

from casebook.figures.formula import Formula, term
from casebook.figures.inputs import BadInput, Inputs, Span
from casebook.quantity import Reading

GEOMETRY = "plane geometry"

SAGITTA = Formula(
    lambda body, flange: body / 2 - sqrt((body / 2) ** 2 - (flange / 2) ** 2),
    rises="flange",
    falls="body",
)
WALL_COMPUTED = Formula(lambda body, bore: (body - bore) / 2, rises="body", falls="bore")

_RECESSED = SAGITTA + term("flange_thickness") + term("set_down")
# While nobody has said how the flange sits, `seat` is among what is missing: no number ever stands under it.
_NOT_SAID = SAGITTA + term("seat")

SEAT_HOW = {
    "seat_depth": "as measured from the high line",
    "recessed": "fall-away under the flange + flange thickness + set-down",
    "proud": "fall-away under the flange; its thickness stands on the wood",
    "": "fall-away under the flange, and more where it is recessed",
}
_SEATS = {"seat_depth": term("seat_depth"), "recessed": _RECESSED, "proud": SAGITTA, "": _NOT_SAID}


def seat_kind(inputs: Inputs) -> str:
    """Say what the seat's depth is made of: ``seat_depth`` (measured), ``recessed``, ``proud`` or ``""``."""
    return "seat_depth" if "seat_depth" in inputs else inputs.word("seat")


def seat_formula(inputs: Inputs) -> Formula:
    """Give the depth of the flange's seat from the high line, in mm, as these inputs allow it."""
    return _SEATS[seat_kind(inputs)]


def wall_formula(inputs: Inputs, *, doubted: bool = False, read_as: str = "wall") -> Formula:
    """Give the wall in mm: as measured, or from body and bore where nobody measured it.

    Args:
        inputs: the inputs of the calculation.
        doubted: widen a computed wall by how far the bore may run off the middle (``off_middle``).
        read_as: the input by which a wall is measured in this worksheet.
    """
    if "wall" in inputs or not ("body" in inputs and "bore" in inputs):
        return term("wall")
    if not doubted:
        return WALL_COMPUTED
    allowance = inputs.spans["off_middle"].value
    inputs.derive("bore_runs_off", Span(-allowance, 0.0, allowance), read_as)
    return WALL_COMPUTED + term("bore_runs_off")


def keep_below(
    inputs: Inputs, smaller: str, larger: str, share: float = 1.0, *, may_touch: bool = False
) -> None:
    """Refuse readings that cannot go together: `smaller` must be less than `share` of `larger`.

    Raises:
        BadInput: naming `smaller` and the range that would make sense.
    """
    a, b = inputs.values.get(smaller), inputs.values.get(larger)
    if not isinstance(a, Reading) or not isinstance(b, Reading):
        return
    most = share * float(b.value)
    if float(a.value) < most or (may_touch and float(a.value) == most):
        return
    least = "at most " if may_touch else "less than "
    part = "" if share == 1.0 else f"{share:g} of "
    raise BadInput(
        smaller,
        f"{_shown(a)} does not go with {larger} {_shown(b)}: measure again"
        f" (sensible: {least}{part}the {larger.replace('_', ' ')}, {most:.4g} mm)",
    )


def keep_body_sane(inputs: Inputs) -> None:
    """Refuse a bore, wall, flange or hole that no body of that size can have.

    Raises:
        BadInput: naming the reading that cannot be.
    """
    keep_below(inputs, "bore", "body")
    keep_below(inputs, "wall", "body", 0.5)
    keep_below(inputs, "flange", "body")
    keep_below(inputs, "hole", "body")


def _shown(reading: Reading) -> str:
    return reading.typed or f"{float(reading.value):.4g} mm"
