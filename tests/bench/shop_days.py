"""A shop whose days are set by the test: the same book, looked at on another day and hour."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime
from pathlib import Path

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.records.book import Book

LIBRARY = Library()


class Days:
    """Gives the desk of one book on any day."""

    def __init__(self, book: Book) -> None:
        self.book = book

    def on(self, day: str, at: str = "12:00", accepted: Iterable[str] = ()) -> Desk:
        """Give the desk on a day (``2026-02-03``) at an hour."""
        moment = datetime.fromisoformat(f"{day}T{at}")
        return Desk(
            self.book, LIBRARY, date.fromisoformat(day), clock=lambda: moment, accepted=frozenset(accepted)
        )


def opened(folder: Path) -> Days:
    """Open an empty book in a folder."""
    return Days(Book.open(folder / "book.db"))
