"""An instrument told of by telephone, before anybody has seen it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta

from casebook.bench.counter import SYMPTOMS
from casebook.bench.desk import Desk
from casebook.bench.job_waits import ASK_AGAIN
from casebook.bench.taking_in import KIND
from casebook.records.case import Case, Damage, Instrument, Look
from casebook.records.workshop import Wait

# As much of what the owner said as a title takes.
_LONG = 60


def told_by_telephone(desk: Desk, told: Mapping[str, str]) -> Case:
    """Keep what somebody tells by telephone: a case with its damage that waits for the owner to bring it.

    Args:
        desk: the desk.
        told: who calls (a reference), kind (an answer of the intake question), family, place, and words: what
            they say, kept as it is. All but the family may be empty.

    Raises:
        KeyError: there are no rules for the family.
    """
    desk.library.guide(told["family"])
    place, words, kind = told["place"].strip(), told["words"].strip(), told["kind"]
    until = desk.today + timedelta(days=ASK_AGAIN["owner"])
    return desk.book.add(
        Case(
            title=title_of(desk, told["family"], place, words),
            taken_in=desk.today,
            instrument=Instrument(kind.replace("_", " ")),
            owner=told["who"].strip(),
            owner_words=words,
            answers={KIND: kind} if kind else {},
            damages=(Damage(told["family"], place=place, looks=(Look(taken=desk.today),)),),
            waits=(Wait("owner", desk.today, until, note="told by telephone, not here yet"),),
        )
    )


def title_of(desk: Desk, family: str, place: str, words: str) -> str:
    """Make a title: what is wrong and where; of a mere symptom what they say."""
    said = " ".join(words.split())
    if len(said) > _LONG:
        said = f"{said[:_LONG].rpartition(' ')[0] or said[:_LONG]} ..."
    what = desk.library.packs[family].title.partition(" (")[0]
    if family == SYMPTOMS and said:
        return f"{place}: {said}" if place else said
    return ", ".join(filter(None, (what, place))) if place or not said else f"{what}: {said}"
