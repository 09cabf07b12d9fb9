"""Where the books of these tests lie."""

from tests.places import book, file, place

__all__ = ["book", "file", "place"]
