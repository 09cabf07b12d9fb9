"""The links of a post's anchorage, each as force in N = area or section in mm2 or mm3 times strength in MPa.

Shear areas are those of FED-STD-H28/2B: a thread shears off on the cylinder of the other's crests, where each
ridge is P / 2 wide and wider by the flanks up to there. With basic sizes of 60 degree forms that comes to
3/4 pi D1 L for the thread of the shank and 7/8 pi D L for the thread it sits in.

A cylinder pulled out along a radius of the body shears the wood across the fibres on the two flanks that face
along the grain, and in rolling shear on the two others, which holds a fraction only. By cos^2 round the ring
that is one half each.
"""

from __future__ import annotations

from math import pi, radians, tan
from typing import NamedTuple

from casebook.figures.formula import Formula, joined, term
from casebook.figures.inputs import Inputs, Span
from casebook.figures.strengths import TRUST, trust
from casebook.figures.worksheet import Checked
from casebook.tables import Row

H28 = "FED-STD-H28/2B, formulas 2a and 4a, with basic sizes where none were measured"
_BEAMS = "beam theory"
ROLLING_SHARE = 0.5

# How much of the diameter the basic minor diameter and the stress area are smaller, in pitches (ISO 68-1,
# ISO 898-1): for a shank that was only measured; a named thread brings its own.
_MINOR_PITCHES = 1.082531755
_AREA_PITCHES = 0.938194

_EXTERNAL = Formula(
    lambda engaged, pitch, hole_root, pitch_shank, flank: (
        pi * engaged / pitch * hole_root * (pitch / 2 + flank * (pitch_shank - hole_root))
    ),
    rises="engaged pitch_shank",
    falls="pitch hole_root",
)
_INTERNAL = Formula(
    lambda engaged, pitch, crest, pitch_hole, flank: (
        pi * engaged / pitch * crest * (pitch / 2 + flank * (crest - pitch_hole))
    ),
    rises="engaged crest",
    falls="pitch pitch_hole",
)
_EXTERNAL_MEASURED = Formula(
    lambda major, pitch, engaged: 0.75 * pi * (major - _MINOR_PITCHES * pitch) * engaged,
    rises="major engaged",
    falls="pitch",
)
# With turns counted a coarser pitch engages more length than it takes off the diameter, up to P = 0.46 D.
_EXTERNAL_COUNTED = Formula(
    lambda major, pitch, engaged_threads: (
        0.75 * pi * (major - _MINOR_PITCHES * pitch) * engaged_threads * pitch
    ),
    rises="major pitch engaged_threads",
)
_INTERNAL_MEASURED = Formula(lambda major, engaged: 0.875 * pi * major * engaged, rises="major engaged")
# What may have been measured of thread and hole: the number that the formulas know it by, and the basic size.
_ACTUAL = {
    "shank": ("crest", "major"),
    "tapped_hole": ("hole_root", "minor_diameter"),
    "pitch_diameter": ("pitch_shank", "pitch_diameter"),
    "hole_pitch_diameter": ("pitch_hole", "pitch_diameter"),
}

_STRESS_AREA_MEASURED = Formula(
    lambda major, pitch: pi / 4 * (major - _AREA_PITCHES * pitch) ** 2, rises="major", falls="pitch"
)
_SECTION_NAMED = Formula(lambda minor: pi / 32 * minor**3, rises="minor")
_SECTION_MEASURED = Formula(
    lambda major, pitch: pi / 32 * (major - _MINOR_PITCHES * pitch) ** 3, rises="major", falls="pitch"
)

_GLUE_AREA = Formula(lambda outside, length: pi * outside * length, rises="outside length")
_WOOD_AREA = Formula(lambda wood_hole, length: pi * wood_hole * length, rises="wood_hole length")
# Across the fibres wood is stronger in shear than along the grain; it is counted as along it, which is known.
_RING_SHEAR = Formula(
    lambda shear_wood, rolling_ratio: shear_wood * ((1 - ROLLING_SHARE) + ROLLING_SHARE * rolling_ratio),
    rises="shear_wood rolling_ratio",
)

# A push sideways at the head pries the flange up about its far edge.
_PRIED = Formula(
    lambda load, hinge_height, flange: load * hinge_height / (flange / 2),
    rises="load hinge_height",
    falls="flange",
)
_STRAIGHT = term("load")


def _force(area: Formula, strength: Formula) -> Formula:
    """Give the force in N that an area in mm2 holds at a strength in MPa."""
    return joined(lambda mm2, mpa: mm2 * mpa, "++", area, strength)


def derive_sizes(inputs: Inputs) -> None:
    """Put the sizes that thread and hole really have among the numbers, else the basic ones."""
    thread = inputs.thread()
    if thread is None:
        return
    inputs.derive("minor", Span.exact(float(thread.minor_diameter)), "thread")
    inputs.derive("stress_area", Span.exact(thread.stress_area), "thread")
    inputs.derive("flank", Span.exact(tan(radians(float(thread.angle) / 2))), "thread")
    for read, (number, basic) in _ACTUAL.items():
        inputs.derive(number, inputs.spans.get(read) or Span.exact(float(getattr(thread, basic))), read)


def external_area(inputs: Inputs) -> Formula:
    """Give the shear area of the thread of the shank, mm2, by how thread and turns are known."""
    if inputs.thread() is not None:
        return _EXTERNAL
    counted = "engaged_threads" in inputs.spans and "engaged" not in inputs.given
    return _EXTERNAL_COUNTED if counted else _EXTERNAL_MEASURED


def internal_area(inputs: Inputs) -> Formula:
    """Give the shear area of the thread that the shank sits in, mm2."""
    return _INTERNAL if inputs.thread() is not None else _INTERNAL_MEASURED


def _stress_area(named: bool) -> Formula:
    """Give the tensile stress area of the shank, mm2."""
    return term("stress_area") if named else _STRESS_AREA_MEASURED


def _bending_force(named: bool) -> Formula:
    """Give the sideways force at the head, N, that brings the root of the thread to its tensile strength."""
    section = _SECTION_NAMED if named else _SECTION_MEASURED
    return joined(
        lambda mm3, mpa, height: mm3 * mpa / height,
        "++-",
        section,
        term("tensile_shank"),
        term("hinge_height"),
    )


def pull_formula(inputs: Inputs) -> Formula:
    """Give the pull on the anchorage, N: pried by a sideways load if the flange is known, else straight."""
    return _PRIED if "flange" in inputs else _STRAIGHT


def times(capacity: Formula, demand: Formula) -> Formula:
    """Give how many times a force is held."""
    return joined(lambda held, asked: held / asked, "+-", capacity, demand)


def margin(capacity: Formula, demand: Formula) -> Formula:
    """Give what is to spare in N when the force is to be held ``factor`` times."""
    return joined(lambda held, asked, factor: held - factor * asked, "+--", capacity, demand, term("factor"))


class Link(NamedTuple):
    """One link of the anchorage.

    Attributes:
        name: the name of its figure.
        words: what it is called on the bench.
        capacity: the force it holds, N.
        demand: the force that comes on it, N.
        how: the formula of the capacity in words.
        source: where that formula comes from.
        rows: the rows of the table whose strengths it uses.
    """

    name: str
    words: str
    capacity: Formula
    demand: Formula
    how: str
    source: str
    rows: tuple[Row, ...]

    @property
    def checked(self) -> Checked:
        return max((trust(row) for row in self.rows), key=TRUST.index, default="formula")


def links(inputs: Inputs, rows: dict[str, Row]) -> list[Link]:
    """Give the links that this anchorage has, in the order of the force's way."""
    named = inputs.thread() is not None
    pull = pull_formula(inputs)

    def link(
        name: str, words: str, capacity: Formula, how: str, source: str, *values: str, demand: Formula = pull
    ) -> Link:
        return Link(name, words, capacity, demand, how, source, tuple(rows[v] for v in values if v in rows))

    found = [
        link(
            "bending", "the shank in bending", _bending_force(named),
            "pi d^3 / 32 x tensile strength / hinge height, at the root of the thread", _BEAMS,
            "tensile_shank", demand=_STRAIGHT,
        ),
        link(
            "tension", "the shank in tension", _force(_stress_area(named), term("tensile_shank")),
            "stress area x tensile strength", "stress area of the thread's standard", "tensile_shank",
        ),
        link(
            "strip_external", "the thread of the shank",
            _force(external_area(inputs), term("shear_shank")),
            "shear area of the shank's thread x its shear strength", H28, "shear_shank",
        ),
    ]  # fmt: skip
    if "bushing_metal" in inputs:
        found.append(
            link(
                "strip_internal", "the thread in the bushing",
                _force(internal_area(inputs), term("shear_bushing")),
                "shear area of the bushing's thread x its shear strength", H28, "shear_bushing",
            )
        )  # fmt: skip
    else:
        found.append(
            link(
                "strip_internal", "the thread in the wood", _force(internal_area(inputs), _RING_SHEAR),
                "shear area of the thread in the wood x its shear strength, half of the ring rolling", H28,
                "shear_wood", "rolling_ratio",
            )
        )  # fmt: skip
    if "outside" in inputs or "adhesive" in inputs or "bushing_metal" in inputs:
        found.append(
            link(
                "pull_out_glue", "the glue", _force(_GLUE_AREA, term("shear_glue")),
                "pi outside length x lap shear of coupons", "area of a cylinder", "shear_glue",
            )
        )  # fmt: skip
        found.append(
            link(
                "pull_out_wood", "the wood round the bushing", _force(_WOOD_AREA, _RING_SHEAR),
                "pi hole length x shear strength of the wood, half of the ring rolling",
                "area of a cylinder", "shear_wood", "rolling_ratio",
            )
        )  # fmt: skip
    return found
