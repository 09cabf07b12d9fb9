"""Text as data: what somebody typed is shown as typed and does nothing.

Control characters, terminal escapes and characters that turn the writing direction have no place in a
case. They are refused where text comes in, and replaced where text is shown.
"""

import re

_UNSAFE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")


def unsafe_character(text: str) -> str | None:
    """Name the first character of `text` that may not be stored (as ``U+001B``), or None when all is well.

    Line feeds and tabs are allowed; a carriage return, NUL, escape, bidirectional override or lone
    surrogate is not.
    """
    found = _UNSAFE.search(text)
    return f"U+{ord(found.group()):04X}" if found else None


def safe(text: str) -> str:
    """Give `text` with every unsafe character replaced by U+FFFD, ready for any terminal."""
    return _UNSAFE.sub("\ufffd", text)


def one_line(text: str) -> str:
    """Give `text` safe and on one line, for a message or a cell of a table."""
    return " ".join(safe(text).split())
