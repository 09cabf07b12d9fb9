"""Transactions on a book: reading one state of it, writing all or nothing, changing one case."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from types import TracebackType
from typing import Self

from sqlalchemy import Connection, Engine

from casebook.records.case_rows import index, touch
from casebook.records.engine import reader, told_plainly, writer


class Transactions:
    """An open book's engine and the three kinds of transaction on it; safe to use from several threads."""

    def __init__(self, engine: Engine, place: str) -> None:
        self._engine = engine
        self._reader, self._writer = reader(engine), writer(engine)
        self.place = place

    def close(self) -> None:
        """Let go of the book."""
        self._engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Read in one transaction, which sees one state of the book; for the rooms next door."""
        with told_plainly(self.place), self._reader.connect() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Write in one transaction, which is kept whole when the block ends well, and else not at all."""
        with told_plainly(self.place), self._writer.begin() as connection:
            yield connection

    @contextmanager
    def changing(self, number: str) -> Iterator[tuple[Connection, int, int]]:
        """Hold a case, change it, and bring its search text after: connection, row id, new version."""
        with self.writing() as connection:
            id, now = touch(connection, number)
            yield connection, id, now
            index(connection, id)
