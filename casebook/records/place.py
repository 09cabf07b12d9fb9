"""Where a book lies: a file of its own, or a database reached by a URL."""

from __future__ import annotations

import re
from pathlib import Path

from casebook.records.errors import StorageError

_URL = re.compile(r"(?P<scheme>[a-z][a-z0-9+]*)://", re.IGNORECASE)


def default_place() -> Path:
    """Give the file of the book in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("casebook", appauthor=False) / "book.sqlite3"


def shared_url(place: str | Path) -> str | None:
    """Give the URL of a book shared over PostgreSQL, or None where `place` is a file.

    Raises:
        StorageError: a URL of another kind of database.
    """
    found = _URL.match(str(place)) if isinstance(place, str) else None
    if found is None:
        return None
    if found["scheme"].lower() not in ("postgresql", "postgresql+psycopg"):
        raise StorageError(
            f"{found['scheme']}:// is no place for a book: give a file, or postgresql+psycopg://user@host/name"
        )
    return "postgresql+psycopg://" + str(place)[found.end() :]


def shown(place: str | Path) -> str:
    """Give a place as messages may show it: a password is left out."""
    return re.sub(r"(://[^:/@]*):.*@", r"\1:***@", str(place))
