"""The tables of a book. The database checks their rows, because table models check nothing themselves."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

from sqlalchemy import CheckConstraint, DateTime, ForeignKey, MetaData, Table, UniqueConstraint
from sqlalchemy.engine import Dialect
from sqlalchemy.orm import registry
from sqlalchemy.types import TypeDecorator
from sqlmodel import Field, SQLModel

from casebook.records.case import HELD


class UtcInstant(TypeDecorator[datetime]):
    """An instant: aware and in UTC on both sides, whatever the database keeps."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Store UTC; SQLite keeps it without its zone."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("an instant without its zone")
        utc = value.astimezone(UTC)
        return utc if dialect.name == "postgresql" else utc.replace(tzinfo=None)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Give UTC back."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


_registry = registry(
    metadata=MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
)
METADATA = _registry.metadata


def _now() -> datetime:
    return datetime.now(UTC)


def part_of(table: str, *, index: bool = True, primary_key: bool = False) -> Any:
    """Make the column naming the row this one is part of, with which it goes.

    It needs no index of its own where a unique constraint or the primary key begins with it.
    """
    return Field(
        sa_column_args=[ForeignKey(f"{table}.id", ondelete="CASCADE")], index=index, primary_key=primary_key
    )


def added_text() -> Any:
    """Make a text column that a later revision added: rows from before it hold the empty text."""
    return Field(default="", sa_column_kwargs={"server_default": ""})


class Row(SQLModel, registry=_registry):
    """A row of a table of the book."""


class OwnerRecord(Row, table=True):
    """An owner: a reference, apart from the cases."""

    __tablename__ = "owners"
    id: int | None = Field(default=None, primary_key=True)
    uid: str = Field(unique=True)
    reference: str = Field(unique=True)


class InstrumentRecord(Row, table=True):
    """An instrument, known across visits."""

    __tablename__ = "instruments"
    id: int | None = Field(default=None, primary_key=True)
    uid: str = Field(unique=True)
    kind: str = ""
    description: str = ""
    materials: str = ""
    marks: str = ""


class IssuedNumber(Row, table=True):
    """A case number that has been given; it stays when its case is gone. `key` is the number casefolded."""

    __tablename__ = "issued_numbers"
    key: str = Field(primary_key=True)
    uid: str


class Counter(Row, table=True):
    """The last number counted under a name."""

    __tablename__ = "counters"
    __table_args__ = (CheckConstraint("value >= 0", "not_negative"),)
    name: str = Field(primary_key=True)
    value: int = 0


class CaseRecord(Row, table=True):
    """One case; `damages_made` is the highest damage number ever given in it.

    From `comes_back_from` on the columns are the fields of `workshop.Visit`.
    """

    __tablename__ = "cases"
    __table_args__ = (
        CheckConstraint("version >= 1", "version_counts"),
        CheckConstraint("damages_made >= 0", "damages_made_counts"),
        CheckConstraint("number <> ''", "number_given"),
        # A row id is not used again, so that nothing kept about a removed case is taken for another's.
        {"sqlite_autoincrement": True},
    )
    id: int | None = Field(default=None, primary_key=True)
    uid: str = Field(unique=True)
    number: str
    number_key: str = Field(unique=True, foreign_key="issued_numbers.key")
    title: str = ""
    taken_in: date | None = None
    instrument_id: int = Field(foreign_key="instruments.id", index=True)
    owner_id: int | None = Field(default=None, foreign_key="owners.id", index=True)
    owner_words: str = ""
    finished: bool = False
    damages_made: int = 0
    version: int = 1
    added_at: datetime = Field(default_factory=_now, sa_type=UtcInstant)
    changed_at: datetime = Field(default_factory=_now, sa_type=UtcInstant)
    comes_back_from: str = added_text()
    pays: str = added_text()
    needed_by: date | None = None
    needed_for: str = added_text()
    came_in_with: str = added_text()
    loaned_out: str = added_text()
    loaned_since: date | None = None
    loaned_until: date | None = None
    ready_on: date | None = None
    told_on: date | None = None
    collected_on: date | None = None
    paid: str = added_text()
    paid_how: str = added_text()
    paid_on: date | None = None
    materials_price: str = added_text()


class IntakeAnswer(Row, table=True):
    """An answer about the instrument as a whole; `value` is the JSON text of what was typed."""

    __tablename__ = "intake_answers"
    __table_args__ = (UniqueConstraint("case_id", "question"),)
    id: int | None = Field(default=None, primary_key=True)
    case_id: int = part_of("cases", index=False)
    question: str
    value: str


class DamageRecord(Row, table=True):
    """One damage with what was decided, done and learned; `advice` is JSON text."""

    __tablename__ = "damages"
    __table_args__ = (
        UniqueConstraint("case_id", "number"),
        CheckConstraint("number >= 1", "number_counts"),
        CheckConstraint("family <> ''", "family_given"),
        CheckConstraint("hours >= 0", "hours_not_negative"),
        CheckConstraint("chosen <> ''", "chosen_names_one"),
    )
    id: int | None = Field(default=None, primary_key=True)
    case_id: int = part_of("cases", index=False)
    number: int
    family: str = Field(index=True)
    place: str = ""
    story: str = ""
    chosen: str | None = None
    chosen_on: date | None = None
    reason: str = ""
    advice: str | None = None
    done: str = ""
    hours: float | None = None
    repaired_on: date | None = None
    learned: str = ""
    urgency: str = added_text()


class LookRecord(Row, table=True):
    """One look at a damage."""

    __tablename__ = "looks"
    __table_args__ = (
        UniqueConstraint("damage_id", "number"),
        CheckConstraint("number >= 1", "number_counts"),
    )
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages", index=False)
    number: int
    taken: date | None = None
    ended_by: str = ""
    note: str = ""


class LookAnswer(Row, table=True):
    """One answer of a look; `value` is the JSON text of what was typed."""

    __tablename__ = "answers"
    __table_args__ = (UniqueConstraint("look_id", "question"),)
    id: int | None = Field(default=None, primary_key=True)
    look_id: int = part_of("looks", index=False)
    question: str
    value: str


class FiguresRecord(Row, table=True):
    """A worksheet as used; `inputs` and `result` are JSON text."""

    __tablename__ = "figures_used"
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages")
    worksheet: str
    inputs: str = "{}"
    result: str | None = None


class StepRecord(Row, table=True):
    """A step of the work."""

    __tablename__ = "steps_done"
    __table_args__ = (CheckConstraint("hours >= 0", "hours_not_negative"),)
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages")
    text: str
    done_on: date | None = None
    by: str = ""
    hours: float | None = None
    note: str = ""


class MeasuredRecord(Row, table=True):
    """A size as made, as typed."""

    __tablename__ = "sizes_made"
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages")
    what: str
    value: str
    note: str = ""


class FollowUpRecord(Row, table=True):
    """A repair looked at again."""

    __tablename__ = "follow_ups"
    __table_args__ = (CheckConstraint(f"held IN {HELD}", "held_is_known"),)
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages")
    held: str
    looked: date | None = None
    cause: str = ""
    by_phone: bool = False
    note: str = ""
    kind: str = added_text()
    what: str = added_text()
    since: date | None = None
    redo_hours: float | None = None


class PackRecord(Row, table=True):
    """A rule pack as it was, by the digest of its text."""

    __tablename__ = "packs"
    digest: str = Field(primary_key=True)
    pack: str
    version: str
    text: str


class SearchText(Row, table=True):
    """What a case is found by, made from the case in the case's own transaction."""

    __tablename__ = "search_texts"
    case_id: int = part_of("cases", index=False, primary_key=True)
    head: str = ""
    body: str = ""
    codes: str = ""
    measures: str = ""


def table(model: type[SQLModel]) -> Table:
    """Give the table of a model, for statements on rows instead of objects."""
    return METADATA.tables[str(model.__tablename__)]
