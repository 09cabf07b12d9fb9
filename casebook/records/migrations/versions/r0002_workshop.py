"""The workshop around the damage: the visit, waits, readings of wood, consents, kinds of outcome."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def _added_texts(table: str, *names: str) -> None:
    # Rows that are there already need a value at once, so these columns keep a default.
    for name in names:
        op.add_column(table, sa.Column(name, sa.String, nullable=False, server_default=""))


def _added(table: str, kind: type[Any], *names: str) -> None:
    for name in names:
        op.add_column(table, sa.Column(name, kind, nullable=True))


def _part_table(name: str, whole: str, column: str, *columns: Any) -> None:
    op.create_table(
        name,
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column(column, sa.Integer, nullable=False),
        *columns,
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
        sa.ForeignKeyConstraint(
            [column], [f"{whole}.id"], name=op.f(f"fk_{name}_{column}_{whole}"), ondelete="CASCADE"
        ),
    )
    op.create_index(op.f(f"ix_{name}_{column}"), name, [column])


def _text(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.String, nullable=False)


def _day(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.Date, nullable=True)


def upgrade() -> None:
    """Add the columns and make the tables."""
    _added_texts("cases", "comes_back_from", "pays", "needed_for", "came_in_with", "loaned_out", "paid")
    _added_texts("cases", "paid_how")
    _added("cases", sa.Date, "needed_by", "loaned_since", "loaned_until", "ready_on", "told_on")
    _added("cases", sa.Date, "collected_on", "paid_on")
    _added_texts("follow_ups", "kind", "what")
    _added("follow_ups", sa.Date, "since")
    _added("follow_ups", sa.Float, "redo_hours")
    _part_table(
        "waits",
        "cases",
        "case_id",
        _text("what"),
        _day("since"),
        _day("until"),
        _text("at"),
        _day("ended"),
        sa.Column("damage", sa.Integer, nullable=False),
        _text("note"),
        sa.CheckConstraint(
            "what IN ('owner', 'part', 'wood', 'glue', 'me')", name=op.f("ck_waits_what_is_known")
        ),
    )
    texts = [_text(name) for name in ("part", "weight", "humidity", "widths", "note")]
    _part_table("wood_readings", "cases", "case_id", _day("read_on"), *texts)
    _part_table("dangers_confirmed", "cases", "case_id", _text("caution"), _day("confirmed_on"), _text("by"))
    _part_table(
        "consents",
        "damages",
        "damage_id",
        _text("said"),
        _day("given_on"),
        *(_text(name) for name in ("who", "how", "up_to", "to_what", "pays", "note")),
        sa.CheckConstraint("said IN ('yes', 'no', 'later')", name=op.f("ck_consents_said_is_known")),
    )
    _part_table("departures", "damages", "damage_id", *(_text(name) for name in ("planned", "did", "why")))
    texts = [_text(name) for name in ("what", "before", "after", "note")]
    _part_table("readings_before_after", "damages", "damage_id", *texts)
