"""Sizes as made, where a worksheet takes one of that name: what was cut counts, not what was meant."""

from __future__ import annotations

from collections.abc import Iterable

from casebook import figures
from casebook.bench.sheet import Sheet
from casebook.records.case import Measured

# Where the text of an input comes from, beside the names of questions.
AS_MADE = "as made"


def taking(what: str, sheets: Iterable[str]) -> list[str]:
    """Name those of these worksheets that take a size called so (``hole as cut``)."""
    name = _input(what)
    return [id for id in sheets if any(item.name == name for item in figures.worksheet(id).inputs)]


def put_as_made(sheet: Sheet, measured: Iterable[Measured]) -> None:
    """Put the sizes as made into a worksheet that takes them; one that it cannot read is left out."""
    names = {item.name for item in sheet.inputs}
    for one in measured:
        name = _input(one.what)
        if name in names and not sheet.tried(name, one.value).problem:
            sheet.put(name, one.value)
            sheet.origin[name] = AS_MADE


def _input(what: str) -> str:
    return "_".join(what.casefold().split())
