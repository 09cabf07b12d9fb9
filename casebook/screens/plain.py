"""Text for the screens: shown as typed, never read as markup or as commands to the terminal."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from casebook.guide.advice import Standing
from casebook.safe_text import one_line, safe

# A glyph, a word and a colour together; never colour alone.
GLYPHS: dict[Standing, str] = {"fits": "+", "open": "?", "ruled_out": "x"}
WORDS: dict[Standing, str] = {"fits": "fits", "open": "open", "ruled_out": "ruled out"}
COLOURS: dict[Standing, str] = {"fits": "$text-success", "open": "$text-warning", "ruled_out": "$text-error"}
LEVEL_WORDS = {"danger": "DANGER", "warning": "Warning", "note": "Note"}
LEVEL_COLOURS = {"danger": "bold $text-error", "warning": "$text-warning", "note": "$foreground-muted"}
BOLD, FAINT, WRONG = "bold", "$foreground-muted", "bold $text-error"


def plain(text: str, style: str = "") -> Content:
    """Give text as it is, in one style."""
    return Content.styled(safe(text), style)


def line(text: str, style: str = "") -> Content:
    """Give text on one line, as it is."""
    return Content.styled(one_line(text), style)


def joined(*parts: Content | str) -> Content:
    """Put parts one after the other."""
    return Content.assemble(*(plain(part) if isinstance(part, str) else part for part in parts))


def lines(parts: Sequence[Content | str]) -> Content:
    """Put parts one below the other."""
    return Content("\n").join([plain(part) if isinstance(part, str) else part for part in parts])


def cell(part: Content | str, width: int) -> Content:
    """Give a part cut or filled to a width of so many columns."""
    content = line(part) if isinstance(part, str) else part
    return content.truncate(max(width, 0), ellipsis=True, pad=True)


def columns(parts: Sequence[Content | str], widths: Sequence[int]) -> Content:
    """Put parts side by side, each in its column, a blank between."""
    return Content(" ").join([cell(part, width) for part, width in zip(parts, widths, strict=True)])


def shared_out(widths: Sequence[int], room: int) -> list[int]:
    """Work out the widths of columns.

    Args:
        widths: the width wanted by each; a negative one takes that share of what is left.
        room: columns of the terminal there are for all, blanks between them included.
    """
    left = room - sum(width for width in widths if width > 0) - (len(widths) - 1)
    shares = -sum(width for width in widths if width < 0) or 1
    return [width if width > 0 else max(4, left * -width // shares) for width in widths]
