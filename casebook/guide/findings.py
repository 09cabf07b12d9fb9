"""Findings: what the worksheets make of the measurements, as yes, no or unknown.

A finding is a yes/no variable of the guide. Its value comes from a worksheet's check and from nowhere
else; where a choice that the worksheet needs is still open, every possible one is tried.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from typing import Literal

from casebook import figures
from casebook.figures.inputs import BadInput, take
from casebook.figures.worksheet import Check, Figure, Result
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Clash, Knowledge
from casebook.guide.pack import Finding, Source
from casebook.guide.space import Value, Variable
from casebook.quantity import Reading, Thread

Given = Reading | Thread | str
_YES, _NO = 0b01, 0b10


@dataclass(frozen=True, slots=True)
class Found:
    """What is known of one finding.

    Attributes:
        mask: the values still possible: yes, no, does not apply.
        figure: the figure shown with it, when one was made.
        check: the check that decided or could not, when one was made.
        waits_on: the questions to answer or to measure again.
    """

    mask: int
    figure: Figure | None
    check: Check | None
    waits_on: tuple[str, ...]

    @property
    def holds(self) -> Literal["yes", "no", "unknown"]:
        """Yes or no when settled, else unknown."""
        return "yes" if self.mask == _YES else "no" if self.mask == _NO else "unknown"


def find_all(guide: Guide, knowledge: Knowledge, box: list[int]) -> tuple[dict[str, Found], list[Clash]]:
    """Work out every finding and narrow `box` by it.

    Returns:
        The findings, and the readings that cannot go together.
    """
    found: dict[str, Found] = {}
    clashes: list[Clash] = []
    for id in guide.finding_order:
        finding = guide.findings[id]
        variable = guide.space.by_name[id]
        try:
            got = _find(guide, finding, variable, knowledge, box, found)
        except BadInput as problem:
            behind = tuple(
                sorted(guide.needs[id] & knowledge.readings.keys(), key=list(guide.questions).index)
            )
            if not _goes_together(guide, finding, variable, knowledge, box, found):
                what = f"{_in_bench_words(guide, finding, problem.name)}: {problem.problem}"
                clashes.append(Clash(behind, what))
            sources = finding.inputs.values()
            may_be_absent = any(box[guide.space.by_name[s.question].index] & guide.absent(s) for s in sources)
            absent = variable.does_not_apply if may_be_absent else 0
            got = Found(_YES | _NO | absent, None, None, behind)
        found[id] = got
        box[variable.index] = got.mask
    return found, _distinct(clashes)


def _goes_together(
    guide: Guide,
    finding: Finding,
    variable: Variable,
    knowledge: Knowledge,
    box: Sequence[int],
    found: dict[str, Found],
) -> bool:
    """Whether the readings themselves go together, and only their errors are too large to say anything."""
    sharp = {q: Reading.exact(r.value, r.typed, unit=r.unit) for q, r in knowledge.readings.items()}
    try:
        _find(guide, finding, variable, replace(knowledge, readings=sharp), box, found)
    except BadInput:
        return False
    return True


def _distinct(clashes: list[Clash]) -> list[Clash]:
    """Drop clashes that say of the same questions what another one says already."""
    kept: list[Clash] = []
    for clash in sorted(clashes, key=lambda c: len(c.questions)):
        if not any(set(other.questions) <= set(clash.questions) for other in kept):
            kept.append(clash)
    return kept


def _in_bench_words(guide: Guide, finding: Finding, name: str) -> str:
    source = finding.inputs.get(name)
    if source is None or source.figure:
        return finding.name
    return guide.questions[source.question].name


def _find(
    guide: Guide,
    finding: Finding,
    variable: Variable,
    knowledge: Knowledge,
    box: Sequence[int],
    found: dict[str, Found],
) -> Found:
    given: dict[str, Given] = {}
    choices: list[list[tuple[str, str | None]]] = []
    missing: list[str] = []
    may_not_apply = False
    for name, source in finding.inputs.items():
        from_where = guide.space.by_name[source.question]
        left = box[from_where.index]
        absent = guide.absent(source)
        if not left & ~absent:
            return Found(variable.does_not_apply, None, None, ())
        may_not_apply |= bool(left & absent)
        if source.figure:
            figure = found[source.question].figure
            if figure is None or figure.value is None:
                # Without what the figure is reckoned from, a reading in its place would do as well.
                missing += [*found[source.question].waits_on, *_instead(guide, source.question, knowledge)]
            else:
                given[name] = _as_reading(figure)
        elif source.words:
            words = _words(source, from_where.among(left & ~absent))
            choices.append([(name, word) for word in words])
            if len(words) > 1:
                missing.append(source.question)
        elif source.question in knowledge.readings and left != from_where.does_not_apply:
            given[name] = knowledge.readings[source.question]
        elif not source.optional:
            missing.append(source.question)
    results: list[Result] = []
    refused: BadInput | None = None
    for chosen in product(*choices):
        try:
            said = {name: word for name, word in chosen if word is not None}
            results.append(_compute(finding, {**given, **said}))
        except BadInput as problem:
            refused = problem  # not with these readings; another choice may still go with them
    if refused is not None and not results:
        raise refused
    mask = 0
    for result in results:
        mask |= _mask(finding, result)
    check = _deciding_check(finding, results[0]) if len(results) == 1 else None
    figure = _figure(finding, results)
    waits: tuple[str, ...] = ()
    if mask == _YES | _NO:
        waits = tuple(dict.fromkeys(missing)) or _deciding(guide, finding, check, knowledge)
    if may_not_apply:
        mask |= variable.does_not_apply
    return Found(mask, figure, check, waits)


def _words(source: Source, values: Sequence[Value]) -> list[str | None]:
    """List the worksheet's words for the answers still possible; None for one that leaves the choice out."""
    words = {source.words.get(answer) for value in values for answer in value}
    return sorted(words, key=lambda word: word or "")


def _compute(finding: Finding, given: dict[str, Given]) -> Result:
    sheet = figures.worksheet(finding.worksheet)
    known = {item.name: item for item in sheet.inputs}
    settings = {name: known[name].read(typed) for name, typed in finding.settings.items()}
    return sheet.run(take(sheet.inputs, {**settings, **given}))


def _figure(finding: Finding, results: Sequence[Result]) -> Figure | None:
    """Give the finding's figure; where a choice is still open, bounds that hold whatever it is."""
    figures_made = [result.figures.get(finding.figure or "") for result in results]
    made = [figure for figure in figures_made if figure is not None and figure.value is not None]
    if len(made) < len(results) or not made:
        return None
    low = min(figure.low if figure.low is not None else 0.0 for figure in made)
    high = max(figure.high if figure.high is not None else 0.0 for figure in made)
    return made[0]._replace(low=low, high=high)


def _mask(finding: Finding, result: Result) -> int:
    check = _deciding_check(finding, result)
    if check is None or check.holds == "unknown":
        return _YES | _NO
    return _YES if (check.holds == "yes") != finding.turned else _NO


def _deciding_check(finding: Finding, result: Result) -> Check | None:
    """Give the check that decides: one that fails, else one that is open, else the tightest that holds."""
    checks = [result.checks[name] for name in finding.checks if name in result.checks]
    if len(checks) < len(finding.checks):
        return None
    order = {"no": 0, "unknown": 1, "yes": 2}
    return min(checks, key=lambda check: (order[check.holds], check.margin or 0.0))


def _deciding(guide: Guide, finding: Finding, check: Check | None, knowledge: Knowledge) -> tuple[str, ...]:
    """Name the questions whose readings to take, or to repeat: those the check says decide."""
    names: list[str] = []
    for name in check.waits_on if check else ():
        source = finding.inputs.get(name)
        if source is not None:
            names += _sharper(guide, source.question, knowledge) if source.figure else [source.question]
    return tuple(names) or tuple(s.question for s in finding.inputs.values() if not s.figure and not s.words)


def _sharper(guide: Guide, id: str, knowledge: Knowledge) -> list[str]:
    """Name what would sharpen a figure: a reading it could do with and has not got, else those it has."""
    return _instead(guide, id, knowledge) or sorted(guide.needs[id])


def _instead(guide: Guide, id: str, knowledge: Knowledge) -> list[str]:
    """Name the readings a finding could do with and has not got."""
    sources = guide.findings[id].inputs.values()
    read = knowledge.readings
    return [s.question for s in sources if s.optional and not s.figure and s.question not in read]


def _as_reading(figure: Figure) -> Reading:
    """Hand one worksheet's figure to another as a reading with the bounds it has."""
    low, value, high = (Fraction(part or 0) for part in (figure.low, figure.value, figure.high))
    return Reading(low, value, high, f"{figure.value:.4g} {figure.unit}", own_error=True, unit=figure.unit)
