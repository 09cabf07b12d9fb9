"""YAML as people expect it: every scalar is text, nothing is said twice, every node knows its line.

YAML 1.1 turns ``no`` into False, ``12:30`` into 750 and lets the last of two equal keys win silently.
None of that happens here: plain scalars stay text, and duplicate keys, anchors, aliases, tags, merge
keys, several documents, deep nesting and control characters are refused with file and line.
"""

from __future__ import annotations

from typing import Any

import yaml

from casebook.safe_text import unsafe_character

MAX_CHARACTERS = 4_000_000
MAX_DEPTH = 40

# The C parser is several times faster; a platform without it still works.
_BASE: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class BrokenFile(Exception):
    """A file that cannot be taken as it is: where, what is wrong and what to do, in one line."""

    def __init__(self, file: str, line: int | None, problem: str) -> None:
        super().__init__(file, line, problem)
        self.file = file
        self.line = line
        self.problem = problem

    def __str__(self) -> str:
        where = self.file if self.line is None else f"{self.file}, line {self.line}"
        return f"{where}: {self.problem}"


class Text(str):
    """A scalar as it stands in the file, with the line it stands on."""

    __slots__ = ("line", "quoted")
    line: int
    quoted: bool

    def __new__(cls, value: str, line: int, quoted: bool = False) -> Text:
        self = super().__new__(cls, value)
        self.line = line
        self.quoted = quoted
        return self

    @property
    def is_null(self) -> bool:
        """Whether the file leaves this value empty (``key:`` or ``key: ~`` or ``key: null``)."""
        return not self.quoted and self in ("", "~", "null")


class Mapping(dict[str, Any]):
    """A mapping of the file, in its order; its keys are `Text` and know their line (`line_of`)."""

    __slots__ = ("line",)
    line: int


class Sequence(list[Any]):
    """A list of the file."""

    __slots__ = ("line",)
    line: int


Node = Text | Mapping | Sequence


def line_of(node: object, otherwise: int | None = None) -> int | None:
    """Give the line a node stands on, or `otherwise` for something that did not come from a file."""
    return getattr(node, "line", otherwise)


def parse(text: str, file: str) -> Node | None:
    """Read one YAML document.

    Args:
        text: the whole text of the file.
        file: how messages call the file.

    Returns:
        The document's node, or None when there is nothing in it.

    Raises:
        BrokenFile: the text is no YAML, or uses something that is refused here.
    """
    if len(text) > MAX_CHARACTERS:
        raise BrokenFile(file, None, f"longer than {MAX_CHARACTERS:,} characters: split it")
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    bad = unsafe_character(text)
    if bad:
        line = next(n for n, row in enumerate(text.split("\n"), 1) if unsafe_character(row))
        raise BrokenFile(file, line, f"control character {bad} is not allowed: take it out")
    try:
        return _document(_BASE(text), file)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        where = mark.line + 1 if mark else None
        raise BrokenFile(file, where, f"not readable as YAML: {error.problem or error.context}") from None
    except yaml.YAMLError as error:
        raise BrokenFile(file, None, f"not readable as YAML: {' '.join(str(error).split())}") from None


def _document(loader: Any, file: str) -> Node | None:
    try:
        loader.get_event()  # stream start
        if loader.check_event(yaml.StreamEndEvent):
            return None
        loader.get_event()  # document start
        node = _node(loader, file, 0)
        loader.get_event()  # document end
        if not loader.check_event(yaml.StreamEndEvent):
            line = loader.peek_event().start_mark.line + 1
            raise BrokenFile(file, line, "a second document begins here: keep one document a file")
        return node
    finally:
        loader.dispose()


def _node(loader: Any, file: str, depth: int) -> Node:
    event = loader.get_event()
    line = event.start_mark.line + 1
    if isinstance(event, yaml.AliasEvent):
        raise BrokenFile(file, line, f"alias *{event.anchor} is not allowed: write it out")
    if event.anchor is not None:
        raise BrokenFile(file, line, f"anchor &{event.anchor} is not allowed: write it out where it is used")
    if event.tag is not None:
        raise BrokenFile(file, line, f"tag {event.tag} is not allowed: leave it away")
    if depth > MAX_DEPTH:
        raise BrokenFile(file, line, f"nested deeper than {MAX_DEPTH} levels")
    if isinstance(event, yaml.ScalarEvent):
        bad = unsafe_character(event.value)  # an escape such as "\e" hides it from the text of the file
        if bad:
            raise BrokenFile(file, line, f"control character {bad} is not allowed: take it out")
        return Text(event.value, line, quoted=bool(event.style))
    if isinstance(event, yaml.SequenceStartEvent):
        sequence = Sequence()
        sequence.line = line
        while not loader.check_event(yaml.SequenceEndEvent):
            sequence.append(_node(loader, file, depth + 1))
        loader.get_event()
        return sequence
    mapping = Mapping()
    mapping.line = line
    while not loader.check_event(yaml.MappingEndEvent):
        key = _node(loader, file, depth + 1)
        if not isinstance(key, Text):
            raise BrokenFile(file, line_of(key), "a key must be plain text")
        if key == "<<" and not key.quoted:
            raise BrokenFile(file, key.line, "merge key << is not allowed: write it out")
        if key in mapping:
            first = line_of(next(k for k in mapping if k == key))
            raise BrokenFile(file, key.line, f"{key!s} stands here twice (first on line {first})")
        mapping[key] = _node(loader, file, depth + 1)
    loader.get_event()
    return mapping
