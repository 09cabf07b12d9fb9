"""Taking an instrument in, and changing later what was written down about it then."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from casebook.bench.desk import Desk
from casebook.records.case import Case, Instrument

# The intake question that tells what kind of instrument it is.
KIND = "instrument_kind"


def kinds(desk: Desk) -> tuple[tuple[str, str], ...]:
    """List the kinds of instrument with their labels, as the intake question has them."""
    question = desk.library.intake().questions.get(KIND)
    return tuple(question.answers.items()) if question else ()


def take_in(desk: Desk, written: Mapping[str, str]) -> Case:
    """Take an instrument in as written on the form; its kind is an intake answer at once.

    Args:
        desk: the desk.
        written: title, kind (an answer of the intake question), description, materials, marks, owner,
            owner_words.
    """
    case = desk.take_in(
        written["title"].strip(),
        _instrument(Instrument(), written),
        owner=written["owner"].strip(),
        owner_words=written["owner_words"].strip(),
    )
    if written["kind"]:
        desk.book.save_intake_answer(case.number, KIND, written["kind"])
    return case


def rewrite(desk: Desk, case: Case, written: Mapping[str, str]) -> None:
    """Change what was written down when it came in.

    Raises:
        BothChanged: somebody changed the same since the case was read.
    """
    changed = replace(
        case,
        title=written["title"].strip(),
        instrument=_instrument(case.instrument, written),
        owner=written["owner"].strip(),
        owner_words=written["owner_words"].strip(),
        answers={**case.answers, KIND: written["kind"]} if written["kind"] else case.answers,
    )
    desk.amend(case, changed)


def kind_of(desk: Desk, case: Case) -> str:
    """Give the kind of a case's instrument as an answer of the intake question, or empty."""
    said = case.answers.get(KIND, "")
    known = dict(kinds(desk))
    if isinstance(said, str) and said in known:
        return said
    written = case.instrument.kind.replace(" ", "_")
    return written if written in known else ""


def _instrument(before: Instrument, written: Mapping[str, str]) -> Instrument:
    kind = written["kind"].replace("_", " ") or before.kind
    parts = {name: written[name].strip() for name in ("description", "materials", "marks")}
    return replace(before, kind=kind, **parts)
