"""How much the anchorage of a post holds: every link in newtons, the weakest named, against the load.

Ranges of typical material values, for comparing one way of anchoring with another. They are no design
values: a trial joint in scrap of the same wood tells more.
"""

from __future__ import annotations

from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.round_body import keep_below
from casebook.figures.shank_thread import derive_thread
from casebook.figures.shared_inputs import (
    ENGAGED,
    ENGAGED_THREADS,
    FLANGE,
    HINGE_HEIGHT,
    PITCH,
    SHANK,
    THREAD,
)
from casebook.figures.strength_links import (
    H28,
    ROLLING_SHARE,
    Link,
    derive_sizes,
    external_area,
    internal_area,
    links,
    margin,
    pull_formula,
    times,
)
from casebook.figures.strengths import ADHESIVES, METALS, TRUST, WOODS, derive_strengths, is_known
from casebook.figures.worksheet import COMMON_PRACTICE, Figure, Result, Worksheet
from casebook.tables import Row

_METAL = Input("metal", "choice", "metal of the shank", choices=METALS)
_BUSHING_METAL = Input("bushing_metal", "choice", "metal of the bushing, if any", choices=METALS)
_WOOD = Input("wood", "choice", "wood of the body", choices=WOODS)
_ADHESIVE = Input("adhesive", "choice", "what holds the bushing in the wood", choices=ADHESIVES)
_TAPPED_HOLE = Input("tapped_hole", "length", "hole as drilled for the tap", low="0.3 mm", high="12 mm")
_PITCH_DIAMETER = Input(
    "pitch_diameter", "length", "pitch diameter of the shank, over wires", low="0.3 mm", high="12 mm"
)
_HOLE_PITCH_DIAMETER = Input(
    "hole_pitch_diameter", "length", "pitch diameter of the tapped hole", low="0.3 mm", high="12 mm"
)
_OUTSIDE = Input("outside", "length", "outside of the bushing or plug", low="1 mm", high="40 mm")
_WOOD_HOLE = Input("wood_hole", "length", "hole cut in the wood for it", low="1 mm", high="40 mm")
_LENGTH = Input("length", "length", "length of the bushing or plug in the wood", low="0.2 mm", high="60 mm")
_LOAD = Input("load", "force", "sideways force at the head", low="0.01", high="500", measured=False)
_FACTOR = Input(
    "factor", "number", "how many times the load is to be held",
    default="3", low="1", high="20", measured=False,
)  # fmt: skip


def _run(inputs: Inputs) -> Result:
    keep_below(inputs, "outside", "wood_hole", may_touch=True)
    derive_thread(inputs)
    derive_sizes(inputs)
    _derive_hole(inputs)
    result = Result(WORKSHEET.id, inputs)
    rows = derive_strengths(inputs)
    chain = links(inputs, rows)
    for name, area in (("external_area", external_area(inputs)), ("internal_area", internal_area(inputs))):
        result.figure(
            name, area, unit="mm2", how="ridge width on the cylinder that shears x turns", source=H28
        )
    held: list[tuple[Link, Span]] = []
    for link in chain:
        unknown = [row for row in link.rows if not is_known(row)]
        if unknown:
            result.unknown_figure(
                link.name,
                unit="N",
                why=f"{unknown[0].text('source')}; test a trial joint in scrap",
                source=unknown[0].text("source"),
            )
            continue
        sources = "; ".join(dict.fromkeys([link.source, *(row.text("source") for row in link.rows)]))
        result.figure(
            link.name,
            link.capacity,
            unit="N",
            how=f"{link.how} (unverified)" if link.checked == "memory" else link.how,
            source=sources,
            checked=link.checked,
        )
        ratio = times(link.capacity, link.demand)(inputs.spans)
        if ratio is not None:
            held.append((link, ratio))
    _ring(result, rows)
    _pull(result)
    _weakest(result, held)
    _check(result, chain)
    result.steps += _NOTES
    return result


def _derive_hole(inputs: Inputs) -> None:
    if "wood_hole" not in inputs.spans and "outside" in inputs.spans:
        inputs.derive("wood_hole", inputs.spans["outside"], "wood_hole")


def _ring(result: Result, rows: dict[str, Row]) -> None:
    rolling = result.inputs.spans["rolling_ratio"]
    share = Figure(
        100 * ROLLING_SHARE,
        100 * ROLLING_SHARE,
        100 * ROLLING_SHARE,
        "percent",
        f"share of the ring in rolling shear, mean of cos^2; it holds {rolling.low:.0%} to {rolling.high:.0%}"
        " of shear along the grain, which is the rest of the ring (unverified)",
        rows["rolling_ratio"].text("source"),
        "memory",
    )
    if "wood" in result.inputs:
        result.figures["rolling_share"] = share


def _pull(result: Result) -> None:
    pried = "flange" in result.inputs
    how = (
        "load x hinge height / (flange / 2): the flange pries about its far edge"
        if pried
        else "the load itself, straight up; give flange and hinge height for a sideways push"
    )
    result.figure("pull", pull_formula(result.inputs), unit="N", how=how, source="statics of the post")


def _weakest(result: Result, held: list[tuple[Link, Span]]) -> None:
    """Rank the links by how many times they hold the load, and name the weakest."""
    held.sort(key=lambda pair: pair[1].value)
    for link, ratio in held:
        result.rows.append({
            "link": link.words,
            "figure": link.name,
            "times_low": ratio.low,
            "times": ratio.value,
            "times_high": ratio.high,
            "checked": link.checked,
        })  # fmt: skip
    if not held:
        return
    low, value, high = (min(getattr(r, part) for _, r in held) for part in ("low", "value", "high"))
    open_links = [name for name, figure in result.figures.items() if figure.value is None]
    but = f"; not known: {', '.join(name.replace('_', ' ') for name in open_links)}" if open_links else ""
    weakest = held[0][0]
    result.figures["times_held"] = Figure(
        value,
        low,
        high,
        "times",
        f"weakest known link over the load: {weakest.words}{but}",
        weakest.source,
        max((link.checked for link, _ in held), key=TRUST.index),
    )


def _check(result: Result, chain: list[Link]) -> None:
    check = result.check(
        "holds_load",
        *(margin(link.capacity, link.demand) for link in chain),
        unit="N",
        yes="every link holds the load as many times as asked, by typical values; still try it",
        no="a link does not hold the load as many times as asked",
        ways_out=(
            "a longer engagement or a longer bushing",
            "a larger bushing within the window",
            "a lower load: lighter spring, key freed",
            "let the flange bear fully on its seat, so that it takes the prying off the thread",
        ),
    )
    unknown = [name for name, figure in result.figures.items() if figure.value is None and figure.unit == "N"]
    if check.holds == "unknown" and unknown:
        names = " and ".join(name.replace("_", " ") for name in unknown)
        says = f"{names} not known: no trustworthy value was found; pull a trial joint in scrap"
        result.checks["holds_load"] = check._replace(says=says)


_NOTES = (
    "These are typical values for comparing one anchorage with another, not design values.",
    "Where it matters, pull a trial joint in scrap of the same wood before the instrument is touched.",
    f"Lap shear comes from coupons: hold at least three times the load ({COMMON_PRACTICE}).",
    "Heat from a torch near the joint softens epoxy and shellac: solder off the body.",
)

WORKSHEET = Worksheet(
    id="joint_strength",
    title="Holding strength of the anchorage: thread, shank, glue and wood against the load at the head",
    inputs=(
        THREAD, SHANK, PITCH, ENGAGED, ENGAGED_THREADS, _TAPPED_HOLE, _PITCH_DIAMETER,
        _HOLE_PITCH_DIAMETER, _METAL, _BUSHING_METAL, _OUTSIDE, _WOOD_HOLE, _LENGTH,
        _ADHESIVE, _WOOD, _LOAD, HINGE_HEIGHT, FLANGE, _FACTOR,
    ),
    run=_run,
    example="thread=3-48 engaged=3mm metal=nickel_silver bushing_metal=brass outside=5.2mm length=3.8mm"
    " adhesive=epoxy wood=maple load=3 hinge_height=6mm flange=6.3mm",
)  # fmt: skip
