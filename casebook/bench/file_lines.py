"""A change of one value in a YAML file that somebody wrote: every other line and every remark stays as it is.

A place in the file is a path: keys of mappings and places of lists, as ``("prices", 2, "price")``.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

import yaml

Path: TypeAlias = tuple[str | int, ...]
Written: TypeAlias = "str | Sequence[Written] | Mapping[str, Written]"

# Text that means itself without quotes; commas and brackets only where they part nothing.
_BARE = re.compile(r"[^\W_][\w./+%, -]*")
_BARE_IN_BRACKETS = re.compile(r"[^\W_][\w./+% -]*")
_EMPTY = ("null", "~", "")


class NotInPlace(ValueError):
    """A file written in a way in which this value cannot be changed by itself; the message says how."""


def inline(value: Written, *, bracketed: bool = False) -> str:
    """Write a value on one line.

    Args:
        value: text, a list or a mapping.
        bracketed: whether it stands inside brackets, where a comma parts.
    """
    if isinstance(value, Mapping):
        parts = (f"{inline(k, bracketed=True)}: {inline(v, bracketed=True)}" for k, v in value.items())
        return f"{{{', '.join(parts)}}}"
    if not isinstance(value, str):
        return f"[{', '.join(inline(part, bracketed=True) for part in value)}]"
    text = " ".join(value.split())
    bare = (_BARE_IN_BRACKETS if bracketed else _BARE).fullmatch(text)
    return text if bare and text not in _EMPTY else json.dumps(text, ensure_ascii=False)


def changed(text: str, path: Path, value: Written | None) -> str:
    """Change one value.

    Args:
        text: the file, which reads as YAML.
        path: where the value stands; the place after the last of a list adds to it.
        value: what is to stand there; None takes it out, and with it what is left empty around it.

    Raises:
        NotInPlace: the file has at this path something else than the path says.
    """
    ends = "\r\n" if "\r\n" in text else "\n"
    root = yaml.compose(text, Loader=yaml.SafeLoader)
    if root is None:
        return text if value is None else _below(text, _whole_lines(path, value), ends)
    if not isinstance(root, yaml.MappingNode) or root.flow_style:
        raise NotInPlace("the settings do not stand each on a line of its own: write them so first")
    for length in range(1, len(path) + 1):
        parent, key = _node(root, path[: length - 1]), path[length - 1]
        if parent is None or _child(parent, key) is None or _is_empty(_child(parent, key)):
            return text if value is None else _added(text, root, path[:length], _nest(path[length:], value))
    if value is None:
        return _without(text, root, path)
    parent = _node(root, path[:-1])
    return _replaced(text, parent, path[-1], inline(value, bracketed=bool(parent.flow_style)), ends)


# -- where it stands -----------------------------------------------------------------------------------------


def _child(node: Any, key: str | int) -> Any:
    if isinstance(key, int):
        if not isinstance(node, yaml.SequenceNode):
            raise NotInPlace("a single one stands there without a list: write it as a list first")
        return node.value[key] if key < len(node.value) else None
    if not isinstance(node, yaml.MappingNode):
        raise NotInPlace(f"{key} does not stand among named values there")
    return next((value for name, value in node.value if name.value == key), None)


def _node(root: Any, path: Path) -> Any:
    node = root
    for key in path:
        node = _child(node, key)
    return node


def _is_empty(node: Any) -> bool:
    return isinstance(node, yaml.ScalarNode) and node.style is None and node.value in _EMPTY


def _start(node: Any) -> int:
    at: int = node.start_mark.index
    return at


def _end(text: str, node: Any) -> int:
    """Give where a value ends: of one on lines of its own where its last part does."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        return _end(text, last[1] if isinstance(last, tuple) else last)
    start = _start(node)
    return start + len(text[start : node.end_mark.index].rstrip())


def _line_start(text: str, at: int) -> int:
    return text.rfind("\n", 0, at) + 1


def _line_end(text: str, at: int) -> int:
    """Give the end of a line, before its line feed."""
    found = text.find("\n", at)
    end = len(text) if found < 0 else found
    return end - 1 if text[at:end].endswith("\r") else end


def _after_line(text: str, at: int) -> int:
    """Give the beginning of the next line."""
    found = text.find("\n", at)
    return len(text) if found < 0 else found + 1


def _column(text: str, at: int) -> int:
    return at - _line_start(text, at)


def _dash(text: str, after: int, item: int) -> int:
    """Give the place of the dash before an item of a list."""
    at = item
    while at > after:
        at = _line_start(text, at)
        row = text[max(at, after) : item if text.find("\n", at, item) < 0 else text.find("\n", at)]
        if row.lstrip().startswith("-"):
            return max(at, after) + row.index("-")
        at -= 1
    raise NotInPlace("no dash stands before it")


# -- changes -------------------------------------------------------------------------------------------------


def _nest(path: Path, value: Written) -> Written:
    for key in reversed(path):
        value = [value] if isinstance(key, int) else {key: value}
    return value


def _whole_lines(path: Path, value: Written) -> list[str]:
    """Write a new setting: its parts below it, a line each."""
    key, value = inline(str(path[0])), _nest(path[1:], value)
    if isinstance(value, Mapping) and value:
        return [f"{key}:", *(f"  {inline(name)}: {inline(part)}" for name, part in value.items())]
    if not isinstance(value, str) and value and not all(isinstance(part, str) for part in value):
        return [f"{key}:", *(f"- {inline(part)}" for part in value)]
    return [f"{key}: {inline(value)}"]


def _below(text: str, rows: list[str], ends: str) -> str:
    """Put rows at the end of a file."""
    if text and not text.endswith("\n"):
        text += ends
    return text + "".join(row + ends for row in rows)


def _insert_after(text: str, at: int, row: str, ends: str) -> str:
    """Put a row below the line that holds a place."""
    place = _after_line(text, at)
    before = text[:place] if text[:place].endswith("\n") else text[:place] + ends
    return f"{before}{row}{ends}{text[place:]}"


def _added(text: str, root: Any, path: Path, value: Written) -> str:
    ends = "\r\n" if "\r\n" in text else "\n"
    parent, key = _node(root, path[:-1]), path[-1]
    if isinstance(key, str) and _child(parent, key) is not None:
        return _replaced(text, parent, key, inline(value, bracketed=bool(parent.flow_style)), ends)
    shown = inline(value, bracketed=bool(parent.flow_style))
    if isinstance(key, str):
        shown = f"{inline(key, bracketed=bool(parent.flow_style))}: {shown}"
    if parent.flow_style:
        at = _end(text, _last(parent)) if parent.value else _start(parent) + 1
        return f"{text[:at]}{', ' if parent.value else ''}{shown}{text[at:]}"
    last = _end(text, _last(parent))
    if len(path) == 1:
        indent = " " * _column(text, _start(parent.value[0][0]))
        rows = [indent + row for row in _whole_lines(path, value)]
        # A document may say that it ends.
        done = re.search(r"^\.\.\.", text[last:], re.MULTILINE)
        cut = last + done.start() if done else len(text)
        return _below(text[:cut], rows, ends) + text[cut:]
    if isinstance(key, int):
        before = _end(text, parent.value[-2]) if len(parent.value) > 1 else _start(parent)
        column = _column(text, _dash(text, min(before, _start(parent.value[-1])), _start(parent.value[-1])))
        return _insert_after(text, last, " " * column + f"- {shown}", ends)
    return _insert_after(text, last, " " * _column(text, _start(parent.value[0][0])) + shown, ends)


def _last(parent: Any) -> Any:
    last = parent.value[-1]
    return last[1] if isinstance(last, tuple) else last


def _replaced(text: str, parent: Any, key: str | int, shown: str, ends: str) -> str:
    old = _child(parent, key)
    start, end = _start(old), _end(text, old)
    if isinstance(key, int):
        return text[:start] + shown + text[end:]
    name = next(name for name, _ in parent.value if name.value == key)
    colon = text.index(":", name.end_mark.index)
    if start == end:
        return f"{text[: colon + 1]} {shown}{text[colon + 1 :]}"
    if "\n" not in text[colon:start]:
        return text[:start] + shown + text[end:]
    # It stood on lines of its own: the remark beside the key stays with the key.
    remark = text[colon + 1 : _line_end(text, colon)].rstrip()
    return f"{text[: colon + 1]} {shown}{remark}{ends}{text[_after_line(text, end) :]}"


def _without(text: str, root: Any, path: Path) -> str:
    while len(path) > 1 and len(_node(root, path[:-1]).value) == 1:
        path = path[:-1]
    parent, key = _node(root, path[:-1]), path[-1]
    places = [(_start(v), _end(text, v)) for v in parent.value] if isinstance(key, int) else []
    if isinstance(key, str):
        places = [(_start(name), _end(text, value)) for name, value in parent.value]
    at = key if isinstance(key, int) else [name.value for name, _ in parent.value].index(key)
    start, end = places[at]
    following = places[at + 1][0] if at + 1 < len(places) else None
    if parent.flow_style:
        if following is not None:
            return text[:start] + text[following:]
        return text[: places[at - 1][1] if at else start] + text[end:]
    if isinstance(key, int):
        start = _dash(text, places[at - 1][1] if at else min(_start(parent), start), start)
    begin = _line_start(text, start)
    if not text[begin:start].strip():
        return text[:begin] + text[_after_line(text, end) :]
    # It shares its line with the dash of its list: what follows moves up to the dash.
    if following is None:
        raise NotInPlace("it shares its line with something else")
    return text[:start] + text[following:]
