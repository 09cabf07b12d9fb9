"""Printing: JSON as data, text wrapped for reading; what people typed is made safe for the terminal."""

from __future__ import annotations

import json
import shutil
import textwrap
from typing import Any

from casebook.safe_text import safe


def print_json(data: Any) -> None:
    """Print data as JSON on standard output; what is no ASCII is escaped, so no terminal is touched by it."""
    print(json.dumps(data, indent=2, ensure_ascii=True, allow_nan=False))


def print_text(*lines: str) -> None:
    """Print lines, each made safe and wrapped to the width of the terminal, keeping its indent."""
    width = max(40, min(shutil.get_terminal_size((100, 24)).columns, 110))
    for line in lines:
        for row in safe(line).split("\n") or [""]:
            indent = " " * (len(row) - len(row.lstrip()))
            wrapped = textwrap.wrap(
                row, width, subsequent_indent=indent + "  ", break_long_words=False, break_on_hyphens=False
            )
            print("\n".join(wrapped))
