"""Shapes of files that people edit: checked at reading with file, line and the nearest known word.

A shape says what a node may hold; the same shapes describe themselves as JSON Schema for editors.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches
from typing import Any, Protocol

from casebook.strict_yaml import BrokenFile, Mapping, Sequence, Text, line_of


class Shape(Protocol):
    """What a node may hold."""

    def read(self, node: Any, file: str, what: str) -> Any:
        """Give the node's content; raise BrokenFile when it is of another shape."""

    def schema(self) -> dict[str, Any]:
        """Describe this shape as JSON Schema."""


def nearest(word: str, known: Iterable[str]) -> str:
    """Word a hint to the nearest known word, or nothing."""
    near = get_close_matches(word, list(known), 1, 0.6)
    return f"; did you mean {near[0]}?" if near else ""


def in_a_row(names: Iterable[str]) -> str:
    """Word a chain of names; of a long one its ends."""
    row = list(names)
    if len(row) > 8:
        row = [*row[:4], f"({len(row) - 7} more)", *row[-3:]]
    return " -> ".join(row)


def _refuse(node: Any, file: str, problem: str) -> BrokenFile:
    return BrokenFile(file, line_of(node), problem)


class Line:
    """Some text; an empty one is refused."""

    def read(self, node: Any, file: str, what: str) -> Text:
        if not isinstance(node, Text):
            raise _refuse(node, file, f"{what}: text is wanted here")
        if node.is_null or not node.strip():
            raise _refuse(node, file, f"{what}: is empty")
        return node

    def schema(self) -> dict[str, Any]:
        # All text here, but an editor reads 65 and true as a number and a flag.
        return {"type": ["string", "number", "boolean"], "minLength": 1}


class Name(Line):
    """An id: small letters, digits and underscores."""

    _PATTERN = re.compile(r"[a-z][a-z0-9_]{0,59}")

    def read(self, node: Any, file: str, what: str) -> Text:
        text = super().read(node, file, what)
        if not self._PATTERN.fullmatch(text):
            raise _refuse(node, file, f"{what}: {text!r} is no id (small letters, digits, _)")
        return text

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": f"^{self._PATTERN.pattern}$"}


class OneOf:
    """One of a few words."""

    def __init__(self, *words: str) -> None:
        self.words = words

    def read(self, node: Any, file: str, what: str) -> str:
        if not isinstance(node, Text) or node not in self.words:
            shown = str(node) if isinstance(node, Text) else "this"
            hint = nearest(shown, self.words)
            raise _refuse(node, file, f"{what}: {shown!r} is none of {', '.join(self.words)}{hint}")
        return str(node)

    def schema(self) -> dict[str, Any]:
        return {"enum": list(self.words)}


class Flag(OneOf):
    """yes or no."""

    def __init__(self) -> None:
        super().__init__("yes", "no")

    def read(self, node: Any, file: str, what: str) -> Any:
        return super().read(node, file, what) == "yes"


class Number:
    """A decimal number, zero or more."""

    def read(self, node: Any, file: str, what: str) -> float:
        if not isinstance(node, Text) or not re.fullmatch(r"\d{1,6}(\.\d{1,6})?", node):
            raise _refuse(node, file, f"{what}: a number is wanted here")
        return float(node)

    def schema(self) -> dict[str, Any]:
        return {"type": "number", "minimum": 0, "exclusiveMaximum": 1_000_000}


class Anything:
    """A node read later, by somebody who knows more (a condition, say)."""

    def __init__(self, description: str) -> None:
        self.description = description

    def read(self, node: Any, file: str, what: str) -> Any:  # noqa: ARG002
        return node

    def schema(self) -> dict[str, Any]:
        return {"description": self.description}


class ListOf:
    """A list of one shape; a single one may stand without the list."""

    def __init__(self, item: Shape) -> None:
        self.item = item

    def read(self, node: Any, file: str, what: str) -> list[Any]:
        nodes = node if isinstance(node, Sequence) else [node]
        return [self.item.read(part, file, what) for part in nodes]

    def schema(self) -> dict[str, Any]:
        one = self.item.schema()
        return {"anyOf": [one, {"type": "array", "items": one}]}


class MapOf:
    """A mapping from ids to one shape."""

    def __init__(self, value: Shape, key: Line | None = None) -> None:
        self.key = key or Name()
        self.value = value

    def read(self, node: Any, file: str, what: str) -> dict[Text, Any]:
        if not isinstance(node, Mapping):
            raise _refuse(node, file, f"{what}: a mapping of names is wanted here")
        return {
            self.key.read(key, file, what): self.value.read(value, file, f"{what}, {key}")
            for key, value in node.items()
        }

    def schema(self) -> dict[str, Any]:
        return {
            "type": "object",
            "propertyNames": self.key.schema(),
            "additionalProperties": self.value.schema(),
        }


class Record:
    """A mapping with known keys; `needed` must be there, `may` may."""

    def __init__(self, needed: dict[str, Shape], may: dict[str, Shape] | None = None) -> None:
        self.needed = needed
        self.keys = {**needed, **(may or {})}

    def read(self, node: Any, file: str, what: str) -> dict[str, Any]:
        if not isinstance(node, Mapping):
            raise _refuse(node, file, f"{what}: {', '.join(self.needed) or 'named values'} wanted here")
        for key in node:
            if key not in self.keys:
                hint = nearest(key, self.keys)
                known = "" if hint else f" (known: {', '.join(self.keys)})"
                raise _refuse(key, file, f"{what}: unknown key {str(key)!r}{hint}{known}")
        for key in self.needed:
            if key not in node:
                raise _refuse(node, file, f"{what}: {key} is missing")
        return {str(key): self.keys[key].read(value, file, f"{what}: {key}") for key, value in node.items()}

    def schema(self) -> dict[str, Any]:
        return {
            "type": "object",
            "properties": {key: shape.schema() for key, shape in self.keys.items()},
            "required": list(self.needed),
            "additionalProperties": False,
        }
