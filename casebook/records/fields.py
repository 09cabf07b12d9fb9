"""Fields of a mapping in a YAML file, taken by kind: text, day, hours, flag, count, list, JSON, answers."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable
from dataclasses import MISSING, fields
from datetime import date
from difflib import get_close_matches
from typing import Any, NoReturn

from casebook.records.case import Answers
from casebook.records.check import MAX_HOURS
from casebook.records.flat import faults, key_of
from casebook.strict_yaml import BrokenFile, Mapping, Sequence, Text, line_of

Fields = dict[Any, Any]

_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_HOURS = re.compile(r"[0-9]*[.,]?[0-9]+(e[+-]?[0-9]{1,3})?")
_YES = {"yes": True, "true": True, "no": False, "false": False}


class FieldReader:
    """Takes fields out of mappings; refuses what is not of the wanted shape, by file and line."""

    def __init__(self, file: str) -> None:
        self.file = file

    def refuse(self, node: object, problem: str) -> NoReturn:
        """Refuse a node for a problem, at its line."""
        raise BrokenFile(self.file, line_of(node), problem)

    def mapping(self, node: Any, what: str, known: Iterable[str], needed: Iterable[str] = ()) -> Fields:
        """Take a mapping with known keys only."""
        if not isinstance(node, Mapping):
            raise BrokenFile(self.file, line_of(node), f"{what} must be a mapping of: {', '.join(known)}")
        for key in node:
            if key not in known:
                near = get_close_matches(key, list(known), 1, 0.6)
                hint = f"did you mean {near[0]}?" if near else f"known are: {', '.join(known)}"
                raise BrokenFile(self.file, line_of(key), f"unknown key {key!s} in {what}; {hint}")
        fields: Fields = node
        for name in needed:
            if name not in fields or is_null(fields[name]):
                raise BrokenFile(self.file, line_of(node), f"{what} needs the key {name}")
        return fields

    def sequence(self, node: Any, what: str) -> list[Any]:
        """Take a list; nothing at all counts as an empty one."""
        if node is None or is_null(node):
            return []
        if not isinstance(node, Sequence):
            raise BrokenFile(
                self.file, line_of(node), f"{what} must be a list, each entry beginning with '-'"
            )
        return node

    def each(self, node: Fields, key: str, one: Callable[[Any], Any]) -> tuple[Any, ...]:
        """Take a list, each entry by `one`."""
        return tuple(one(entry) for entry in self.sequence(node.get(key), key))

    def text(self, node: Fields, key: str) -> str:
        """Take a text; left empty or out, it is blank."""
        value = node.get(key)
        if value is None or is_null(value):
            return ""
        if not isinstance(value, Text):
            raise BrokenFile(self.file, line_of(value, line_of(node)), f"{key} must be text")
        return value

    def day(self, node: Fields, key: str) -> date | None:
        """Take a day written year-month-day."""
        typed = self.text(node, key)
        if not typed:
            return None
        problem = f"{key}: {typed!s} is no date: write it as 2026-03-09 (year-month-day)"
        if not _DATE.fullmatch(typed):
            self.refuse(typed, problem)
        try:
            return date.fromisoformat(typed)
        except ValueError:
            raise BrokenFile(self.file, line_of(typed), problem) from None

    def hours(self, node: Fields, key: str = "hours") -> float | None:
        """Take a number of hours, at most `MAX_HOURS`."""
        typed = self.text(node, key)
        if not typed:
            return None
        value = float(typed.replace(",", ".")) if _HOURS.fullmatch(typed) else MAX_HOURS + 1
        if value > MAX_HOURS:
            self.refuse(typed, f"{key}: {typed!s} is no number of hours: write 1.5")
        return value

    def flag(self, node: Fields, key: str) -> bool:
        """Take yes or no; left out, it is no."""
        typed = self.text(node, key)
        if typed and typed not in _YES:
            raise BrokenFile(self.file, line_of(typed), f"{key}: {typed!s}: write yes or no")
        return _YES.get(typed, False)

    def json(self, node: Fields, key: str) -> Any:
        """Take a JSON value: written as one text, or as plain YAML (every number then stays text)."""
        value = node.get(key)
        if not isinstance(value, Text):
            return value
        if value.is_null:
            return None
        try:
            return json.loads(value, parse_constant=lambda _: self.refuse(value, f"{key} holds no JSON"))
        except (ValueError, RecursionError):
            raise BrokenFile(self.file, value.line, f"{key} is not readable as JSON") from None

    def answers(self, node: Fields) -> Answers:
        """Take answers as they stand; one left empty is not known, as if it were left out."""
        value = node.get("answers")
        if value is None or is_null(value):
            return {}
        if not isinstance(value, Mapping):
            raise BrokenFile(
                self.file, line_of(value), "answers must be a mapping of question ids to answers"
            )
        return {question: answer for question, answer in value.items() if not is_null(answer)}

    def texts(self, node: Fields, key: str) -> tuple[str, ...]:
        """Take a list of texts."""
        entries = self.sequence(node.get(key), key)
        for entry in entries:
            if not isinstance(entry, Text):
                self.refuse(entry, f"{key} must be a list of texts")
        return tuple(entries)

    def flat(self, kind: type[Any], node: Any, what: str, known: Iterable[str]) -> Any:
        """Take a flat value out of a mapping; what is left out stays as the value has it of itself."""
        mapping = self.mapping(node, what, known)
        taking: dict[str, Callable[[Fields, str], Any]] = {
            "date | None": self.day,
            "float | None": self.hours,
            "bool": self.flag,
            "int": self.count,
            "tuple[str, ...]": self.texts,
        }
        given = [part for part in fields(kind) if key_of(part) in mapping]
        needed = [part for part in fields(kind) if part.default is MISSING]
        for part in needed:
            if part not in given or is_null(mapping[key_of(part)]):
                self.refuse(mapping, f"{what} needs the key {key_of(part)}")
        value = kind(
            **{part.name: taking.get(str(part.type), self.text)(mapping, key_of(part)) for part in given}
        )
        for key, problem in faults(value):
            self.refuse(mapping.get(key, mapping), f"{key}: {problem}")
        return value

    def count(self, node: Fields, key: str) -> int:
        """Take a whole number from 1 up; left out, it is 0."""
        typed = self.text(node, key)
        if typed and not re.fullmatch(r"[1-9][0-9]{0,5}", typed):
            raise BrokenFile(self.file, line_of(typed), f"{key}: {typed!s} is no number from 1 up")
        return int(typed or 0)


def is_null(node: object) -> bool:
    """Whether a value is left empty in the file."""
    return isinstance(node, Text) and node.is_null
