"""A throw-away book, filled with the invented shop's cases that come with the program."""

from __future__ import annotations

from pathlib import Path

from casebook.bench.desk import Desk
from casebook.bench.recording import read_cases, store
from casebook.resources import folder, yaml_files


def fill(desk: Desk) -> list[str]:
    """Store every demo case; gives their numbers.

    Raises:
        BrokenFile: a demo case that the rule packs do not know.
        StorageError: the book cannot be written.
    """
    cases = [
        case
        for file in yaml_files(folder("demo_cases"))
        for case in read_cases(desk, file.read_text(encoding="utf-8"), f"demo_cases/{file.name}")
    ]
    return store(desk, sorted(cases, key=lambda filed: (str(filed.case.taken_in), filed.case.number)))


def throw_away(folder_of_it: Path) -> Path:
    """Name the file of a demo book in a folder that will be thrown away."""
    return folder_of_it / "demo.db"
