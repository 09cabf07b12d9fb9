"""A throw-away book, filled with the invented shop's cases that come with the program, and its settings."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from casebook.bench.desk import Desk
from casebook.bench.file_lines import changed
from casebook.bench.recording import read_cases, store
from casebook.bench.shop_keeping import Change
from casebook.bench.shop_text import example
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


def settings(folder_of_it: Path, today: date) -> Path:
    """Write the invented shop's settings beside its book; gives their file.

    Args:
        folder_of_it: a folder that will be thrown away.
        today: the date of the shop; its glues were opened before it, one of them too long ago.
    """
    opened = [(today - timedelta(days=days)).isoformat() for days in (200, 250)]
    changes: list[Change] = [
        (("people", "HB"), "first bench"),
        (("people", "JV"), "second bench"),
        (("people", "AB"), None),
        (("people", "CD"), None),
        *((("glues", place, "opened"), day) for place, day in enumerate(opened)),
    ]
    text = example()
    for path, value in changes:
        text = changed(text, path, value)
    place = folder_of_it / "shop.yaml"
    place.write_text(text, encoding="utf-8")
    return place
