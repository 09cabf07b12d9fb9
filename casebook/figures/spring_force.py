"""Key springs as clamped beams: force at the tip, stress at the root, the real size for a wanted force.

Flat: I = b t^3 / 12, round needle: I = pi D^4 / 64; F = 3 E I d / L^3; root stress = 3 E t d / (2 L^2), with
D in place of t. E in GPa is 1000 N/mm2. A wide thin leaf is a few percent stiffer, and a bent needle less.
"""

from __future__ import annotations

from math import pi
from typing import Any

from casebook.figures.drawer import Misfit, Piece, choose, on_hand, pieces
from casebook.figures.formula import Formula, term
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.round_body import keep_below
from casebook.figures.spring_modulus import modulus_of
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet
from casebook.tables import Row, load

_MATERIALS = (
    "blued_steel", "music_wire", "hard_drawn_steel", "stainless", "phosphor_bronze", "spring_brass",
    "beryllium_copper", "gold_alloy",
)  # fmt: skip
_KIND = Input("kind", "choice", "flat leaf or round needle", choices=("needle", "flat"))
_LENGTH = Input(
    "length", "length", "free length, from where it is fixed to where it touches", low="3 mm", high="200 mm"
)
_DIAMETER = Input("diameter", "length", "diameter of a needle", low="0.1 mm", high="3 mm")
_WIDTH = Input("width", "length", "width of a flat spring", low="0.5 mm", high="15 mm")
_THICKNESS = Input("thickness", "length", "thickness of a flat spring", low="0.05 mm", high="2 mm")
_TRAVEL = Input(
    "travel", "length", "how far the tip is bent from rest, key at work", low="0.1 mm", high="40 mm"
)
_MATERIAL = Input("material", "choice", "what the spring is made of", choices=_MATERIALS)
_MODULUS = Input(
    "modulus", "number", "modulus of elasticity in GPa, instead of a material",
    low="10", high="400", measured=False,
)  # fmt: skip
_WANTED = Input(
    "wanted", "force", "wanted force at the tip, as 0.6 N or 60 g", low="0.01", high="50", measured=False
)

# Real sizes, mm: needles and leaf stock as sold (common practice, no source).
_NEEDLES = Input(
    "needles", "sizes", "needles in the drawer, by diameter",
    default="0.4 mm, 0.45 mm, 0.5 mm, 0.55 mm, 0.6 mm, 0.65 mm, 0.7 mm, 0.75 mm, 0.8 mm, 0.85 mm, 0.9 mm,"
    " 1 mm, 1.1 mm, 1.2 mm, 1.3 mm",
    low="0.1 mm", high="3 mm", measured=False, shelf="needles",
)  # fmt: skip
_LEAVES = Input(
    "leaves", "sizes", "flat spring stock in the drawer, by thickness",
    default="0.15 mm, 0.2 mm, 0.25 mm, 0.3 mm, 0.35 mm, 0.4 mm, 0.45 mm, 0.5 mm, 0.6 mm",
    low="0.05 mm", high="2 mm", measured=False, shelf="leaves",
)  # fmt: skip
_STOCK = {"needle": _NEEDLES, "flat": _LEAVES}
# So far off the wanted force a real size still does (common practice, no source).
_NEAR_ENOUGH = 0.1
_SHOWN = 5
_NEWTON_PER_GRAM = 0.00980665
_THICKER = 1.1

_INERTIA = {
    "needle": Formula(lambda diameter: pi * diameter**4 / 64, rises="diameter"),
    "flat": Formula(lambda width, thickness: width * thickness**3 / 12, rises="width thickness"),
}
_FORCE = {
    "needle": Formula(
        lambda elastic, diameter, travel, length: (
            3 * 1000 * elastic * pi * diameter**4 / 64 * travel / length**3
        ),
        rises="elastic diameter travel",
        falls="length",
    ),
    "flat": Formula(
        lambda elastic, width, thickness, travel, length: (
            3 * 1000 * elastic * width * thickness**3 / 12 * travel / length**3
        ),
        rises="elastic width thickness travel",
        falls="length",
    ),
}
_STRESS = {
    "needle": Formula(
        lambda elastic, diameter, travel, length: 1.5 * 1000 * elastic * diameter * travel / length**2,
        rises="elastic diameter travel",
        falls="length",
    ),
    "flat": Formula(
        lambda elastic, thickness, travel, length: 1.5 * 1000 * elastic * thickness * travel / length**2,
        rises="elastic thickness travel",
        falls="length",
    ),
}
# The size that bends: its name, and the power by which force goes with it.
_SECTION = {"needle": ("diameter", 4), "flat": ("thickness", 3)}
# A leaf is taken as the thinnest of its material.
_THIN = Span.exact(0.1)
_BEAM = "beam theory: clamped at one end, small bends"


def _run(inputs: Inputs) -> Result:
    kind = inputs.word("kind") or _kind_of(inputs)
    keep_below(inputs, "diameter", "length", 0.2)
    keep_below(inputs, "thickness", "length", 0.2)
    keep_below(inputs, "travel", "length", 0.7)
    result = Result(WORKSHEET.id, inputs)
    elastic = _derive_modulus(inputs, kind)
    if not kind:
        result.steps.append("Say first whether it is a needle or a flat spring.")
        return result
    source = _BEAM if elastic is None else f"{_BEAM}; modulus: {elastic.text('source')}"
    checked = "formula" if elastic is None else elastic.checked
    size, power = _SECTION[kind]
    result.figure("inertia", _INERTIA[kind], unit="mm4", how=f"second moment, {kind}", source=_BEAM)
    force = result.figure(
        "force", _FORCE[kind], unit="N", how="3 E I d / L^3", source=source, checked=checked
    )
    result.figure(
        "force_grams",
        _grams(_FORCE[kind]),
        unit="g",
        how="force as a spring balance shows it",
        source=source,
        checked=checked,
    )
    result.figure(
        "stress",
        _STRESS[kind],
        unit="MPa",
        how=f"3 E x {size} x travel / (2 L^2), at the root",
        source=source,
        checked=checked,
    )
    if force is not None:
        percent = 100 * (_THICKER**power - 1)
        result.table_figure(
            "ten_percent_thicker",
            percent,
            unit="percent",
            how=f"force goes with the {size} to the power {power}: what 10 percent more of it adds",
            source=_BEAM,
            checked="formula",
        )
    _strength(result, kind)
    _sizes(result, kind)
    result.steps += _STEPS
    return result


def _kind_of(inputs: Inputs) -> str:
    if "diameter" in inputs:
        return "needle"
    return "flat" if "thickness" in inputs else ""


def _grams(force: Formula) -> Formula:
    return Formula(
        lambda **given: force.compute(**given) / _NEWTON_PER_GRAM,
        rises=" ".join(force.rises),
        falls=" ".join(force.falls),
        names=force.names,
    )


def _derive_modulus(inputs: Inputs, kind: str) -> Row | None:
    """Put ``elastic`` (GPa) among the numbers: as given, or the material's; give the material's row."""
    inputs.read_as["elastic"] = "material"
    if "modulus" in inputs:
        inputs.derive("elastic", inputs.spans["modulus"], "modulus")
        return None
    material = inputs.word("material")
    if not material:
        return None
    elastic, row = modulus_of(material, inputs.spans.get("diameter") if kind == "needle" else _THIN)
    inputs.derive("elastic", elastic, "material")
    return row


def _row(section: str, material: str) -> Row:
    return next(row for row in load("springs")[section] if row["material"] == material)


def _strength(result: Result, kind: str) -> None:
    """Judge the stress against what the material is said to bear in bending."""
    inputs = result.inputs
    material = inputs.word("material")
    if not material:
        return
    row, share = _row("tensile", material), load("springs")["bending"][0]
    if "low_mpa" not in row:
        result.unknown_figure("stress_allowed", unit="MPa", why=row.text("source"), source=row.text("source"))
        return
    bears = (float(row.number(f"{end}_mpa") * share.number("working_ratio")) for end in ("low", "high"))
    low, high = bears
    inputs.derive("stress_allowed", Span(low, (low + high) / 2, high), "material")
    result.figure(
        "stress_allowed",
        term("stress_allowed"),
        unit="MPa",
        how=f"{float(share.number('working_ratio')):g} of the tensile strength",
        source=row.text("source"),
        checked="memory",
    )
    result.check(
        "does_not_set",
        term("stress_allowed") - _STRESS[kind],
        unit="MPa",
        yes="the spring should keep its set, by typical values from memory",
        no="bent so far the spring takes a set or breaks, by typical values from memory",
        ways_out=(
            "a thinner, longer spring",
            "less travel: set it less far",
            "two thin leaves for one thick",
        ),
    )


def _sizes(result: Result, kind: str) -> None:
    """List the real sizes nearest to the wanted force, with the force that each gives."""
    spans, size = result.inputs.spans, _SECTION[kind][0]
    if "wanted" not in spans:
        return
    wanted, item = spans["wanted"].value, _STOCK[kind]

    material = "" if "modulus" in result.inputs else result.inputs.word("material")

    def given_by(real: float) -> tuple[float, float] | None:
        one = {**spans, size: Span.exact(real)}
        if material and kind == "needle":
            one["elastic"] = modulus_of(material, Span.exact(real))[0]
        force, stress = _FORCE[kind](one), _STRESS[kind](one)
        return None if force is None or stress is None else (force.value, stress.value)

    if given_by(1.0) is None:
        return

    def misfit(piece: Piece) -> tuple[float, ...]:
        got = given_by(piece.mm)
        assert got is not None
        off = abs(got[0] / wanted - 1)
        return max(off - _NEAR_ENOUGH, 0.0), off

    chosen = choose(result, item, misfit)
    if chosen is None:
        return
    rows = [_row_of(piece, size, given_by(piece.mm), chosen.piece) for piece in _listed(result, item, misfit)]
    result.rows = sorted(rows, key=lambda row: row[f"{size}_size"])
    ways = ("another length", "another set (travel)", "another material")
    enough = next(row for row in rows if row["chosen"])
    off = abs(enough["force_N"] / wanted - 1)
    result.table_figure(
        size,
        enough[f"{size}_size"],
        how=f"nearest real size to {wanted:.3g} N; it gives {enough['force_N']:.3g} N, {off:.0%} off"
        + (f". Too far off: {', '.join(ways)}" if off > 0.25 else ""),
        source=COMMON_PRACTICE,
        checked="common practice",
    )


def _listed(result: Result, item: Input, misfit: Misfit) -> list[Piece]:
    """Give the pieces nearest to what is wanted."""
    return sorted(on_hand(result, item) or pieces(item.default or ""), key=misfit)[:_SHOWN]


def _row_of(piece: Piece, size: str, got: tuple[float, float] | None, chosen: Piece) -> dict[str, Any]:
    force, stress = got or (0.0, 0.0)
    return {f"{size}_size": piece.mm, "force_N": force, "stress_MPa": stress, "chosen": piece == chosen}


_STEPS = (
    "Free the key first: a spring made stronger hides a bind. Weigh the key at its touch before and after.",
    "Cover the point and wear eye protection: old needles break when they are bent or pushed out.",
    "Bend along the whole length, a little at a time, never at the root alone.",
)

WORKSHEET = Worksheet(
    id="spring_force",
    title="Spring force: force and stress of a needle or flat spring, and the real size for a wanted force",
    inputs=(
        _KIND,
        _LENGTH,
        _DIAMETER,
        _WIDTH,
        _THICKNESS,
        _TRAVEL,
        _MATERIAL,
        _MODULUS,
        _WANTED,
        _NEEDLES,
        _LEAVES,
    ),
    run=_run,
    example="kind=needle diameter=0.8mm length=25mm travel=3mm material=music_wire",
)
