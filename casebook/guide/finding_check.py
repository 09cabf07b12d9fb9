"""Findings of a pack held against what they draw on: worksheets, their checks and figures, questions."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING, NoReturn

from casebook import figures
from casebook.figures.inputs import BadInput, Input, take
from casebook.figures.worksheet import Worksheet
from casebook.guide.pack import Finding, Question, Source
from casebook.quantity import Reading, Thread
from casebook.shape import in_a_row, nearest
from casebook.strict_yaml import BrokenFile

if TYPE_CHECKING:
    from casebook.guide.guide import Guide

# A wall, mm, to try a worksheet with that gets one from another finding.
_USUAL_FIGURE = Fraction(6)
# Kind of a worksheet input -> kinds of questions that can feed it.
_FED_BY = {
    "length": ("length",),
    "pitch": ("length",),
    "count": ("count",),
    "number": ("count",),
    "any_size": ("length", "count"),
    "choice": ("choice", "yes_no"),
}


def check_findings(guide: Guide) -> tuple[str, ...]:
    """Check every finding of `guide` and order them, each after those it draws a figure from.

    Raises:
        BrokenFile: a worksheet, input, check, figure, question or answer that there is not, a source of the
            wrong kind, or findings that go round in a circle.
    """
    for finding in guide.findings.values():
        sheet = _worksheet(finding)
        known = {item.name: item for item in sheet.inputs}
        for name, source in finding.inputs.items():
            if name not in known:
                hint = nearest(name, known)
                _refuse(finding, f"input {name}: worksheet {sheet.id} has none{hint}")
            if source.figure:
                _check_figure(guide, finding, name, source)
            else:
                _check_question(guide, finding, known[name], source)
        _check_settings(finding, sheet, known)
        _check_made(guide, finding, sheet)
    behind = {id: [s.question for s in f.inputs.values() if s.figure] for id, f in guide.findings.items()}
    try:
        return tuple(TopologicalSorter(behind).static_order())
    except CycleError as error:
        circle = error.args[1]
        _refuse(guide.findings[circle[0]], f"findings go round in a circle: {in_a_row(circle[::-1])}")


def taken_at_default(finding: Finding) -> dict[str, str]:
    """Name the questions whose sizes the worksheet takes at a default until they are measured."""
    known = {item.name: item for item in figures.worksheet(finding.worksheet).inputs}
    return {
        source.question: default
        for name, source in finding.inputs.items()
        if (default := known[name].default) is not None and not source.figure and not source.words
    }


def _refuse(finding: Finding, problem: str) -> NoReturn:
    raise BrokenFile(finding.at.file, finding.at.line, f"{finding.id}: {problem}")


def _worksheet(finding: Finding) -> Worksheet:
    if finding.worksheet not in figures.IDS:
        _refuse(finding, f"no worksheet {finding.worksheet}{nearest(finding.worksheet, figures.IDS)}")
    return figures.worksheet(finding.worksheet)


def _check_figure(guide: Guide, finding: Finding, name: str, source: Source) -> None:
    other = guide.findings.get(source.question)
    if other is None or other.figure is None:
        hint = nearest(source.question, guide.findings)
        _refuse(finding, f"input {name}: no finding {source.question} with a figure{hint}")


def _check_question(guide: Guide, finding: Finding, item: Input, source: Source) -> None:
    where = f"input {item.name}"
    question = guide.questions.get(source.question)
    if question is None:
        hint = nearest(source.question, guide.questions)
        _refuse(finding, f"{where}: unknown question {source.question}{hint}")
    if question.kind not in _FED_BY.get(item.kind, ()):
        _refuse(finding, f"{where} wants a {item.kind}; {question.id} is a {question.kind}")
    if (item.kind == "choice") != bool(source.words):
        _refuse(
            finding, f"{where}: words (answer: choice of the worksheet) belong to a choice and to no size"
        )
    for answer, word in source.words.items():
        if answer not in question.answers:
            hint = nearest(answer, question.answers)
            _refuse(finding, f"{where}: {question.id} has no answer {answer}{hint}")
        if word not in item.choices:
            _refuse(
                finding, f"{where}: {word} is none of {', '.join(item.choices)}{nearest(word, item.choices)}"
            )
    if item.kind == "any_size" and len(_kinds_compared(guide, finding)) > 1:
        _refuse(finding, "a length cannot be compared with a count")


def _kinds_compared(guide: Guide, finding: Finding) -> set[str]:
    """Name the kinds of size that come together in a finding; a plain nought goes with any."""
    sources = (s.question for s in finding.inputs.values() if not s.figure)
    kinds = {guide.questions[name].kind for name in sources if name in guide.questions}
    settings = {name: typed for name, typed in finding.settings.items() if name in ("other", "by")}
    return kinds | {"count" if typed.isdigit() else "length" for typed in settings.values() if typed != "0"}


def _check_settings(finding: Finding, sheet: Worksheet, known: Mapping[str, Input]) -> None:
    for name, typed in finding.settings.items():
        if name not in known:
            _refuse(finding, f"setting {name}: worksheet {sheet.id} has none{nearest(name, known)}")
        if name in finding.inputs:
            _refuse(finding, f"{name} is given twice, as an input and as a setting")
        try:
            known[name].read(typed)
        except ValueError as error:
            _refuse(finding, f"setting {error}")


def _check_made(guide: Guide, finding: Finding, sheet: Worksheet) -> None:
    """Refuse a check or figure that the worksheet does not make even when everything it gets is known."""
    known = {item.name: item for item in sheet.inputs}
    values: dict[str, Reading | Thread | str] = {
        name: known[name].read(typed) for name, typed in finding.settings.items()
    }
    for name, source in finding.inputs.items():
        if source.words:
            values[name] = next(iter(source.words.values()))
        elif source.figure:
            values[name] = Reading.exact(_USUAL_FIGURE)
        else:
            values[name] = _usual(guide.questions[source.question])
    try:
        result = sheet.run(take(sheet.inputs, values))
    except BadInput:
        return  # the usual sizes do not go together here; the first real ones will tell
    wanted = [("check", name, list(result.checks)) for name in finding.checks]
    wanted += [("figure", finding.figure, list(result.figures))] if finding.figure else []
    for what, wished, made in wanted:
        if wished not in made:
            hint = nearest(wished, made) or f" (it makes: {', '.join(made)})"
            _refuse(finding, f"worksheet {sheet.id} makes no {what} {wished}{hint}")


def _usual(question: Question) -> Reading:
    """Give some size within a question's range, to try a worksheet with."""
    low = question.low.value if question.low else Fraction(1)
    high = question.high.value if question.high else low
    if question.kind == "count":
        return Reading.exact(int(low + 2), unit="count")
    return Reading.exact(low + (high - low) / 4)
