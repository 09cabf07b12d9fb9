"""The bushing at the lathe: operations in order, with the speeds of published cutting speeds."""

from __future__ import annotations

from casebook.figures.bushing_stock import bar
from casebook.figures.cutting_speed import TAPPING_RPM, speed_words, surface_speed
from casebook.figures.drawer import on_hand
from casebook.figures.shared_inputs import SPEEDS
from casebook.figures.worksheet import Result

# Common practice, no source: two grooves in a short bushing, three in one of 5 mm or more.
_LONG_MM = 5.0


def grooves(length: float) -> int:
    """Give the number of glue grooves for a bushing of `length` mm."""
    return 3 if length >= _LONG_MM else 2


def hole_steps(result: Result) -> list[str]:
    """Word the cutting of the hole in the wood."""
    wood_hole, depth, point = (_size(result, name) for name in ("wood_hole", "depth", "point_depth"))
    if wood_hole is None:
        return []
    speed = speed_words(surface_speed("wood", "drill"), wood_hole, on_hand(result, SPEEDS))
    stop = f", stop set at {depth:.2f} mm from the high line and checked twice" if depth else ""
    steps = [
        "Set the joint in a jig, square to the hinge line, centred on the old seat.",
        f"True the hole to {wood_hole:.2f} mm with an end mill or single-point tool{stop};"
        f" {speed}, in small bites and cool. A drill follows the old hole.",
        "Wood dust: extraction and a mask; rosewood and blackwood irritate skin and lungs.",
    ]
    if point is not None and depth is not None:
        steps.append(
            f"A common drill to the same depth would reach {point:.2f} mm with its point:"
            " finish the bottom with a flat cutter."
        )
    if "hole_as_cut" in result.inputs:
        return [f"The hole is cut, {wood_hole:.2f} mm as measured: the bushing is turned to it."]
    steps.append("Measure the hole as cut, and turn the bushing to that less the gap either side.")
    return steps


def lathe_steps(result: Result, material: str, closed: bool) -> list[str]:
    """Word the turning of the bushing.

    Args:
        result: the bushing as worked out.
        material: brass, nickel_silver, silver or steel.
        closed: whether the bottom must be closed.
    """
    outside, length = _size(result, "outside"), _size(result, "length")
    if outside is None or length is None:
        return []
    pitch, groove = result.inputs.spans.get("pitch"), result.inputs.spans["groove"].value
    count = grooves(length)
    steps = [
        "Eye protection; no gloves, loose sleeves or rings at the lathe.",
        _facing(result, material, outside),
        "Centre spot before drilling.",
        _drilling(result, material),
        _tapping(result, closed, pitch.value if pitch else None),
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


def _facing(result: Result, material: str, outside: float) -> str:
    """Word the first cut: the bar of the drawer if it is thick enough, in its collet if there is one."""
    rod, collet = result.chosen.get("rod"), result.chosen.get("collets")
    stock = rod.piece if rod is not None and rod.piece.mm >= outside else bar(outside)
    hold = "Chuck"
    if collet is not None and not collet.says:
        hold = f"In the collet of {collet.piece.name} hold"
    speed = speed_words(surface_speed(material, "turn"), stock.mm, on_hand(result, SPEEDS))
    return (
        f"{hold} {material.replace('_', ' ')} bar of about {stock.mm:.1f} mm, face it; {speed},"
        " or the most the machine allows."
    )


def _drilling(result: Result, material: str) -> str:
    rub = " Dub the edge of the drill: a sharp one grabs." if material == "brass" else ""
    drill = result.chosen.get("drills")
    if drill is None:
        return f"Drill for the tap: the tap drill worksheet names the drill.{rub}"
    diameter = drill.piece.mm
    speed = speed_words(surface_speed(material, "drill"), diameter, on_hand(result, SPEEDS))
    # Written close, a drill's name is no length to be shown in another unit.
    called = drill.piece.name.replace(" ", "")
    return f"Drill {called} ({diameter:.2f} mm), {speed}, clear the chips often.{rub}"


def _tapping(result: Result, closed: bool, pitch: float | None) -> str:
    speeds = on_hand(result, SPEEDS)
    tap = f"Tap under power slowly, at most {TAPPING_RPM} rpm, and only while in contact; else by hand."
    if speeds and speeds[0].mm > TAPPING_RPM:
        tap = f"Tap by hand: your lathe's slowest, {speeds[0].name}, is over {TAPPING_RPM} rpm."
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
