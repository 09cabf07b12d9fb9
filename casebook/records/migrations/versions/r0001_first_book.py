"""The first book: cases with their damages, looks and answers, and the text they are found by."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

_METADATA = sa.MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def _id() -> sa.Column[Any]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _key(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.String, primary_key=True)


def _texts(*names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.String, nullable=False) for name in names]


def _days(*names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Date, nullable=True) for name in names]


def _counts(*names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Integer, nullable=False) for name in names]


def _flags(*names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Boolean, nullable=False) for name in names]


def _instants(*names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.DateTime(timezone=True), nullable=False) for name in names]


def _perhaps(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.String, nullable=True)


def _hours() -> list[Any]:
    return [
        sa.Column("hours", sa.Float, nullable=True),
        sa.CheckConstraint("hours >= 0", "hours_not_negative"),
    ]


def _part_of(table: str, column: str, **options: Any) -> sa.Column[Any]:
    whole = sa.ForeignKey(f"{table}.id", ondelete="CASCADE")
    return sa.Column(column, sa.Integer, whole, nullable=False, **options)


def _table(name: str, *parts: Any, **options: Any) -> None:
    flat = [one for part in parts for one in (part if isinstance(part, list) else [part])]
    sa.Table(name, _METADATA, *flat, **options)


_table(
    "owners", _id(), _texts("uid", "reference"), sa.UniqueConstraint("uid"), sa.UniqueConstraint("reference")
)
_table(
    "instruments",
    _id(),
    _texts("uid", "kind", "description", "materials", "marks"),
    sa.UniqueConstraint("uid"),
)
_table("issued_numbers", _key("key"), _texts("uid"))
_table("counters", _key("name"), _counts("value"), sa.CheckConstraint("value >= 0", "not_negative"))
_table(
    "cases",
    _id(),
    _texts("uid", "number"),
    sa.Column("number_key", sa.String, sa.ForeignKey("issued_numbers.key"), nullable=False),
    _texts("title"),
    _days("taken_in"),
    sa.Column("instrument_id", sa.Integer, sa.ForeignKey("instruments.id"), nullable=False, index=True),
    sa.Column("owner_id", sa.Integer, sa.ForeignKey("owners.id"), nullable=True, index=True),
    _texts("owner_words"),
    _flags("finished"),
    _counts("damages_made", "version"),
    _instants("added_at", "changed_at"),
    sa.UniqueConstraint("uid"),
    sa.UniqueConstraint("number_key"),
    sa.CheckConstraint("version >= 1", "version_counts"),
    sa.CheckConstraint("damages_made >= 0", "damages_made_counts"),
    sa.CheckConstraint("number <> ''", "number_given"),
    sqlite_autoincrement=True,
)
_table(
    "intake_answers",
    _id(),
    _part_of("cases", "case_id"),
    _texts("question", "value"),
    sa.UniqueConstraint("case_id", "question"),
)
_table(
    "damages",
    _id(),
    _part_of("cases", "case_id"),
    _counts("number"),
    sa.Column("family", sa.String, nullable=False, index=True),
    _texts("place", "story"),
    _perhaps("chosen"),
    _days("chosen_on"),
    _texts("reason"),
    _perhaps("advice"),
    _texts("done"),
    _hours(),
    _days("repaired_on"),
    _texts("learned"),
    sa.UniqueConstraint("case_id", "number"),
    sa.CheckConstraint("number >= 1", "number_counts"),
    sa.CheckConstraint("family <> ''", "family_given"),
    sa.CheckConstraint("chosen <> ''", "chosen_names_one"),
)
_table(
    "looks",
    _id(),
    _part_of("damages", "damage_id"),
    _counts("number"),
    _days("taken"),
    _texts("ended_by", "note"),
    sa.UniqueConstraint("damage_id", "number"),
    sa.CheckConstraint("number >= 1", "number_counts"),
)
_table(
    "answers",
    _id(),
    _part_of("looks", "look_id"),
    _texts("question", "value"),
    sa.UniqueConstraint("look_id", "question"),
)
_table(
    "figures_used",
    _id(),
    _part_of("damages", "damage_id", index=True),
    _texts("worksheet", "inputs"),
    _perhaps("result"),
)
_table(
    "steps_done",
    _id(),
    _part_of("damages", "damage_id", index=True),
    _texts("text"),
    _days("done_on"),
    _texts("by"),
    _hours(),
    _texts("note"),
)
_table("sizes_made", _id(), _part_of("damages", "damage_id", index=True), _texts("what", "value", "note"))
_table(
    "follow_ups",
    _id(),
    _part_of("damages", "damage_id", index=True),
    _texts("held"),
    _days("looked"),
    _texts("cause"),
    _flags("by_phone"),
    _texts("note"),
    sa.CheckConstraint("held IN ('yes', 'no', 'not_known')", "held_is_known"),
)
_table("packs", _key("digest"), _texts("pack", "version", "text"))
_table(
    "search_texts",
    _part_of("cases", "case_id", primary_key=True, autoincrement=False),
    _texts("head", "body", "codes", "measures"),
)

# The index holds no text of its own; the triggers keep it in step with every way a row can change.
_FULL_TEXT = (
    """CREATE VIRTUAL TABLE search_index USING fts5(
        head, body, codes, measures, content='search_texts', content_rowid='case_id',
        tokenize='unicode61 remove_diacritics 2')""",
    "CREATE VIRTUAL TABLE search_index_words USING fts5vocab('search_index', 'row')",
    """CREATE TRIGGER search_texts_added AFTER INSERT ON search_texts BEGIN
        INSERT INTO search_index(rowid, head, body, codes, measures)
        VALUES (new.case_id, new.head, new.body, new.codes, new.measures); END""",
    """CREATE TRIGGER search_texts_removed AFTER DELETE ON search_texts BEGIN
        INSERT INTO search_index(search_index, rowid, head, body, codes, measures)
        VALUES ('delete', old.case_id, old.head, old.body, old.codes, old.measures); END""",
    """CREATE TRIGGER search_texts_changed AFTER UPDATE ON search_texts BEGIN
        INSERT INTO search_index(search_index, rowid, head, body, codes, measures)
        VALUES ('delete', old.case_id, old.head, old.body, old.codes, old.measures);
        INSERT INTO search_index(rowid, head, body, codes, measures)
        VALUES (new.case_id, new.head, new.body, new.codes, new.measures); END""",
)


def upgrade() -> None:
    """Make the tables, and on SQLite the full-text index with its triggers."""
    connection = op.get_bind()
    _METADATA.create_all(connection, checkfirst=False)
    connection.execute(sa.insert(_METADATA.tables["counters"]).values(name="case numbers", value=0))
    if connection.dialect.name == "sqlite":
        for statement in _FULL_TEXT:
            connection.exec_driver_sql(statement)
