"""What was acknowledged is there, and answers and search text agree, whatever happens to the program."""

from __future__ import annotations

import re
import signal
import sqlite3
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from casebook.records.book import Book
from casebook.records.case import Case
from casebook.records.document import document
from casebook.records.errors import StorageError
from tests.records.cases import PICCOLO

_ADDING = """
import sys
from casebook.records.book import Book
from casebook.records.case import Case
with Book.open(sys.argv[1]) as book:
    for at in range(100_000):
        print(book.add(Case(title=f"case number {at}")).number, flush=True)
"""
_ANSWERING = """
import sys
from casebook.records.book import Book
from casebook.records.case import Case
place, name = sys.argv[1:]
with Book.open(place, patience=60) as book:
    for at in range(40):
        book.save_answer("B-0207", 1, 1, f"{name}_{at}", str(at))
        print(book.add(Case(title=name)).number, flush=True)
"""
_FILLING = """
import resource, signal, sys
from casebook.records.book import Book
from casebook.records.case import Case
from casebook.records.errors import StorageError
with Book.open(sys.argv[1]) as book:
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1_000_000, 1_000_000))
    try:
        while True:
            print(book.add(Case(title="full", owner_words="words " * 5000)).number, flush=True)
    except StorageError as error:
        print(error, file=sys.stderr)
"""


def _start(program: str, *arguments: str) -> subprocess.Popen[str]:
    command = [sys.executable, "-c", program, *arguments]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def _assert_whole(book: Book) -> None:
    """Every case has the search text it should have, and the index agrees with the text."""
    wanted = "SELECT number, head, body, codes, measures FROM cases JOIN search_texts ON cases.id = case_id"
    with book.reading() as connection:
        kept = {number: tuple(text) for number, *text in connection.exec_driver_sql(wanted)}
    made = {c.number: (d.head, d.body, d.codes, d.measures) for c in book.every_case() for d in [document(c)]}
    assert kept == made
    if "://" not in book.place:
        index = sqlite3.connect(book.place)
        index.execute("INSERT INTO search_index(search_index, rank) VALUES ('integrity-check', 1)")
        assert index.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        index.close()


@pytest.mark.parametrize("after", [1, 23, 60])
def test_a_killed_program_loses_nothing_it_had_acknowledged(place: str, after: int) -> None:
    Book.open(place).close()
    writer = _start(_ADDING, place)
    assert writer.stdout is not None
    acknowledged = [writer.stdout.readline().strip() for _ in range(after)]
    writer.send_signal(signal.SIGKILL)
    acknowledged += writer.communicate()[0].split()
    assert writer.returncode == -signal.SIGKILL
    with Book.open(place) as book:
        stored = {row.number for row in book.cases(limit=1_000_000)}
        assert stored >= {number for number in acknowledged if re.fullmatch(r"C-\d{4,}", number)}
        assert len(stored) <= len(acknowledged) + 1
        _assert_whole(book)
        assert book.add(Case()).number not in stored


def test_two_programs_writing_at_once_lose_nothing(place: str) -> None:
    with Book.open(place) as book:
        book.add(PICCOLO)
    writers = [_start(_ANSWERING, place, name) for name in ("left", "right")]
    results = [writer.communicate() for writer in writers]
    assert [errors for _, errors in results] == ["", ""]
    numbers = [number for out, _ in results for number in out.split()]
    assert len(set(numbers)) == len(numbers) == 80
    with Book.open(place) as book:
        answers = book.case("B-0207").damage(1).looks[0].answers
        assert {f"{name}_{at}" for name in ("left", "right") for at in range(40)} <= answers.keys()
        assert book.case("B-0207").version == 81
        _assert_whole(book)


def test_two_programs_opening_a_new_book_at_once_make_one(place: str) -> None:
    program = (
        "import sys; from casebook.records.book import Book; Book.open(sys.argv[1], patience=60).close()"
    )
    results = [writer.communicate() for writer in [_start(program, place) for _ in range(3)]]
    assert [errors for _, errors in results] == [""] * 3
    with Book.open(place) as book:
        assert book.add(Case()).number == "C-0001"


def test_a_full_disk_is_told_and_loses_nothing(file: Path) -> None:
    out, errors = _start(_FILLING, str(file)).communicate()
    assert "cannot be written" in errors
    assert errors.count("\n") == 1
    with Book.open(file) as book:
        assert {row.number for row in book.cases(limit=10_000)} >= set(out.split())
        _assert_whole(book)


def test_a_book_another_program_writes_in_can_be_read_but_not_written(file: Path) -> None:
    with Book.open(file, patience=0.05) as book:
        book.add(PICCOLO)
        other = sqlite3.connect(file, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StorageError, match="in use by another program"):
            book.finish("B-0207")
        assert not book.case("B-0207").finished
        other.execute("ROLLBACK")
        other.close()
        book.finish("B-0207")
        assert book.case("B-0207").finished


def test_every_kind_of_change_keeps_the_search_text_in_step(book: Book) -> None:
    number = book.add(PICCOLO).number
    book.save_answer(number, 1, 1, "hole_diameter_top", "5.2 mm")
    _assert_whole(book)
    book.new_look(number, 1, ended_by="rested in the drying box")
    _assert_whole(book)
    book.record_work(number, 2, learned="warm the shellac longer")
    _assert_whole(book)
    book.update(Case(number=number, title="nothing left"))
    _assert_whole(book)
    book.remove(number)
    _assert_whole(book)


def test_threads_may_share_a_book(book: Book) -> None:
    with ThreadPoolExecutor(4) as pool:
        numbers = list(pool.map(lambda at: book.add(Case(title=f"thread {at}")).number, range(40)))
    assert len(set(numbers)) == book.count() == 40
    _assert_whole(book)


def test_a_commit_is_flushed_to_the_disk_and_rows_belong_together(file: Path) -> None:
    """SQLite, "PRAGMA statements": synchronous 2 is FULL, which survives a power cut in WAL mode too."""
    with Book.open(file) as book, book.reading() as connection:
        settings = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        }
    assert settings == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
