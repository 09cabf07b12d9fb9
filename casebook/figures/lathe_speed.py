"""Spindle speed from a cutting speed: as given, or the published one for material and operation."""

from __future__ import annotations

from fractions import Fraction

from casebook.figures.cutting_speed import SPINDLE_SPEED, TAPPING_RPM, surface_speed, within
from casebook.figures.drawer import Piece, choose, on_hand
from casebook.figures.formula import Formula
from casebook.figures.inputs import BadInput, Input, Inputs, Span
from casebook.figures.shared_inputs import SPEEDS
from casebook.figures.worksheet import COMMON_PRACTICE, Checked, Figure, Result, Worksheet

_DIAMETER = Input(
    "diameter", "length", "diameter of the work, or of the drill", low="0.2 mm", high="200 mm", measured=False
)
_SURFACE_SPEED = Input(
    "surface_speed", "number", "cutting speed in m/min, instead of a material",
    low="1", high="500", measured=False,
)  # fmt: skip
_MATERIAL = Input(
    "material", "choice", "what is cut", choices=("brass", "nickel_silver", "silver", "steel", "wood")
)
_OPERATION = Input("operation", "choice", "what is done", default="turn", choices=("turn", "drill", "tap"))
_FASTEST = Input(
    "fastest", "number", "highest speed of the machine, rpm", low="50", high="60000", measured=False
)

# Judged by the slow end of a published range: more speed than that is welcome, not needed.
_REACHES = Formula(
    lambda fastest, least_surface_speed, diameter: (
        fastest - SPINDLE_SPEED.compute(surface_speed=least_surface_speed, diameter=diameter)
    ),
    rises="fastest diameter",
    falls="least_surface_speed",
)


def _run(inputs: Inputs) -> Result:
    result = Result(WORKSHEET.id, inputs)
    operation, material = inputs.word("operation"), inputs.word("material")
    if operation == "tap":
        _tap(result)
        return result
    source, checked = _derive_speed(result, material, operation)
    speed = result.figure(
        "speed",
        SPINDLE_SPEED,
        unit="rpm",
        how="1000 x cutting speed / (pi x diameter)",
        source=source,
        checked=checked,
    )
    _spindle(result, speed)
    if "fastest" in inputs.spans:
        result.check(
            "machine_reaches",
            _REACHES,
            unit="rpm",
            yes="the machine reaches this speed",
            no="the machine does not reach this speed: run it at its fastest and feed more gently",
            ways_out=("run the machine at its fastest, with a keen edge and a gentle feed",),
        )
    result.steps += _STEPS.get(material, ()) + _ALWAYS
    return result


def _spindle(result: Result, speed: Span | None) -> None:
    """Take the speed from those of the lathe, where they are known; its highest is the fastest it runs."""
    inputs = result.inputs
    have = on_hand(result, SPEEDS)
    if have is None:
        return
    if "fastest" not in inputs:
        inputs.derive("fastest", Span.exact(have[-1].mm), "speeds")
    if speed is None:
        return
    # A cutting speed without a range does a quarter slower too (common practice, no source).
    low = min(speed.low, 0.75 * speed.value)
    ideal = Piece(f"{speed.value:.0f} rpm", Fraction(round(speed.value)))
    chosen = choose(result, SPEEDS, within(low, speed.high), [ideal])
    assert chosen is not None
    result.table_figure(
        "spindle",
        chosen.piece.mm,
        unit="rpm",
        how="fastest speed of your lathe within the range, else the nearest, slower before faster",
        source=COMMON_PRACTICE,
        checked="common practice",
    )


def _derive_speed(result: Result, material: str, operation: str) -> tuple[str, Checked]:
    """Put the published cutting speed among the numbers, unless one was given; say where it is from.

    Raises:
        BadInput: a cutting speed and a material, which may say two things.
    """
    inputs = result.inputs
    inputs.read_as |= {"surface_speed": "material", "least_surface_speed": "material"}
    if "surface_speed" in inputs:
        if material:
            raise BadInput("material", "a cutting speed is given too: leave one of the two away")
        inputs.derive("least_surface_speed", inputs.spans["surface_speed"], "surface_speed")
        return "the cutting speed given", "formula"
    if not material:
        return "", "formula"
    speed = surface_speed(material, operation)
    span = Span(speed.low, (speed.low + speed.high) / 2, speed.high)
    inputs.derive("surface_speed", span, "material")
    inputs.derive("least_surface_speed", Span.exact(speed.low), "material")
    result.figures["cutting_speed"] = _cutting_speed(span, speed.source, speed.checked)
    return speed.source, speed.checked


def _cutting_speed(span: Span, source: str, checked: Checked) -> Figure:
    how = "published range for tools of high-speed steel"
    return Figure(span.value, span.low, span.high, "m/min", how, source, checked)


def _tap(result: Result) -> None:
    result.table_figure(
        "speed",
        TAPPING_RPM,
        unit="rpm",
        how="a slow cap, whatever the diameter: the hand must be quicker than the tap",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    cap = Piece(f"{TAPPING_RPM} rpm", Fraction(TAPPING_RPM))
    own = choose(result, SPEEDS, within(0, TAPPING_RPM), [cap]) if on_hand(result, SPEEDS) else None
    if own is not None and own.does:
        result.table_figure(
            "spindle",
            own.piece.mm,
            unit="rpm",
            how="fastest speed of your lathe under the cap",
            source=COMMON_PRACTICE,
            checked="common practice",
        )
    power = "Under power: slowest speed, only in contact, backed off to clear chips."
    if own is not None and not own.does:
        power = "Your lathe turns too fast for a tap: turn its spindle by hand."
    result.steps += [f"Tap by hand where you can. {power}", *_ALWAYS]


_STEPS = {
    "brass": (
        "Drills for brass: stone the edge to no rake, else they grab. Turning tools with no rake at the top.",
    ),
    "nickel_silver": ("Keen tools and cutting oil: nickel silver hardens under a rubbing edge.",),
    "silver": ("Keen tools and a lubricant: silver drags and clogs.",),
    "wood": (
        "Drill slow, back out often, keep it cool: heat checks the bore. Dust of dense woods irritates and"
        " sensitises: extraction, and a fitted mask.",
    ),
}
_ALWAYS = (
    "Eye protection; sleeves and hair tied; chuck key out; work held short. A small drill may ask for more"
    " speed than the machine has: run at its fastest and feed gently.",
)

WORKSHEET = Worksheet(
    id="lathe_speed",
    title="Spindle speed by diameter, from a cutting speed or by material and operation",
    inputs=(_DIAMETER, _SURFACE_SPEED, _MATERIAL, _OPERATION, _FASTEST, SPEEDS),
    run=_run,
    example="diameter=6.35mm material=brass operation=turn fastest=2500",
)
