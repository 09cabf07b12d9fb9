"""Whether one reading is at most, or at least, another with something to spare."""

from __future__ import annotations

from casebook.figures.inputs import BadInput, Input, Inputs
from casebook.figures.worksheet import Formula, Result, Worksheet
from casebook.quantity import Reading

AT_MOST = Formula(
    lambda this, other, percent, by: other * (percent / 100) + by - this,
    rises="other percent by",
    falls="this",
)
DIFFERENCE = Formula(lambda this, other: this - other, rises="this", falls="other")
AT_LEAST = Formula(
    lambda this, other, percent, by: this - other * (percent / 100) - by,
    rises="this",
    falls="other percent by",
)

INPUTS = (
    Input("this", "any_size", "the size (with its unit) or count that is judged"),
    Input("other", "any_size", "what it is held against, of the same kind"),
    Input(
        "percent",
        "percent",
        "how much of the other it is held against, percent",
        default="100",
        low="0",
        high="1000",
        measured=False,
    ),
    Input("by", "any_size", "how much more it may or must be", default="0", measured=False),
)


def run(inputs: Inputs) -> Result:
    """Hold `this` against `percent` of `other` + `by`: checks at_most and at_least.

    Raises:
        BadInput: a length against a count.
    """
    unit = _one_kind(inputs)
    result = Result("compare", inputs)
    result.figure("difference", DIFFERENCE, unit=unit, how="this less the other", source="subtraction")
    result.check(
        "at_most",
        AT_MOST,
        unit=unit,
        yes="it is no more than the other and the allowance",
        no="it is more than the other and the allowance",
    )
    result.check(
        "at_least",
        AT_LEAST,
        unit=unit,
        yes="it is the other and the allowance, or more",
        no="it is less than the other and the allowance",
    )
    return result


def _one_kind(inputs: Inputs) -> str:
    """Give the unit that the inputs share; nothing (0) goes with any."""
    unit = ""
    for name in ("this", "other", "by"):
        value = inputs.values.get(name)
        if not isinstance(value, Reading) or (value.value == 0 and value.unit == "count"):
            continue
        if unit and value.unit != unit:
            names = {"mm": "a length", "count": "a count"}
            raise BadInput(
                name,
                f"{value.typed!r} is {names.get(value.unit, value.unit)}, beside {names.get(unit, unit)}: "
                "all three must be lengths with a unit, or all counts",
            )
        unit = value.unit
    return unit or "count"


WORKSHEET = Worksheet(
    id="compare",
    title="one size or count against another, with an allowance",
    inputs=INPUTS,
    run=run,
    example="this=5.2mm other=0.190in by=0.25mm",
)
