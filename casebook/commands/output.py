"""Printing: JSON as data, text wrapped for reading; what people typed is made safe for the terminal.

What only one way of printing needs is imported there, since every command starts through here.
"""

from __future__ import annotations

from typing import Any

from casebook.safe_text import safe


def print_json(data: Any) -> None:
    """Print data as JSON on standard output; what is no ASCII is escaped, so no terminal is touched by it."""
    import json

    print(json.dumps(data, indent=2, ensure_ascii=True, allow_nan=False))


def print_text(*lines: str) -> None:
    """Print lines, each made safe and wrapped to the width of the terminal, keeping its indent."""
    import shutil
    import textwrap

    width = max(40, min(shutil.get_terminal_size((100, 24)).columns, 110))
    for line in lines:
        for row in safe(line).split("\n") or [""]:
            indent = " " * (len(row) - len(row.lstrip()))
            wrapped = textwrap.wrap(
                row, width, subsequent_indent=indent + "  ", break_long_words=False, break_on_hyphens=False
            )
            print("\n".join(wrapped))
