"""The bushing at the lathe: operations in order, with the speeds of published cutting speeds."""

from __future__ import annotations

from math import ceil

from casebook.figures.cutting_speed import TAPPING_RPM, surface_speed
from casebook.figures.worksheet import Result

# Common practice, no source: two grooves in a short bushing, three in one of 5 mm or more; a little more
# bar than the bushing is wide; bar is sold by the half millimetre.
_LONG_MM = 5.0
_BAR_ALLOWANCE_MM = 0.5
_BAR_STEP_MM = 0.5


def grooves(length: float) -> int:
    """Give the number of glue grooves for a bushing of `length` mm."""
    return 3 if length >= _LONG_MM else 2


def bar(outside: float) -> float:
    """Give the bar to start from, mm, for a bushing of `outside` mm."""
    return ceil((outside + _BAR_ALLOWANCE_MM) / _BAR_STEP_MM - 1e-9) * _BAR_STEP_MM


def hole_steps(result: Result) -> list[str]:
    """Word the cutting of the hole in the wood."""
    wood_hole, depth, point = (_size(result, name) for name in ("wood_hole", "depth", "point_depth"))
    if wood_hole is None:
        return []
    low, high = surface_speed("wood", "drill").rpm(wood_hole)
    stop = f", stop set at {depth:.2f} mm from the high line and checked twice" if depth else ""
    steps = [
        "Set the joint in a jig, square to the hinge line, centred on the old seat.",
        f"True the hole to {wood_hole:.2f} mm with an end mill or single-point tool{stop};"
        f" about {low} to {high} rpm (unverified), in small bites and cool. A drill follows the old hole.",
        "Wood dust: extraction and a mask; rosewood and blackwood irritate skin and lungs.",
    ]
    if point is not None and depth is not None:
        steps.append(
            f"A common drill to the same depth would reach {point:.2f} mm with its point:"
            " finish the bottom with a flat cutter."
        )
    steps.append("Measure the hole as cut, and turn the bushing to that less the gap either side.")
    return steps


def lathe_steps(
    result: Result, material: str, closed: bool, tap_drill: tuple[str, float] | None
) -> list[str]:
    """Word the turning of the bushing.

    Args:
        result: the bushing as worked out.
        material: brass, nickel_silver, silver or steel.
        closed: whether the bottom must be closed.
        tap_drill: name and diameter in mm of the drill for the thread.
    """
    outside, length = _size(result, "outside"), _size(result, "length")
    if outside is None or length is None:
        return []
    pitch, groove = result.inputs.spans.get("pitch"), result.inputs.spans["groove"].value
    count, stock = grooves(length), bar(outside)
    turning = surface_speed(material, "turn")
    low, high = turning.rpm(stock)
    doubt = " (unverified)" if turning.checked == "memory" else ""
    metal = material.replace("_", " ")
    steps = [
        "Eye protection; no gloves, loose sleeves or rings at the lathe.",
        f"Chuck {metal} bar of about {stock:.1f} mm, face it; about {low} to {high} rpm{doubt},"
        " or the most the machine allows.",
        "Centre spot before drilling.",
        _drilling(material, tap_drill),
        _tapping(closed, pitch.value if pitch else None),
        f"Turn the outside to {outside:.2f} mm over {length:.2f} mm: the deepest cut that tool and machine"
        " allow in one pass, light passes push soft metal away.",
    ]
    if groove > 0:
        steps.append(
            f"Cut {count} grooves {groove:.2f} mm deep, {length / (count + 1):.2f} mm apart, for the glue."
        )
    else:
        steps.append("Roughen the outside for the glue; no grooves.")
    if pitch:
        steps.append(
            f"Chamfer the mouth one pitch deep ({pitch.value:.2f} mm): it swallows the unfinished threads"
            " under the flange."
        )
    steps += [
        f"Part off at {length:.2f} mm, at half the speed; deburr.",
        "Wax the shank, screw it in, degrease bushing and wood, glue in, and put the bare rod through the"
        " pair while it cures. Two-part epoxy and solvents: gloves and fresh air, as their data sheets say.",
    ]
    return steps


def _drilling(material: str, tap_drill: tuple[str, float] | None) -> str:
    rub = " Dub the edge of the drill: a sharp one grabs." if material == "brass" else ""
    if tap_drill is None:
        return f"Drill for the tap: the tap drill worksheet names the drill.{rub}"
    name, diameter = tap_drill
    speed = surface_speed(material, "drill")
    low, high = speed.rpm(diameter)
    doubt = " (unverified)" if speed.checked == "memory" else ""
    # Written close, a drill's name is no length to be shown in another unit.
    called = name.replace(" ", "")
    return (
        f"Drill {called} ({diameter:.2f} mm), about {low} to {high} rpm{doubt}, clear the chips often.{rub}"
    )


def _tapping(closed: bool, pitch: float | None) -> str:
    tap = f"Tap under power slowly, at most {TAPPING_RPM} rpm, and only while in contact; else by hand."
    if not closed:
        return tap
    spare = f" ({1.5 * pitch:.2f} mm)" if pitch else ""
    return (
        f"{tap} It must be closed towards the bore, and a closed one cannot be tapped to its bottom: tap"
        f" right through and close the end with a turned disc, or leave one and a half pitches{spare} of room"
        " and use a bottoming tap."
    )


def _size(result: Result, name: str) -> float | None:
    figure = result.figures.get(name)
    return figure.value if figure else None
