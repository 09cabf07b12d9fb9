"""Flat values: dataclasses of texts, days and numbers; one rule each for checks, rows and files."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import Field, fields
from datetime import time
from typing import Any

from casebook.records.amount import NoAmount, read_amount


def key_of(part: Field[Any]) -> str:
    """Give the key of a field in a case file."""
    return str(part.metadata.get("key", part.name))


def faults(value: Any) -> Iterator[tuple[str, str]]:
    """Find what a flat value holds that it may not: the key in a case file, and the problem in one line."""
    for part in fields(value):
        kept, words = getattr(value, part.name), part.metadata.get("one_of")
        if words and kept not in words:
            yield key_of(part), f"{str(kept)!r}: write one of {', '.join(filter(None, words))}"
        if part.metadata.get("amount") and kept:
            try:
                read_amount(kept)
            except NoAmount as error:
                yield key_of(part), str(error)
        if part.metadata.get("clock") and kept:
            try:
                time.fromisoformat(kept)
            except ValueError:
                yield key_of(part), f"{str(kept)!r} is no time of day: write it as 14:30"


def row_values(value: Any) -> dict[str, Any]:
    """Give a flat value as the values of a row: columns are named as the fields, lists are JSON text."""
    return {part.name: _stored(getattr(value, part.name)) for part in fields(value)}


def from_row(kind: type[Any], row: Any) -> Any:
    """Give the flat value a row holds in attributes of the same names."""
    return kind(**{part.name: _read(part, getattr(row, part.name)) for part in fields(kind)})


def file_values(value: Any) -> dict[str, Any]:
    """Give a flat value by its keys in a case file."""
    return {key_of(part): getattr(value, part.name) for part in fields(value)}


def _stored(value: Any) -> Any:
    if isinstance(value, tuple):
        return json.dumps([str(one) for one in value], ensure_ascii=False)
    return str(value) if isinstance(value, str) else value


def _read(part: Field[Any], value: Any) -> Any:
    return tuple(json.loads(value)) if str(part.type).startswith("tuple") else value
