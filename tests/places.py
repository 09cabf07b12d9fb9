"""Places for books in tests: a file always, and PostgreSQL where CASEBOOK_TEST_POSTGRES names a server."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from uuid import uuid4

import pytest
from sqlalchemy import create_engine

from casebook.records.book import Book

SERVER = os.environ.get("CASEBOOK_TEST_POSTGRES", "")


@pytest.fixture(params=["file", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """An empty place, of a kind of its own for every test."""
    if request.param == "file":
        yield str(tmp_path / "books" / "book.sqlite3")
        return
    if not SERVER:
        pytest.skip("CASEBOOK_TEST_POSTGRES names no server")
    schema = f"test_{uuid4().hex}"
    engine = create_engine(SERVER, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.exec_driver_sql(f"CREATE SCHEMA {schema}")
    try:
        yield f"{SERVER}{'&' if '?' in SERVER else '?'}options=-csearch_path%3D{schema}"
    finally:
        with engine.connect() as connection:
            connection.exec_driver_sql(f"DROP SCHEMA {schema} CASCADE")
        engine.dispose()


@pytest.fixture
def book(place: str) -> Iterator[Book]:
    """An empty book."""
    with Book.open(place) as opened:
        yield opened


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A place for a book in a file."""
    return tmp_path / "book.sqlite3"
