"""Solder by its melting range: the order of joints, what must hold, what must come off before heat."""

from __future__ import annotations

from itertools import pairwise

from casebook.figures.formula import Formula, term
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.solder_words import CAUTIONS, NO_MARGIN, judge_hazards, take_off
from casebook.figures.worksheet import COMMON_PRACTICE, Check, Result, Worksheet
from casebook.tables import Row, load

ALLOYS = (
    "sn63pb37", "sn60pb40", "sn50pb50", "sn40pb60", "sn96.5ag3.5", "sac305", "sn95sb5", "sn99.3cu0.7",
    "bag_1", "bag_1a", "bag_2", "bag_2a", "bag_3", "bag_5", "bag_6", "bag_7", "bag_8", "bag_24",
    "easy", "medium", "hard",
)  # fmt: skip
# A solder nobody has identified lies somewhere in its family; of what family, a scratch tells (soft is grey).
_UNKNOWN = {"unknown_soft": "soft", "unknown_hard": "hard"}
_METALS = ("silver", "brass", "nickel_silver", "cast_nickel_silver")
_NEAR = (
    "shellac", "epoxy", "hide_glue", "wood", "liner", "ivory", "celluloid", "ebonite", "lacquer", "pad",
)  # fmt: skip

_PRESENT = Input(
    "present", "sets", "solder of the joints that are there and must hold: sn60pb40, bag_7, unknown_hard",
    choices=(*ALLOYS, *_UNKNOWN, "unknown", "none"),
)  # fmt: skip
_PLANNED = Input("planned", "sets", "solder of the joints to be made, comma between them", choices=ALLOYS)
_METAL = Input("metal", "sets", "what is soldered", choices=_METALS)
_NEAR_IT = Input("near", "sets", "what lies near and cannot be taken off yet", choices=_NEAR)
_BELOW_EARLIER = Input(
    "below_earlier", "number", "how far below an earlier joint's solidus a later one must melt, degrees C",
    default="10", low="0", high="200", measured=False,
)  # fmt: skip
_BELOW_METAL = Input(
    "below_metal", "number", "how far below the metal's solidus a solder must melt, degrees C",
    default="30", low="0", high="300", measured=False,
)  # fmt: skip


def _run(inputs: Inputs) -> Result:
    result = Result(WORKSHEET.id, inputs)
    present = [word for word in _words(inputs, "present") if word != "none"]
    planned = sorted(_words(inputs, "planned"), key=lambda alloy: -_melts(alloy, "liquidus").high)
    metals = _words(inputs, "metal")
    for alloy in (*present, *planned):
        _derive(inputs, alloy, "present" if alloy in present else "planned")
    for metal in metals:
        row = _row("metal", "metal", metal)
        inputs.derive(f"{metal}_solidus", _span(row, "solidus"), "metal")
    _extremes(result, present, planned, metals)
    if planned and "present" in inputs:
        _judge(result, present, planned)
    elif planned:
        says = "needs present first: which solder is there already, or none"
        result.checks["earlier_joints_hold"] = Check("unknown", *NO_MARGIN, "celsius", says, (), ("present",))
    if planned and metals:
        result.check(
            "metal_survives",
            *(_spare(f"{metal}_solidus", f"{planned[0]}_liquidus", "below_metal") for metal in metals),
            unit="celsius",
            yes="the metal stays solid with room to spare",
            no="the solder melts too near the metal's own melting: the part may sag",
            ways_out=("a solder that melts lower", "find out which alloy the metal is"),
        )
    judge_hazards(result, [_about(alloy) for alloy in present], [_about(alloy) for alloy in planned])
    _rows(result, present, planned)
    result.steps += [*take_off(_words(inputs, "near")), *_order(planned), *CAUTIONS]
    return result


def _words(inputs: Inputs, name: str) -> list[str]:
    return list(dict.fromkeys(word for word in inputs.word(name).split(",") if word))


def _row(section: str, key: str, name: str) -> Row:
    return next(row for row in load("solders")[section] if row[key] == name)


def _span(row: Row, which: str) -> Span:
    span = _safe(which, *(float(row.number(f"{end}_{which}_celsius")) for end in ("low", "high")))
    printed = f"printed_{which}_celsius"
    return Span(span.low, float(row.number(printed)), span.high) if printed in row else span


def _safe(which: str, low: float, high: float) -> Span:
    """Give a range whose value is its safe end: a joint lets go at its lowest, flows at its highest."""
    return Span(low, low if which == "solidus" else high, high)


def _rows_of(alloy: str) -> list[Row]:
    """Give the row of a solder; of one nobody identified, those of its whole family."""
    if alloy in ALLOYS:
        return [_row("alloy", "alloy", alloy)]
    family = _UNKNOWN.get(alloy)
    return [row for row in load("solders")["alloy"] if family in (None, row["family"])]


def _melts(alloy: str, which: str) -> Span:
    """Give the solidus or liquidus in degrees C; of a solder nobody identified, that of its whole family."""
    spans = [_span(row, which) for row in _rows_of(alloy)]
    if len(spans) == 1:
        return spans[0]
    return _safe(which, min(span.low for span in spans), max(span.high for span in spans))


def _about(alloy: str) -> tuple[str, str, str, str]:
    """Give name, family, lead and cadmium of a solder: yes, no, or unknown where it was not identified."""
    rows = _rows_of(alloy)

    def one(key: str) -> str:
        said = {row.text(key) for row in rows}
        return said.pop() if len(said) == 1 else "unknown"

    return alloy, one("family"), one("lead"), one("cadmium")


def _derive(inputs: Inputs, alloy: str, read_as: str) -> None:
    for which in ("solidus", "liquidus"):
        inputs.derive(f"{alloy}_{which}", _melts(alloy, which), read_as)


def _spare(holds: str, melts: str, by: str) -> Formula:
    return term(holds) - term(melts) - term(by)


def _extremes(result: Result, present: list[str], planned: list[str], metals: list[str]) -> None:
    """Keep the temperatures that decide: what lets go first, and what must be reached."""
    for name, named, pick, how, rows_of in (
        (
            "present_solidus",
            present,
            min,
            "lowest solidus of the joints that must hold: there the first lets go",
            _rows_of,
        ),
        (
            "planned_liquidus",
            planned,
            max,
            "highest liquidus of the joints to be made: so hot it must get",
            _rows_of,
        ),
        (
            "metal_solidus",
            metals,
            min,
            "lowest solidus of what is soldered",
            lambda metal: [_row("metal", "metal", metal)],
        ),
    ):
        if not named:
            continue
        terms = [f"{one}_{name.split('_')[1]}" for one in named]
        rows = [row for one in named for row in rows_of(one)]
        result.figure(
            name,
            Formula(lambda pick=pick, **given: pick(given.values()), rises=" ".join(terms), names=terms),
            unit="celsius",
            how=how,
            source="; ".join(dict.fromkeys(row.text("source") for row in rows)),
            checked=max(rows, key=lambda row: row.checked == "memory").checked,
        )


def _judge(result: Result, present: list[str], planned: list[str]) -> None:
    """Judge that every earlier joint stays solid while a later one is made."""
    pairs = [(held, alloy) for held in present for alloy in planned] + list(pairwise(planned))
    if not pairs:
        return
    check = result.check(
        "earlier_joints_hold",
        *(_spare(f"{held}_solidus", f"{alloy}_liquidus", "below_earlier") for held, alloy in pairs),
        unit="celsius",
        yes="every earlier joint stays solid while the later ones are made",
        no="an earlier joint lets go before the later solder flows",
        ways_out=(
            "a solder that melts lower for the later joint",
            "take the earlier joint apart first and make it again, hottest first",
            "where it lacks little: keep the earlier joint cold by clamp or heat paste, tried on scrap first",
            "a mechanical joint or glue instead of heat",
        ),
    )
    if check.holds == "unknown" and check.waits_on:
        says = "too close to call by the published ranges, or the earlier solder is not identified"
        result.checks["earlier_joints_hold"] = check._replace(says=says)


def _rows(result: Result, present: list[str], planned: list[str]) -> None:
    for alloy in sorted({*present, *planned}, key=lambda name: -_melts(name, "liquidus").high):
        _, family, lead, cadmium = _about(alloy)
        solidus, liquidus = _melts(alloy, "solidus"), _melts(alloy, "liquidus")
        result.rows.append({
            "solder": alloy,
            "joint": "planned" if alloy not in present else "present",
            "family": family,
            "solidus_C": _range(solidus),
            "liquidus_C": _range(liquidus),
            "lead": lead,
            "cadmium": cadmium,
        })  # fmt: skip


def _range(span: Span) -> str:
    return f"{span.low:g}" if span.low == span.high else f"{span.low:g} to {span.high:g}"


def _order(planned: list[str]) -> list[str]:
    if len(planned) < 2:
        return []
    return [f"Make the joints hottest first: {', then '.join(planned)} ({COMMON_PRACTICE})."]


WORKSHEET = Worksheet(
    id="solder_choice",
    title="Solder: order of joints by melting range, what must hold, what comes off before heat",
    inputs=(_PRESENT, _PLANNED, _METAL, _NEAR_IT, _BELOW_EARLIER, _BELOW_METAL),
    run=_run,
    example="present=bag_7 planned=sn96.5ag3.5 metal=nickel_silver near=shellac,wood",
)
