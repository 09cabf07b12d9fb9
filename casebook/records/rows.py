"""Statements on rows that everything written to a book is made of."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, delete, insert, update
from sqlmodel import SQLModel

from casebook.records.flat import row_values
from casebook.records.tables import table


def insert_row(connection: Connection, model: type[SQLModel], **values: Any) -> int:
    """Insert a row and give its id."""
    target = table(model)
    made = connection.execute(insert(target).values(**values).returning(target.c.id))
    return int(made.scalar_one())


def insert_parts(
    connection: Connection, model: type[SQLModel], whole: Mapping[str, int], rows: Sequence[Mapping[str, Any]]
) -> None:
    """Insert rows that are part of the row named by `whole` (its column and id)."""
    if rows:
        connection.execute(insert(table(model)), [{**whole, **row} for row in rows])


def insert_flat(
    connection: Connection, model: type[SQLModel], whole: Mapping[str, int], values: Sequence[Any]
) -> None:
    """Insert flat values that are part of the row named by `whole`."""
    insert_parts(connection, model, whole, [row_values(value) for value in values])


def set_row(connection: Connection, model: type[SQLModel], id: int, values: Mapping[str, Any]) -> None:
    """Set values of the row with this id."""
    target = table(model)
    connection.execute(update(target).where(target.c.id == id).values(**values))


def remove_parts(connection: Connection, whole: Mapping[str, int], *models: type[SQLModel]) -> None:
    """Remove all rows that are part of the row named by `whole`."""
    for model in models:
        target = table(model)
        connection.execute(delete(target).where(*(target.c[name] == id for name, id in whole.items())))


def json_text(value: Any) -> str:
    """Give the JSON text of a value, letters as they are."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def perhaps_json(value: Any) -> str | None:
    """Give the JSON text of a value, and nothing for None."""
    return None if value is None else json_text(value)
