"""Where a migration meets the database: on the connection it is handed, in one transaction."""

from __future__ import annotations

from alembic import context

from casebook.records import workshop_tables  # noqa: F401  its tables belong to METADATA
from casebook.records.tables import METADATA


def _ours(_object: object, name: str | None, kind: str, _reflected: bool, _compared: object) -> bool:
    """Leave the full-text index and its shadow tables out of comparisons: they have no model."""
    return not (kind == "table" and (name or "").startswith("search_index"))


context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=METADATA,
    include_object=_ours,
    transactional_ddl=True,
)
with context.begin_transaction():
    context.run_migrations()
