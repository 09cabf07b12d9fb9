"""Clocking a post: how much shim or facing turns it at its thread by so many degrees."""

from __future__ import annotations

from casebook.figures.drawer import Piece
from casebook.figures.formula import Formula
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.shank_thread import derive_thread
from casebook.figures.shared_inputs import PITCH, SHANK, THREAD
from casebook.figures.shims import SHIMS, choose_shims, stacks
from casebook.figures.worksheet import Result, Worksheet

_DEGREES = Input(
    "degrees", "angle", "how far the post must turn to face its mate", low="0.1", high="360", measured=False
)
_WAY = Input(
    "way", "choice", "back: it has gone too far; further: it stops short", default="back",
    choices=("back", "further"),
)  # fmt: skip
_NEAR = Input(
    "near", "angle", "how far off the hinge line a post may face, degrees",
    default="2", low="0.1", high="20", measured=False,
)  # fmt: skip

_SHIM = Formula(lambda pitch, degrees: pitch * degrees / 360, rises="pitch degrees")
_THE_OTHER_WAY = Formula(lambda pitch, degrees: pitch * (360 - degrees) / 360, rises="pitch", falls="degrees")
_DEGREES_EACH = Formula(lambda pitch: 0.01 * 360 / pitch, falls="pitch")
_SHOWN = 5
# |turn of the shims - wanted turn| <= near, in degrees, as two margins; by 360 / pitch a millimetre.
_NEAR_ENOUGH = {
    "back": (
        Formula(
            lambda near, degrees, stack, pitch: near + degrees - 360 * stack / pitch,
            rises="near degrees pitch",
            falls="stack",
        ),
        Formula(
            lambda near, degrees, stack, pitch: near - degrees + 360 * stack / pitch,
            rises="near stack",
            falls="degrees pitch",
        ),
    ),
    "further": (
        Formula(
            lambda near, degrees, stack, pitch: near + 360 - degrees - 360 * stack / pitch,
            rises="near pitch",
            falls="degrees stack",
        ),
        Formula(
            lambda near, degrees, stack, pitch: near - 360 + degrees + 360 * stack / pitch,
            rises="near degrees stack",
            falls="pitch",
        ),
    ),
}


def _run(inputs: Inputs) -> Result:
    derive_thread(inputs)
    result = Result(WORKSHEET.id, inputs)
    back = inputs.word("way") == "back"
    shim, facing = (_SHIM, _THE_OTHER_WAY) if back else (_THE_OTHER_WAY, _SHIM)
    source = "geometry of the screw"
    part = "pitch x degrees / 360"
    other = "pitch x (360 - degrees) / 360: the same place from the other side"
    result.figure("shim", shim, how=f"{part if back else other}, under the flange", source=source)
    result.figure("facing", facing, how=f"{other if back else part}, off the flange or seat", source=source)
    result.figure(
        "hundredth_turns",
        _DEGREES_EACH,
        unit="deg",
        how="0.01 mm x 360 / pitch",
        source="geometry of the screw",
    )
    _choose(result, shim)
    result.steps += _steps(back)
    return result


def _choose(result: Result, shim: Formula) -> None:
    """List the shims, one or two together, that come nearest; judge the nearest."""
    inputs = result.inputs
    wanted, pitch, near = shim(inputs.spans), inputs.spans.get("pitch"), inputs.spans["near"].value
    if wanted is None or pitch is None:
        return
    thick, turn = wanted.value, 360 / pitch.value

    def misfit(stack: Piece) -> tuple[float, ...]:
        off = round(abs(stack.mm - thick), 6)
        return max(off * turn - near, 0.0), off, "+" in stack.name

    chosen = choose_shims(result, misfit).piece
    for stack in sorted(stacks(result), key=misfit)[:_SHOWN]:
        result.rows.append({
            "stack_size": stack.mm,
            "of": stack.name,
            "off_degrees": round((stack.mm - thick) * turn, 2),
            "chosen": stack == chosen,
        })  # fmt: skip
    inputs.derive("stack", Span.exact(chosen.mm), "shims")
    result.check(
        "shim_found",
        *_NEAR_ENOUGH[inputs.word("way")],
        unit="deg",
        yes="one or two shims bring the post to face its mate",
        no="no one or two shims come near enough",
        ways_out=("rub a thicker foil down on fine paper", "face the flange or the seat instead"),
    )


def _steps(back: bool) -> tuple[str, ...]:
    first = (
        "A shim under the flange stops the post earlier." if back else "Facing lets the post turn further."
    )
    return (
        f"{first} Right-hand threads; on a left-hand one the other way round.",
        "Face the shim's or the copy post's metal, never an original flange.",
        "Try with a straight rod through the pair before any glue; cut the shim to the flange, flat.",
    )


WORKSHEET = Worksheet(
    id="clocking",
    title="Clocking: shim or facing that turns a post to face its mate",
    inputs=(THREAD, SHANK, PITCH, _DEGREES, _WAY, _NEAR, SHIMS),
    run=_run,
    example="thread=3-48 degrees=10",
)
