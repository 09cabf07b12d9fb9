"""A book of cases: opened at a place, then one short transaction for each thing that is asked of it.

Values go in and come out; nothing of the database is handed out. What a method has returned from is stored
for good, and the search text of a case is written in the same transaction as the case.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any, Self

from sqlalchemy import Connection, func, insert, select

from casebook.records import case_rows, damage_rows
from casebook.records.case import (
    Answer,
    Answers,
    Case,
    CaseRow,
    Choice,
    Damage,
    FiguresUsed,
    FollowUp,
    InstrumentRow,
    Look,
)
from casebook.records.check import check, check_answers
from casebook.records.engine import PATIENCE, file_engine, shared_engine
from casebook.records.errors import NoSuchCase
from casebook.records.place import shared_url, shown
from casebook.records.reading import instrument_rows, light_rows, load
from casebook.records.tables import (
    CaseRecord,
    DamageRecord,
    InstrumentRecord,
    IntakeAnswer,
    LookAnswer,
    LookRecord,
    PackRecord,
    table,
)
from casebook.records.transactions import Transactions
from casebook.records.upgrade import migrate, ready_file, ready_shared

_CASES, _DAMAGES, _LOOKS, _PACKS, _THINGS = (
    table(model) for model in (CaseRecord, DamageRecord, LookRecord, PackRecord, InstrumentRecord)
)


# The fields of a damage that tell of the work.
WORK = frozenset(
    ("steps", "measured", "departures", "before_after", "done", "hours", "repaired_on", "learned")
)


class Book(Transactions):
    """A book of cases. Make one with `Book.open`; it may be used from several threads.

    Every method raises `StorageError` when the book cannot be read or written, `NoSuchCase` for a case,
    damage or look that is not there, and `BadCase` for values that cannot be kept; then nothing has changed.
    """

    @classmethod
    def open(cls, place: str | Path, *, create: bool = True, patience: float = PATIENCE) -> Self:
        """Open a book and bring it up to date.

        Args:
            place: the file of the book, or a ``postgresql+psycopg://`` URL.
            create: whether a file that is not there is made, readable by its owner only.
            patience: seconds to wait for another program's write.

        Raises:
            StorageError: no book, no right to it, another program's file, or a book of a newer program,
                which is left as it is.
        """
        url = shared_url(place)
        if url is not None:
            engine = shared_engine(url)
            behind = ready_shared(engine, url)
        else:
            path = Path(place).expanduser()
            behind = ready_file(path, create=create, patience=patience)
            engine = file_engine(path, patience)
        if behind:
            migrate(engine, place)
        return cls(engine, shown(place))

    # -- whole cases -----------------------------------------------------------------------------------

    def add(self, case: Case) -> Case:
        """Store a new case and give it back with its number, uid and damage numbers.

        Raises:
            NumberTaken: its number or uid belongs to another case, or did.
        """
        check(case)
        with self.writing() as connection:
            return case_rows.index(connection, case_rows.add_case(connection, case))

    def update(self, case: Case) -> Case:
        """Make the stored case of that number equal to `case`; the uid stays.

        A case that came from this book is only changed if nobody changed it since; one from a file
        (``version`` None) replaces what is there. Damages are matched by number.

        Raises:
            ChangedElsewhere: it was changed since it was read.
        """
        check(case)
        with self.writing() as connection:
            id, _ = case_rows.touch(connection, case.number, case.version)
            case_rows.set_case(connection, id, case)
            return case_rows.index(connection, id)

    def change(self, number: str, change: Callable[[Case], Case]) -> Case:
        """Change a case by what `change` makes of it, in one transaction: nobody's edit comes in between.

        Number, uid and version stay. What `change` raises is raised, and nothing has changed.
        """
        with self.writing() as connection:
            id, _ = case_rows.touch(connection, number)
            [case] = load(connection, [id])
            changed = replace(change(case), number=case.number, uid=case.uid, version=case.version)
            check(changed)
            case_rows.set_case(connection, id, changed)
            return case_rows.index(connection, id)

    def remove(self, number: str) -> None:
        """Remove a case for good; its number is never given again."""
        with self.writing() as connection:
            case_rows.remove_case(connection, case_rows.touch(connection, number)[0])

    def finish(self, number: str, finished: bool = True) -> int:
        """Close a case, or open it again; gives its new version."""
        with self.changing(number) as (connection, id, version):
            case_rows.set_finished(connection, id, finished)
            return version

    def case(self, number: str) -> Case:
        """Give a case, whole; capital and small letters of the number are the same."""
        with self.reading() as connection:
            id = connection.scalar(
                select(_CASES.c.id).where(_CASES.c.number_key == case_rows.number_key(number))
            )
            for case in load(connection, [] if id is None else [id]):
                return case
        raise NoSuchCase(f"there is no case {number} in this book")

    def cases(self, limit: int = 200, *, finished: bool | None = None) -> list[CaseRow]:
        """List cases in short, the latest taken in first."""
        with self.reading() as connection:
            return light_rows(connection, limit, finished)

    def every_case(self, *, family: str | None = None, finished: bool | None = None) -> Iterator[Case]:
        """Give all cases, whole, in the order they were stored; or those with a damage of one family.

        Args:
            family: leaves out cases without a damage of that family.
            finished: leaves out those that are finished (False), or are not (True).
        """
        with self.reading() as connection:
            wanted = select(_CASES.c.id).order_by(_CASES.c.id)
            if finished is not None:
                wanted = wanted.where(_CASES.c.finished == finished)
            if family is not None:
                wanted = wanted.where(
                    _CASES.c.id.in_(select(_DAMAGES.c.case_id).where(_DAMAGES.c.family == family))
                )
            yield from load(connection, connection.scalars(wanted).all())

    def instruments(self) -> list[InstrumentRow]:
        """List every instrument that was here, the one that came in last first."""
        with self.reading() as connection:
            return instrument_rows(connection)

    def visits(self, instrument_uid: str) -> list[Case]:
        """Give the cases of one instrument, whole, the earliest taken in first, those without a day last."""
        with self.reading() as connection:
            wanted = select(_CASES.c.id).join(_THINGS, _CASES.c.instrument_id == _THINGS.c.id)
            wanted = wanted.where(_THINGS.c.uid == instrument_uid)
            wanted = wanted.order_by(_CASES.c.taken_in.is_(None), _CASES.c.taken_in, _CASES.c.id)
            return list(load(connection, connection.scalars(wanted).all()))

    def repaired_since(self, day: date) -> list[Case]:
        """Give the cases with a damage repaired on `day` or later, whole, in the order they were stored."""
        with self.reading() as connection:
            wanted = select(_DAMAGES.c.case_id).where(_DAMAGES.c.repaired_on >= day).distinct()
            return list(load(connection, sorted(connection.scalars(wanted))))

    def count(self, *, finished: bool | None = None) -> int:
        """Count the cases."""
        wanted = select(func.count()).select_from(_CASES)
        if finished is not None:
            wanted = wanted.where(_CASES.c.finished == finished)
        with self.reading() as connection:
            return connection.execute(wanted).scalar_one()

    def number_of(self, uid: str) -> str | None:
        """Give the number of the case with that uid, or None."""
        with self.reading() as connection:
            number: str | None = connection.scalar(select(_CASES.c.number).where(_CASES.c.uid == uid))
            return number

    # -- one thing at a time ---------------------------------------------------------------------------

    def save_intake_answer(self, number: str, question: str, answer: Answer | None) -> int:
        """Keep one intake answer as typed, None takes it away; gives the case's new version."""
        _answerable(question, answer)
        with self.changing(number) as (connection, id, version):
            damage_rows.set_answer(connection, IntakeAnswer, {"case_id": id}, question, answer)
            return version

    def save_answer(self, number: str, damage: int, look: int, question: str, answer: Answer | None) -> int:
        """Keep one answer of a look (1, 2, ...) as typed, None takes it away; gives the new version."""
        _answerable(question, answer)
        with self.changing(number) as (connection, id, version):
            damage_id = _damage_id(connection, number, id, damage)
            here = _LOOKS.c.damage_id == damage_id, _LOOKS.c.number == look
            look_id = connection.scalar(select(_LOOKS.c.id).where(*here))
            if look_id is None:
                raise NoSuchCase(f"case {number}, damage {damage} has no look {look}")
            damage_rows.set_answer(connection, LookAnswer, {"look_id": look_id}, question, answer)
            return version

    def add_damage(self, number: str, damage: Damage) -> int:
        """Add a damage to a case and give its number."""
        damage = replace(damage, number=0)
        check(Case(damages=(damage,)))
        with self.changing(number) as (connection, id, _):
            return damage_rows.add_damage(connection, id, damage)

    def new_look(
        self,
        number: str,
        damage: int,
        *,
        ended_by: str,
        taken: date | None = None,
        note: str = "",
        answers: Answers | None = None,
    ) -> int:
        """End the present look by an act, begin the next with what is still true, and give its number.

        Args:
            number: the case.
            damage: the damage's number.
            ended_by: the act that ended the present look.
            taken: the day of the new look.
            note: a note to the new look.
            answers: what is still true.
        """
        look = Look(answers or {}, taken, "", note)
        check(Case(damages=(Damage("any", looks=(look, Look(ended_by=ended_by))),)))
        with self.changing(number) as (connection, id, _):
            damage_id = _damage_id(connection, number, id, damage)
            here = _LOOKS.c.damage_id == damage_id
            last = connection.execute(select(func.max(_LOOKS.c.number)).where(here)).scalar_one()
            damage_rows.end_look(connection, damage_id, last, ended_by)
            damage_rows.add_look(connection, damage_id, last + 1, look)
            return int(last) + 1

    def choose(
        self, number: str, damage: int, choice: Choice | None, figures: tuple[FiguresUsed, ...] | None = None
    ) -> int:
        """Keep what was decided with the advice as it stood; None takes a decision back.

        Args:
            number: the case.
            damage: the damage's number.
            choice: what was decided.
            figures: the worksheets it rests on, in place of those before; None leaves them.

        Returns:
            The case's new version.
        """
        check(Case(damages=(Damage("any", choice=choice, figures=figures or ()),)))
        with self.changing(number) as (connection, id, version):
            damage_id = _damage_id(connection, number, id, damage)
            damage_rows.set_choice(connection, damage_id, choice)
            if figures is not None:
                damage_rows.set_figures(connection, damage_id, figures)
            return version

    def record_work(self, number: str, damage: int, **work: Any) -> int:
        """Keep the work on a damage; what is not named stays as it is.

        Args:
            number: the case.
            damage: the damage's number.
            work: any of `WORK`, as in `Damage`.

        Returns:
            The case's new version.
        """
        unknown = work.keys() - WORK
        if unknown:
            raise TypeError(f"no part of the work: {', '.join(sorted(unknown))}")
        with self.changing(number) as (connection, id, version):
            [case] = load(connection, [id])
            damage_id = _damage_id(connection, number, id, damage)
            worked = replace(case.damage(damage), **work)
            check(Case(damages=(worked,)))
            damage_rows.set_work(connection, damage_id, worked)
            return version

    def follow_up(self, number: str, damage: int, followup: FollowUp) -> int:
        """Keep that a repair was looked at again; gives the case's new version."""
        check(Case(damages=(Damage("any", followups=(followup,)),)))
        with self.changing(number) as (connection, id, version):
            damage_rows.add_followup(connection, _damage_id(connection, number, id, damage), followup)
            return version

    # -- rule packs ------------------------------------------------------------------------------------

    def keep_pack(self, digest: str, id: str, version: str, text: str) -> None:
        """Keep the text of a rule pack, once, so that what it advised can be shown again."""
        with self.writing() as connection:
            if connection.scalar(select(_PACKS.c.digest).where(_PACKS.c.digest == digest)) is None:
                kept: Mapping[str, str] = {"digest": digest, "pack": id, "version": version, "text": text}
                connection.execute(insert(_PACKS).values(**kept))

    def pack_text(self, digest: str) -> str | None:
        """Give the text of a rule pack as it was, or None when it was never kept."""
        with self.reading() as connection:
            text: str | None = connection.scalar(select(_PACKS.c.text).where(_PACKS.c.digest == digest))
            return text


def _damage_id(connection: Connection, number: str, case_id: int, damage: int) -> int:
    here = _DAMAGES.c.case_id == case_id, _DAMAGES.c.number == damage
    id: int | None = connection.scalar(select(_DAMAGES.c.id).where(*here))
    if id is None:
        raise NoSuchCase(f"case {number} has no damage {damage}")
    return id


def _answerable(question: str, answer: Answer | None) -> None:
    check_answers({question: "" if answer is None else answer}, "answers")
