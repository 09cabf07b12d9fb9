"""The text by which a case is found: made from the case alone, written with it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from casebook.records.case import Answer, Answers, Case, Damage
from casebook.records.words import measures, notes, words

# Ids of answers that something is not there, or not known: who searches for solder means solder.
_ABSENT = re.compile(r"no|(?:no|none|not|does_not)_\w+")


@dataclass(frozen=True, slots=True)
class Document:
    """Search text in four parts, each of words with a space between, the telling ones apart.

    Attributes:
        head: number, title, instrument, places.
        body: everything told in words.
        codes: families, strategies, and what the answers say.
        measures: one word a length or a note.
    """

    head: str
    body: str
    codes: str
    measures: str


def document(case: Case) -> Document:
    """Make the search text of a whole case. The owner's reference is not part of it."""
    thing = case.instrument
    short = re.sub(r"(?<!\d)0+(?=\d)", "", case.number)
    head = [case.number, short, case.title, thing.kind, thing.description, *(d.place for d in case.damages)]
    visit = case.visit
    body = [
        *(thing.materials, thing.marks, case.owner_words),
        *(visit.comes_back_from, visit.needed_for, visit.came_in_with, visit.loaned_out),
        *(wait.note for wait in case.waits),
        *(text for reading in case.wood_readings for text in (reading.part, reading.note)),
        *(text for damage in case.damages for text in _told(damage)),
    ]
    codes = [*_answered(case.answers), *(c for d in case.damages for c in _codes(d))]
    return _document(head, body, codes)


def damage_document(damage: Damage) -> Document:
    """Make the search text of one damage alone, to see which of a case's damages was meant."""
    return _document([damage.place], _told(damage), _codes(damage))


def _document(head: Iterable[str], body: Iterable[str], codes: Iterable[str]) -> Document:
    heads, bodies, coded = (" \n".join(filter(None, part)) for part in (head, body, codes))
    everything = f"{heads} \n{bodies} \n{coded}"
    return Document(
        " ".join(words(heads)),
        " ".join(words(bodies)),
        " ".join(words(coded)),
        " ".join([*measures(everything), *notes(everything)]),
    )


def _told(damage: Damage) -> Iterator[str]:
    yield damage.story
    for look in damage.looks:
        yield from (look.ended_by, look.note)
    if damage.choice:
        yield damage.choice.reason
    for step in damage.steps:
        yield from (step.text, step.note)
    for made in damage.measured:
        yield from (made.what, made.value, made.note)
    for departure in damage.departures:
        yield from (departure.planned, departure.did, departure.why)
    for read in damage.before_after:
        yield from (read.what, read.note)
    for consent in damage.consents:
        yield from (consent.to_what, consent.note)
    yield damage.done
    for followup in damage.followups:
        yield from (followup.kind, followup.what, followup.cause, followup.note)
    yield damage.learned


def _codes(damage: Damage) -> Iterator[str]:
    yield damage.family
    for look in damage.looks:
        yield from _answered(look.answers)
    if damage.choice:
        yield damage.choice.strategy


def _answered(answers: Answers) -> Iterator[str]:
    for question, answer in answers.items():
        yield from _said(str(question), answer)


def _said(question: str, answer: Answer) -> Iterator[str]:
    """Give what an answer says in words.

    Of yes and of a length the question's own words count, of what there is not, nothing.
    """
    if isinstance(answer, str):
        if answer == "yes":
            yield question
        elif not _ABSENT.fullmatch(answer):
            yield f"{question} {answer}" if measures(answer) else str(answer)
    elif isinstance(answer, list):
        for one in answer:
            yield from _said(question, one)
    elif "value" in answer:
        yield f"{question} {answer['value']} {answer.get('unit', '')}"
    else:
        for key, inner in answer.items():
            if key != "not":
                yield from _said(question, inner)
