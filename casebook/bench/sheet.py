"""A worksheet on the bench: filled from the answers, typed over, computed at once, kept with the damage."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from casebook import figures
from casebook.bench.look import LookSession
from casebook.bench.shop import Shop
from casebook.figures.as_json import result_json
from casebook.figures.inputs import USUAL_ERROR, BadInput, Input, Inputs, read
from casebook.figures.worksheet import Figure, Result, Worksheet
from casebook.guide.pack import Source
from casebook.quantity import Reading, Unit
from casebook.records.case import FiguresUsed

# Sizes of anything against anything: of no use by itself on one damage.
_NOT_BY_ITSELF = ("compare",)


@dataclass(slots=True)
class Sheet:
    """One worksheet with what was typed into it.

    Attributes:
        worksheet: the worksheet.
        unit: the unit of a bare number.
        typed: input -> text as typed.
        origin: input -> where its text comes from (the name of a question), for those not typed here.
        problem: why the last text cannot be used, or empty.
        result: the last result that could be made, or None.
        shop: the shop's settings: its drawer, and its errors for readings that name their tool.
    """

    worksheet: Worksheet
    unit: Unit = "mm"
    typed: dict[str, str] = field(default_factory=dict)
    origin: dict[str, str] = field(default_factory=dict)
    problem: str = ""
    result: Result | None = None
    shop: Shop | None = None

    def __post_init__(self) -> None:
        self._compute()

    @property
    def inputs(self) -> tuple[Input, ...]:
        """What the worksheet takes."""
        return self.worksheet.inputs

    def shown(self, name: str) -> str:
        """Give the text of an input: as typed, from the drawer, its default, or empty."""
        item = next(item for item in self.inputs if item.name == name)
        drawer = self.shop.drawer.get(item.shelf, "") if self.shop else ""
        return self.typed.get(name, drawer or item.default or "")

    def put(self, name: str, text: str) -> None:
        """Type over an input; empty text takes it away. What cannot be used stands in `problem`."""
        text = text.strip()
        self.origin.pop(name, None)
        if text:
            self.typed[name] = text
        else:
            self.typed.pop(name, None)
        self._compute()

    def tried(self, name: str, text: str) -> Sheet:
        """Give a sheet like this one with one input typed over; this one stays as it is."""
        other = Sheet(self.worksheet, self.unit, dict(self.typed), dict(self.origin), shop=self.shop)
        other.put(name, text)
        if other.result is None:
            other.result = self.result
        return other

    def used(self) -> FiguresUsed:
        """Give the worksheet as it is used now, for the record.

        Raises:
            BadInput: an input cannot be used.
        """
        result = self.worksheet.run(self._read())
        return FiguresUsed(self.worksheet.id, dict(self.typed), result_json(result))

    def _read(self) -> Inputs:
        shop = self.shop or Shop()
        return read(self.inputs, self.typed, bare=self.unit, drawer=shop.drawer, tools=shop.tools)

    def _compute(self) -> None:
        try:
            self.result = self.worksheet.run(self._read())
            self.problem = ""
        except BadInput as problem:
            self.problem = f"{problem.name.replace('_', ' ')}: {problem.problem}"


def sheets_for(session: LookSession, chosen: str = "") -> list[str]:
    """Name the worksheets that may matter for a look.

    First those of the strategy that was chosen, then of the others in their order, then of the findings;
    among each, those that the answers fill before the others.

    Args:
        session: the look.
        chosen: id of the chosen strategy, or empty.
    """
    guide = session.guide
    fed = [finding.worksheet for finding in guide.findings.values()]
    order = [chosen] if chosen in guide.strategies else []
    order += [p.id for p in session.advice.proposals if p.standing != "ruled_out" and p.id != chosen]
    names: list[str] = []
    for id in order:
        own = guide.strategies[id].strategy.worksheets
        names += sorted(own, key=lambda name: name not in fed)
    names += fed
    return [name for name in dict.fromkeys(names) if name in figures.IDS and name not in _NOT_BY_ITSELF]


def filled(
    id: str,
    session: LookSession | None,
    unit: Unit,
    kept: Iterable[FiguresUsed] = (),
    shop: Shop | None = None,
) -> Sheet:
    """Open a worksheet, filled from what was kept with the damage, else from the answers of the look.

    Raises:
        KeyError: there is no such worksheet.
    """
    sheet = figures.worksheet(id)
    before = next((used for used in kept if used.worksheet == sheet.id), None)
    if before is not None:
        known = {item.name for item in sheet.inputs}
        typed = {name: text for name, text in before.inputs.items() if name in known}
        return Sheet(sheet, unit, typed, shop=shop)
    typed, origin = _from_answers(sheet, session) if session else ({}, {})
    return Sheet(sheet, unit, typed, origin, shop=shop)


def _from_answers(sheet: Worksheet, session: LookSession) -> tuple[dict[str, str], dict[str, str]]:
    typed: dict[str, str] = {}
    origin: dict[str, str] = {}
    for finding in session.guide.findings.values():
        if finding.worksheet != sheet.id:
            continue
        for name, source in finding.inputs.items():
            if name in typed:
                continue
            got = _text(session, source)
            if got:
                typed[name] = got
                origin[name] = _name(session, source)
    return typed, origin


def _text(session: LookSession, source: Source) -> str:
    state = session.advice.trusted
    if source.figure:
        figure = state.found[source.question].figure if source.question in state.found else None
        return _as_typed(figure) if figure else ""
    if source.words:
        variable = session.guide.space.by_name[source.question]
        left = variable.among(state.box[variable.index])
        words = {source.words.get(next(iter(value))) for value in left}
        word = words.pop() if len(words) == 1 else None
        return word or ""
    reading = state.knowledge.readings.get(source.question)
    return _with_error(reading) if reading else ""


def _with_error(reading: Reading) -> str:
    """Write a reading so that it reads back the same: its text, with an error that is not the usual."""
    error = reading.high - reading.value
    if reading.unit != "mm" or reading.own_error or error in (0, USUAL_ERROR):
        return reading.typed
    if reading.tool:
        named = reading.typed if " by " in reading.typed else f"{reading.typed} by {reading.tool}"
        return named.replace("_", " ")
    return f"{reading.typed} +- {float(error * reading.parts):g} mm"


def _as_typed(figure: Figure) -> str:
    if figure.value is None or figure.low is None or figure.high is None or figure.unit != "mm":
        return ""
    half = max(figure.high - figure.value, figure.value - figure.low)
    return f"{figure.value:.3f} mm" + (f" +- {half:.3f} mm" if half > 0 else "")


def _name(session: LookSession, source: Source) -> str:
    guide = session.guide
    return guide.findings[source.question].name if source.figure else guide.questions[source.question].name
