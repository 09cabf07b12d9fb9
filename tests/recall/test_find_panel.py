"""The case somebody remembers comes first, over the demo cases and a panel of searches written by hand."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from casebook.recall.find import find
from casebook.records.book import Book
from casebook.records.case_file import read
from casebook.resources import folder, yaml_files
from casebook.strict_yaml import Sequence, parse

_FILE = Path(__file__).with_name("panel.yaml")


def _panel() -> list[tuple[str, str]]:
    node = parse(_FILE.read_text(encoding="utf-8"), _FILE.name)
    assert isinstance(node, Sequence)
    return [(str(entry["words"]), str(entry["case"])) for entry in node]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """A book with the demo cases."""
    with Book.open(tmp_path_factory.mktemp("demo") / "book.sqlite3") as book:
        for entry in yaml_files(folder("demo_cases")):
            for case in read(entry.read_text(encoding="utf-8"), entry.name):
                book.add(case)
        yield book


@pytest.mark.parametrize(("words", "case"), _panel())
def test_the_case_that_is_remembered_comes_first(demo: Book, words: str, case: str) -> None:
    assert [hit.case for hit in find(demo, words).hits][:1] == [case]
