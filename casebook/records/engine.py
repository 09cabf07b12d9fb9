"""Connections to a book: what is set on each of them, and how their troubles are told."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL
from sqlalchemy.exc import ArgumentError, DBAPIError, IntegrityError

from casebook.records.errors import StorageError
from casebook.records.place import shown

# Seconds to wait for another program's write before giving up.
PATIENCE = 5.0

_UNREACHED = "cannot be reached: is the server running, and are host, name and password right?"
_TROUBLES = (
    ("locked", "is in use by another program that is writing: try again in a moment"),
    ("readonly", "cannot be written: the file or its folder is read-only"),
    ("full", "cannot be written: the disk is full; nothing was half written"),
    ("disk i/o", "cannot be written: the disk refuses (full or failing); nothing was half written"),
    ("unable to open", "cannot be opened: is the folder there, and may you write in it?"),
    ("not a database", "is no casebook: choose another file"),
    ("malformed", "is damaged: keep the file as it is and bring back the latest backup"),
    ("is encrypted", "is no casebook: choose another file"),
    ("connection", _UNREACHED),
    ("resolve host", _UNREACHED),
    ("password", _UNREACHED),
    ("permission denied", "may not be used so by this role: ask whoever set it up"),
    ("read-only", "cannot be written: it is read-only"),
)


@contextmanager
def told_plainly(place: str | Path) -> Iterator[None]:
    """Turn the database's exceptions into a `StorageError` of one line."""
    try:
        yield
    except IntegrityError as error:
        raise StorageError(
            f"{shown(place)}: refused by the book's own checks ({_first(error.orig)})"
        ) from None
    except (DBAPIError, sqlite3.Error) as error:
        reason = getattr(error, "orig", None) or error
        raise StorageError(f"{shown(place)} {_trouble(reason)}") from None
    except OSError as error:
        raise StorageError(f"{shown(place)} cannot be used: {error.strerror or error}") from None


def _trouble(reason: BaseException) -> str:
    words = str(reason).lower()
    for sign, told in _TROUBLES:
        if sign in words:
            return told
    return f"could not be used ({_first(reason)})"


def _first(reason: BaseException | None) -> str:
    lines = str(reason).strip().splitlines() or [type(reason).__name__]
    return lines[0][:200]


def file_engine(path: Path, patience: float = PATIENCE) -> Engine:
    """Make the engine for a book in a file.

    Write-ahead log with a full flush at every commit, so that what was acknowledged outlives a power cut.
    """
    url = URL.create("sqlite+pysqlite", database=str(path))
    engine = create_engine(url, connect_args={"timeout": patience})

    @event.listens_for(engine, "connect")
    def _set(connection: Any, _record: Any) -> None:
        connection.isolation_level = None  # the transactions are begun below, not by the driver
        for pragma in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
            connection.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        # A transaction that reads first and writes later would fail at once when another writes in between.
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def shared_engine(url: str) -> Engine:
    """Make the engine for a book on PostgreSQL.

    Raises:
        StorageError: the driver is not installed, or the URL cannot be read.
    """
    try:
        return create_engine(url, pool_pre_ping=True, connect_args={"connect_timeout": 10})
    except ModuleNotFoundError:
        raise StorageError(
            "a shared book needs the driver for PostgreSQL: pip install 'casebook[shared]'"
        ) from None
    except (ArgumentError, ValueError):
        raise StorageError(f"{shown(url)} is no readable URL: postgresql+psycopg://user@host/name") from None


def reader(engine: Engine) -> Engine:
    """Give the engine for transactions that only read, and see one state of the book throughout."""
    if engine.dialect.name == "sqlite":
        return engine
    return engine.execution_options(isolation_level="REPEATABLE READ")


def writer(engine: Engine) -> Engine:
    """Give the engine for transactions that write, and so take their place in the queue at once."""
    return engine.execution_options(writes=True)


def make_file(path: Path) -> bool:
    """Make an empty file for a new book that only its owner may read; True when it was not there before."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    except FileExistsError:
        return False
    return True


def looked_into(path: Path, patience: float = PATIENCE) -> tuple[set[str], str | None]:
    """Look into a file without changing it: the names of its tables, and the revision it says it has.

    Raises:
        StorageError: the file is no database or cannot be read.
    """
    with told_plainly(path):
        connection = sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True, timeout=patience)
        try:
            names = {
                name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
            }
            if "alembic_version" not in names:
                return names, None
            row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            return names, row[0] if row else None
        finally:
            connection.close()
