"""A damage into rows: what was found, decided, done, and how it turned out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection, delete, insert, select, update
from sqlmodel import SQLModel

from casebook.records.case import Answer, Answers, Choice, Damage, FiguresUsed, FollowUp, Look
from casebook.records.flat import row_values
from casebook.records.rows import (
    insert_flat,
    insert_parts,
    insert_row,
    json_text,
    perhaps_json,
    remove_parts,
    set_row,
)
from casebook.records.tables import (
    CaseRecord,
    DamageRecord,
    FiguresRecord,
    FollowUpRecord,
    LookAnswer,
    LookRecord,
    MeasuredRecord,
    StepRecord,
    table,
)
from casebook.records.workshop_tables import BeforeAfterRecord, ConsentRecord, DepartureRecord

_WORK = (StepRecord, MeasuredRecord, DepartureRecord, BeforeAfterRecord)
_PARTS = (LookRecord, FiguresRecord, FollowUpRecord, ConsentRecord, *_WORK)


def add_damage(connection: Connection, case_id: int, damage: Damage) -> int:
    """Insert a damage and give its number: the next one never used in this case, unless it has one."""
    cases = table(CaseRecord)
    made = connection.scalar(select(cases.c.damages_made).where(cases.c.id == case_id)) or 0
    number = damage.number or made + 1
    id = insert_row(connection, DamageRecord, case_id=case_id, number=number, **_values(damage))
    _add_parts(connection, id, damage)
    if number > made:
        set_row(connection, CaseRecord, case_id, {"damages_made": number})
    return number


def set_damage(connection: Connection, damage_id: int, damage: Damage) -> None:
    """Make a stored damage equal to `damage`."""
    set_row(connection, DamageRecord, damage_id, _values(damage))
    remove_parts(connection, {"damage_id": damage_id}, *_PARTS)
    _add_parts(connection, damage_id, damage)


def add_look(connection: Connection, damage_id: int, number: int, look: Look) -> None:
    """Insert a look with its answers."""
    id = insert_row(
        connection,
        LookRecord,
        damage_id=damage_id,
        number=number,
        taken=look.taken,
        ended_by=str(look.ended_by),
        note=str(look.note),
    )
    insert_parts(connection, LookAnswer, {"look_id": id}, answer_rows(look.answers))


def end_look(connection: Connection, damage_id: int, number: int, ended_by: str) -> None:
    """Keep which act ended a look."""
    looks = table(LookRecord)
    here = looks.c.damage_id == damage_id, looks.c.number == number
    connection.execute(update(looks).where(*here).values(ended_by=str(ended_by)))


def answer_rows(answers: Answers) -> list[dict[str, str]]:
    """Give the rows of answers."""
    return [{"question": str(question), "value": json_text(answer)} for question, answer in answers.items()]


def set_answer(
    connection: Connection,
    model: type[SQLModel],
    whole: Mapping[str, int],
    question: str,
    answer: Answer | None,
) -> None:
    """Keep one answer of a look or of the intake, in place of the one before; None takes it away."""
    kept = table(model)
    here = [kept.c[name] == id for name, id in whole.items()] + [kept.c.question == str(question)]
    if answer is None:
        connection.execute(delete(kept).where(*here))
    elif not connection.execute(update(kept).where(*here).values(value=json_text(answer))).rowcount:
        connection.execute(insert(kept).values(**whole, question=str(question), value=json_text(answer)))


def set_choice(connection: Connection, damage_id: int, choice: Choice | None) -> None:
    """Keep what was decided, or that nothing is decided any more."""
    set_row(connection, DamageRecord, damage_id, _choice_values(choice))


def set_figures(connection: Connection, damage_id: int, figures: tuple[FiguresUsed, ...]) -> None:
    """Keep the worksheets used, in place of those before."""
    remove_parts(connection, {"damage_id": damage_id}, FiguresRecord)
    rows = [
        {
            "worksheet": str(used.worksheet),
            "inputs": json_text(dict(used.inputs)),
            "result": perhaps_json(used.result),
        }
        for used in figures
    ]
    insert_parts(connection, FiguresRecord, {"damage_id": damage_id}, rows)


def set_work(connection: Connection, damage_id: int, damage: Damage) -> None:
    """Keep the work as `damage` tells it: steps, sizes, departures, readings, what was done and learned."""
    remove_parts(connection, {"damage_id": damage_id}, *_WORK)
    set_row(connection, DamageRecord, damage_id, _work_values(damage))
    _add_work(connection, damage_id, damage)


def add_followup(connection: Connection, damage_id: int, followup: FollowUp) -> None:
    """Insert a follow-up after those that are kept."""
    insert_row(connection, FollowUpRecord, damage_id=damage_id, **row_values(followup))


def _add_parts(connection: Connection, damage_id: int, damage: Damage) -> None:
    for number, look in enumerate(damage.looks, 1):
        add_look(connection, damage_id, number, look)
    set_figures(connection, damage_id, damage.figures)
    _add_work(connection, damage_id, damage)
    insert_flat(connection, ConsentRecord, {"damage_id": damage_id}, damage.consents)
    for followup in damage.followups:
        add_followup(connection, damage_id, followup)


def _add_work(connection: Connection, damage_id: int, damage: Damage) -> None:
    whole = {"damage_id": damage_id}
    insert_flat(connection, StepRecord, whole, damage.steps)
    insert_flat(connection, MeasuredRecord, whole, damage.measured)
    insert_flat(connection, DepartureRecord, whole, damage.departures)
    insert_flat(connection, BeforeAfterRecord, whole, damage.before_after)


def _values(damage: Damage) -> dict[str, Any]:
    return {
        "family": str(damage.family),
        "place": str(damage.place),
        "story": str(damage.story),
        "urgency": str(damage.urgency),
        **_choice_values(damage.choice),
        **_work_values(damage),
    }


def _choice_values(choice: Choice | None) -> dict[str, Any]:
    if choice is None:
        return {"chosen": None, "chosen_on": None, "reason": "", "advice": None}
    return {
        "chosen": str(choice.strategy),
        "chosen_on": choice.on,
        "reason": str(choice.reason),
        "advice": perhaps_json(choice.advice),
    }


def _work_values(damage: Damage) -> dict[str, Any]:
    return {
        "done": str(damage.done),
        "hours": damage.hours,
        "repaired_on": damage.repaired_on,
        "learned": str(damage.learned),
    }
