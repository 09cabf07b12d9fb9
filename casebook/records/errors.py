"""What can go wrong with a book, each in one line that says what to do."""

from __future__ import annotations


class StorageError(Exception):
    """The book cannot be opened, read or written; the message is one line and nothing was half written."""


class ChangedElsewhere(StorageError):
    """Somebody else changed the case since it was read; nothing was written."""

    def __init__(self, number: str) -> None:
        super().__init__(
            f"case {number} was changed by someone else in between: open it again, then change it"
        )
        self.number = number


class NumberTaken(StorageError):
    """The number belongs, or belonged, to another case."""


class NoSuchCase(LookupError):
    """The book holds no case, damage or look of that number."""
