"""A case into rows: what one transaction does to the tables. The caller begins and ends the transaction."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any
from uuid import uuid4

from sqlalchemy import Connection, delete, insert, select, update

from casebook.records.case import Case, Instrument
from casebook.records.damage_rows import add_damage, answer_rows, set_damage
from casebook.records.document import document
from casebook.records.errors import ChangedElsewhere, NoSuchCase, NumberTaken
from casebook.records.flat import row_values
from casebook.records.reading import load
from casebook.records.rows import insert_flat, insert_parts, insert_row, remove_parts, set_row
from casebook.records.tables import (
    CaseRecord,
    Counter,
    DamageRecord,
    InstrumentRecord,
    IntakeAnswer,
    IssuedNumber,
    OwnerRecord,
    SearchText,
    table,
)
from casebook.records.workshop_tables import ConfirmedRecord, WaitRecord, WoodReadingRecord
from casebook.safe_text import safe

_CASES, _DAMAGES = table(CaseRecord), table(DamageRecord)


def number_key(number: str) -> str:
    """Give what two case numbers must differ by: capital and small letters are the same."""
    return safe(number).casefold()


def add_case(connection: Connection, case: Case) -> int:
    """Insert a case with all that is in it and give its row id.

    Raises:
        NumberTaken: number or uid belongs to another case, or did.
    """
    uid = str(case.uid) or uuid4().hex
    number = _issue(connection, str(case.number), uid)
    now = datetime.now(UTC)
    id = insert_row(
        connection,
        CaseRecord,
        uid=uid,
        number=number,
        number_key=number_key(number),
        damages_made=0,
        version=1,
        added_at=now,
        changed_at=now,
        **_values(connection, case),
    )
    _add_parts(connection, id, case)
    for damage in case.damages:
        add_damage(connection, id, damage)
    return id


def set_case(connection: Connection, id: int, case: Case) -> None:
    """Make a stored case equal to `case`: damages are matched by number, new ones are given theirs.

    Raises:
        NumberTaken: a damage carries the number of one that was taken out of this case.
    """
    thing = case.instrument
    if not thing.uid:
        # A case written by hand knows no uid: it speaks of the instrument this case has had.
        thing = replace(thing, uid=_instrument_uid(connection, id))
    set_row(connection, CaseRecord, id, _values(connection, replace(case, instrument=thing)))
    remove_parts(connection, {"case_id": id}, IntakeAnswer, WaitRecord, WoodReadingRecord, ConfirmedRecord)
    _add_parts(connection, id, case)
    wanted = select(_DAMAGES.c.number, _DAMAGES.c.id).where(_DAMAGES.c.case_id == id)
    stored = {row.number: row.id for row in connection.execute(wanted)}
    made = connection.scalar(select(_CASES.c.damages_made).where(_CASES.c.id == id)) or 0
    for number in stored.keys() - {damage.number for damage in case.damages}:
        connection.execute(delete(_DAMAGES).where(_DAMAGES.c.id == stored[number]))
    for damage in case.damages:
        if damage.number in stored:
            set_damage(connection, stored[damage.number], damage)
        elif 0 < damage.number <= made:
            raise NumberTaken(
                f"case {case.number}: damage {damage.number} was taken out of it; leave the number away"
            )
        else:
            add_damage(connection, id, damage)


def set_finished(connection: Connection, id: int, finished: bool) -> None:
    """Close a case or open it again."""
    set_row(connection, CaseRecord, id, {"finished": finished})


def remove_case(connection: Connection, id: int) -> None:
    """Remove a case with all that is in it; its number stays taken."""
    remove_parts(connection, {"case_id": id}, SearchText)
    connection.execute(delete(_CASES).where(_CASES.c.id == id))


def touch(connection: Connection, number: str, version: int | None = None) -> tuple[int, int]:
    """Take hold of a case for a change: count its version up, and give its row id and the new version.

    Raises:
        NoSuchCase: there is none of that number.
        ChangedElsewhere: it is not at `version` any more.
    """
    key = number_key(number)
    held = update(_CASES).where(_CASES.c.number_key == key)
    if version is not None:
        held = held.where(_CASES.c.version == version)
    held = held.values(version=_CASES.c.version + 1, changed_at=datetime.now(UTC))
    changed = connection.execute(held).rowcount
    row = connection.execute(select(_CASES.c.id, _CASES.c.version).where(_CASES.c.number_key == key)).first()
    if row is None:
        raise NoSuchCase(f"there is no case {number} in this book")
    if not changed:
        raise ChangedElsewhere(number)
    return row.id, row.version


def index(connection: Connection, id: int) -> Case:
    """Write the search text of a case as it now stands, where it differs from the one kept; give the case."""
    [case] = load(connection, [id])
    made = document(case)
    text = {"head": made.head, "body": made.body, "codes": made.codes, "measures": made.measures}
    kept = table(SearchText)
    row = connection.execute(select(kept).where(kept.c.case_id == id)).first()
    if row is None:
        connection.execute(insert(kept).values(case_id=id, **text))
    elif any(row._mapping[name] != text[name] for name in text):
        connection.execute(update(kept).where(kept.c.case_id == id).values(**text))
    return case


def _values(connection: Connection, case: Case) -> dict[str, Any]:
    return {
        "title": str(case.title),
        "taken_in": case.taken_in,
        "instrument_id": _instrument(connection, case.instrument),
        "owner_id": _owner(connection, str(case.owner)),
        "owner_words": str(case.owner_words),
        "finished": case.finished,
        **row_values(case.visit),
    }


def _add_parts(connection: Connection, id: int, case: Case) -> None:
    whole = {"case_id": id}
    insert_parts(connection, IntakeAnswer, whole, answer_rows(case.answers))
    insert_flat(connection, WaitRecord, whole, case.waits)
    insert_flat(connection, WoodReadingRecord, whole, case.wood_readings)
    insert_flat(connection, ConfirmedRecord, whole, case.confirmed)


def _issue(connection: Connection, number: str, uid: str) -> str:
    """Take a number for good: the one given, or the next free one of the book's own."""
    issued = table(IssuedNumber)
    cases = select(_CASES.c.number).where(_CASES.c.uid == uid)
    known = connection.scalar(cases)
    if known is not None:
        raise NumberTaken(f"this case is in the book already, as {known}")
    if number:
        owner = connection.scalar(select(issued.c.uid).where(issued.c.key == number_key(number)))
        if owner is None:
            connection.execute(insert(issued).values(key=number_key(number), uid=uid))
        elif owner != uid:
            raise NumberTaken(
                f"number {number} has been given to another case: choose another, or leave it away"
            )
        return number
    while True:
        number = f"C-{_count(connection):04d}"
        if connection.scalar(select(issued.c.uid).where(issued.c.key == number_key(number))) is None:
            connection.execute(insert(issued).values(key=number_key(number), uid=uid))
            return number


def _count(connection: Connection) -> int:
    """Count one up; the row is held until the transaction ends, so that no two cases get one number."""
    counters = table(Counter)
    here = counters.c.name == "case numbers"
    connection.execute(update(counters).where(here).values(value=counters.c.value + 1))
    return int(connection.execute(select(counters.c.value).where(here)).scalar_one())


def _instrument(connection: Connection, thing: Instrument) -> int:
    """Find the instrument by its uid, or begin one. What is newly told of a known one replaces what was."""
    told = {
        "kind": str(thing.kind),
        "description": str(thing.description),
        "materials": str(thing.materials),
        "marks": str(thing.marks),
    }
    kept = table(InstrumentRecord)
    uid = str(thing.uid) or uuid4().hex
    id: int | None = connection.scalar(select(kept.c.id).where(kept.c.uid == uid))
    if id is None:
        return insert_row(connection, InstrumentRecord, uid=uid, **told)
    set_row(connection, InstrumentRecord, id, told)
    return id


def _instrument_uid(connection: Connection, case_id: int) -> str:
    kept = table(InstrumentRecord)
    wanted = select(kept.c.uid).join(_CASES, _CASES.c.instrument_id == kept.c.id)
    return str(connection.execute(wanted.where(_CASES.c.id == case_id)).scalar_one())


def _owner(connection: Connection, reference: str) -> int | None:
    if not reference:
        return None
    kept = table(OwnerRecord)
    id: int | None = connection.scalar(select(kept.c.id).where(kept.c.reference == reference))
    return id or insert_row(connection, OwnerRecord, uid=uuid4().hex, reference=reference)
