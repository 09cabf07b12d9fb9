"""Bringing a book up to date: what revision it is, a copy before anything changes, the missing migrations."""

from __future__ import annotations

import os
import re
import sqlite3
from importlib.resources import files
from pathlib import Path

from sqlalchemy import Connection, Engine, text

from casebook.records.engine import PATIENCE, looked_into, make_file, told_plainly, writer
from casebook.records.errors import StorageError
from casebook.records.place import shown

SCRIPTS = "casebook.records:migrations"
_REVISION_FILE = re.compile(r"r(\d{4})_\w+\.py")
# Any number will do, as long as every casebook locks the same one while it migrates a shared book.
_MIGRATION_LOCK = 0x63617365


def revisions() -> list[str]:
    """List the revisions this program knows, in order, from the names of their files."""
    names = (entry.name for entry in (files("casebook.records") / "migrations" / "versions").iterdir())
    return sorted(found[1] for name in names if (found := _REVISION_FILE.fullmatch(name)))


def ready_file(path: Path, *, create: bool, patience: float = PATIENCE) -> bool:
    """See that `path` holds a book this program may open, and give whether it needs migrations.

    A file that is not there is made, when `create` is given. One that holds a book of an older revision is
    copied first. Nothing else is touched.

    Raises:
        StorageError: no book, another program's database, or a book from a newer revision.
    """
    known = revisions()
    with told_plainly(path):
        if not path.exists() and not create:
            raise StorageError(f"there is no book at {path}: look at the path, or record a case to begin one")
        if make_file(path):
            return True
    tables, revision = looked_into(path, patience)
    if not tables:
        return True
    if revision is None:
        raise StorageError(f"{path} is a database of something else: choose another file")
    _refuse_newer(revision, known, str(path))
    if revision != known[-1]:
        _copy_before(path, revision)
        return True
    return False


def ready_shared(engine: Engine, url: str) -> bool:
    """See that the shared book is one this program may open, and give whether it needs migrations.

    Raises:
        StorageError: the server is not reached, or the book is from a newer revision.
    """
    known = revisions()
    with told_plainly(url), engine.connect() as connection:
        revision = _stored_revision(connection)
    if revision is not None:
        _refuse_newer(revision, known, shown(url))
    return revision != known[-1]


def migrate(engine: Engine, place: str | Path) -> None:
    """Run the missing migrations in one transaction: all of them, or none.

    Raises:
        StorageError: a migration failed, or left rows that point to nothing; the book is as it was.
    """
    # Only here: this import is slow, and nearly every opening finds nothing to do.
    from alembic import command
    from alembic.config import Config
    from alembic.util import CommandError

    config = Config()
    config.set_main_option("path_separator", "os")
    config.set_main_option("script_location", SCRIPTS)
    with told_plainly(place), writer(engine).connect() as connection:
        sqlite = connection.dialect.name == "sqlite"
        if sqlite:
            # Outside of any transaction, where alone it takes; on the driver's connection, which begins none.
            _driver(connection).execute("PRAGMA foreign_keys = OFF")
        try:
            with connection.begin():
                if not sqlite:
                    connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": _MIGRATION_LOCK})
                config.attributes["connection"] = connection
                command.upgrade(config, "head")
                if sqlite and connection.exec_driver_sql("PRAGMA foreign_key_check").first():
                    raise StorageError(f"{shown(place)}: bringing it up to date failed; it is as it was")
        except CommandError as error:
            raise StorageError(f"{shown(place)}: bringing it up to date failed ({error})") from None
        finally:
            if sqlite:
                _driver(connection).execute("PRAGMA foreign_keys = ON")


def _driver(connection: Connection) -> sqlite3.Connection:
    inner = connection.connection.driver_connection
    assert isinstance(inner, sqlite3.Connection)
    return inner


def _stored_revision(connection: Connection) -> str | None:
    if not connection.dialect.has_table(connection, "alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar()


def _refuse_newer(revision: str, known: list[str], place: str) -> None:
    if revision not in known:
        raise StorageError(
            f"{place} was made by a newer casebook (revision {revision}, this one knows up to {known[-1]}): "
            "install that version; nothing was changed"
        )


def _copy_before(path: Path, revision: str) -> None:
    """Copy the book beside itself, as one consistent file, before its first change."""
    tries = 1
    while True:
        copy = path.with_name(f"{path.name}.revision-{revision}{f'-{tries}' if tries > 1 else ''}")
        if make_file(copy):
            break
        tries += 1
    with told_plainly(copy):
        source, target = sqlite3.connect(path), sqlite3.connect(copy)
        try:
            source.backup(target)
        finally:
            source.close()
            target.close()
        with copy.open("rb") as written:
            os.fsync(written.fileno())
