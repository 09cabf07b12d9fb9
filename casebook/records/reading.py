"""Rows back into cases: a few statements for any number of cases."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from sqlalchemy import Connection, Row, select
from sqlmodel import SQLModel

from casebook.records.case import (
    Answer,
    Case,
    CaseRow,
    Choice,
    Damage,
    FiguresUsed,
    FollowUp,
    Instrument,
    InstrumentRow,
    Look,
    Measured,
    StepDone,
)
from casebook.records.flat import from_row
from casebook.records.tables import (
    CaseRecord,
    DamageRecord,
    FiguresRecord,
    FollowUpRecord,
    InstrumentRecord,
    IntakeAnswer,
    LookAnswer,
    LookRecord,
    MeasuredRecord,
    OwnerRecord,
    StepRecord,
    table,
)
from casebook.records.workshop import (
    BeforeAfter,
    Confirmed,
    Consent,
    Departure,
    Visit,
    Wait,
    WoodReading,
)
from casebook.records.workshop_tables import (
    BeforeAfterRecord,
    ConfirmedRecord,
    ConsentRecord,
    DepartureRecord,
    WaitRecord,
    WoodReadingRecord,
)

# Field of a case or damage that holds flat values -> their table and kind.
_OF_CASE: dict[str, tuple[type[SQLModel], type]] = {
    "waits": (WaitRecord, Wait),
    "wood_readings": (WoodReadingRecord, WoodReading),
    "confirmed": (ConfirmedRecord, Confirmed),
}
_OF_DAMAGE: dict[str, tuple[type[SQLModel], type]] = {
    "steps": (StepRecord, StepDone),
    "measured": (MeasuredRecord, Measured),
    "followups": (FollowUpRecord, FollowUp),
    "consents": (ConsentRecord, Consent),
    "departures": (DepartureRecord, Departure),
    "before_after": (BeforeAfterRecord, BeforeAfter),
}
_CASES, _INSTRUMENTS, _OWNERS = table(CaseRecord), table(InstrumentRecord), table(OwnerRecord)
_Rows = dict[int, list[Row[Any]]]


def load(connection: Connection, ids: Iterable[int]) -> Iterator[Case]:
    """Give the cases with these row ids, in the order of the ids; one that is not there is left out."""
    for some in _batches(list(ids)):
        yield from _load(connection, some)


def light_rows(connection: Connection, limit: int, finished: bool | None) -> list[CaseRow]:
    """Give cases as rows of a list, the latest taken in first, those without a day last."""
    c, i = _CASES.c, _INSTRUMENTS.c
    wanted = select(c.number, c.title, i.kind, i.description, c.taken_in, c.finished)
    wanted = wanted.join_from(_CASES, _INSTRUMENTS, c.instrument_id == i.id)
    if finished is not None:
        wanted = wanted.where(c.finished == finished)
    wanted = wanted.order_by(c.taken_in.is_(None), c.taken_in.desc(), c.id.desc()).limit(limit)
    return [
        CaseRow(
            number=row.number,
            title=row.title,
            instrument=", ".join(filter(None, (row.kind, row.description))),
            taken_in=row.taken_in,
            state="finished" if row.finished else "open",
        )
        for row in connection.execute(wanted)
    ]


def instrument_rows(connection: Connection) -> list[InstrumentRow]:
    """Give every instrument as a row of a list, the one that came in last first, those without a day last."""
    c, i = _CASES.c, _INSTRUMENTS.c
    wanted = select(c.number, c.title, c.taken_in, i.uid, i.kind, i.description, i.materials, i.marks)
    wanted = wanted.add_columns(_OWNERS.c.reference).join_from(_CASES, _INSTRUMENTS, c.instrument_id == i.id)
    wanted = wanted.join(_OWNERS, c.owner_id == _OWNERS.c.id, isouter=True)
    # No day is earlier than any, so that the last visit is the latest of those with a day.
    wanted = wanted.order_by(c.taken_in.is_not(None), c.taken_in, c.id)
    visits: dict[str, list[Any]] = {}
    for row in connection.execute(wanted):
        # Taken out and put in again: whatever came last stands at the end.
        visits[row.uid] = [*visits.pop(row.uid, ()), row]
    return [_instrument_row(rows) for rows in reversed(visits.values())]


def _instrument_row(visits: Sequence[Any]) -> InstrumentRow:
    last = visits[-1]
    return InstrumentRow(
        Instrument(last.kind, last.description, last.materials, last.marks, last.uid),
        next((row.reference for row in reversed(visits) if row.reference), ""),
        last.taken_in,
        tuple(row.number for row in visits),
        tuple(row.title for row in visits),
    )


def _load(connection: Connection, ids: Sequence[int]) -> Iterator[Case]:
    wanted = (
        select(
            _CASES,
            *(column.label(f"instrument_{column.name}") for column in _INSTRUMENTS.c),
            _OWNERS.c.reference.label("owner"),
        )
        .join_from(_CASES, _INSTRUMENTS, _CASES.c.instrument_id == _INSTRUMENTS.c.id)
        .join(_OWNERS, _CASES.c.owner_id == _OWNERS.c.id, isouter=True)
        .where(_CASES.c.id.in_(ids))
    )
    rows = {row.id: row for row in connection.execute(wanted)}
    intake = _by(connection, IntakeAnswer, "case_id", ids)
    damages = _damages(connection, ids)
    flat = _flat(connection, _OF_CASE, "case_id", ids)
    for id in ids:
        row = rows.get(id)
        if row is None:
            continue
        yield Case(
            number=row.number,
            title=row.title,
            taken_in=row.taken_in,
            instrument=Instrument(
                row.instrument_kind,
                row.instrument_description,
                row.instrument_materials,
                row.instrument_marks,
                row.instrument_uid,
            ),
            owner=row.owner or "",
            owner_words=row.owner_words,
            answers=_answers(intake[id]),
            finished=row.finished,
            damages=tuple(damages[id]),
            uid=row.uid,
            version=row.version,
            visit=from_row(Visit, row),
            **flat[id],
        )


def _damages(connection: Connection, case_ids: Sequence[int]) -> dict[int, list[Damage]]:
    rows = _by(connection, DamageRecord, "case_id", case_ids, order="number")
    ids = [row.id for some in rows.values() for row in some]
    looks = _looks(connection, ids)
    figures = _by(connection, FiguresRecord, "damage_id", ids)
    flat = _flat(connection, _OF_DAMAGE, "damage_id", ids)
    made: dict[int, list[Damage]] = defaultdict(list)
    for case_id, some in rows.items():
        made[case_id] = [
            Damage(
                family=row.family,
                number=row.number,
                place=row.place,
                story=row.story,
                looks=tuple(looks[row.id]),
                choice=_choice(row),
                figures=tuple(_figures(used) for used in figures[row.id]),
                done=row.done,
                hours=row.hours,
                repaired_on=row.repaired_on,
                learned=row.learned,
                urgency=row.urgency,
                **flat[row.id],
            )
            for row in some
        ]
    return made


def _flat(
    connection: Connection, kinds: dict[str, tuple[type[SQLModel], type]], key: str, ids: Sequence[int]
) -> dict[int, dict[str, tuple[Any, ...]]]:
    """Give the flat values that hang on each of some rows, by field."""
    made: dict[int, dict[str, tuple[Any, ...]]] = defaultdict(dict)
    for field, (model, kind) in kinds.items():
        rows = _by(connection, model, key, ids)
        for id in ids:
            made[id][field] = tuple(from_row(kind, row) for row in rows[id])
    return made


def _looks(connection: Connection, damage_ids: Sequence[int]) -> dict[int, list[Look]]:
    rows = _by(connection, LookRecord, "damage_id", damage_ids, order="number")
    answers = _by(connection, LookAnswer, "look_id", [row.id for some in rows.values() for row in some])
    made: dict[int, list[Look]] = defaultdict(list)
    for damage_id, some in rows.items():
        made[damage_id] = [Look(_answers(answers[r.id]), r.taken, r.ended_by, r.note) for r in some]
    return made


def _choice(row: Row[Any]) -> Choice | None:
    if row.chosen is None:
        return None
    return Choice(row.chosen, row.chosen_on, row.reason, _json(row.advice))


def _figures(row: Row[Any]) -> FiguresUsed:
    return FiguresUsed(row.worksheet, json.loads(row.inputs), _json(row.result))


def _answers(rows: Iterable[Row[Any]]) -> dict[str, Answer]:
    return {row.question: json.loads(row.value) for row in rows}


def _json(text: str | None) -> Any:
    return None if text is None else json.loads(text)


def _by(
    connection: Connection, model: type[SQLModel], key: str, ids: Sequence[int], order: str = "id"
) -> _Rows:
    """Give the rows of a table by the row they are part of, in their order."""
    rows: _Rows = defaultdict(list)
    target = table(model)
    for some in _batches(ids):
        wanted = select(target).where(target.c[key].in_(some)).order_by(target.c[order])
        for row in connection.execute(wanted):
            rows[row._mapping[key]].append(row)
    return rows


def _batches(ids: Sequence[int], size: int = 500) -> Iterator[Sequence[int]]:
    """Cut a list of ids so that no statement has more parameters than every database takes."""
    for start in range(0, len(ids), size):
        yield ids[start : start + size]
