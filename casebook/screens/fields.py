"""Fields to type into. What is typed or pasted is text and nothing else."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from textual import events
from textual.message import Message
from textual.reactive import reactive
from textual.widgets import Input, Static, TextArea
from textual.widgets.text_area import Edit, EditResult

from casebook.safe_text import one_line, safe
from casebook.screens.plain import BOLD, FAINT, columns, joined, lines, plain

# What picks the first, the second ... of a few.
_SIGNS = "123456789abcdefghijklm"


class TextLine(Input):
    """A field of one line."""

    def __init__(self, value: str = "", placeholder: str = "", id: str | None = None) -> None:
        super().__init__(
            _on_one_line(value), placeholder=placeholder, id=id, compact=True, select_on_focus=False
        )
        self.cursor_blink = False

    def validate_value(self, value: str) -> str:
        """Keep out what is no text."""
        return _on_one_line(value)


class TextBlock(TextArea):
    """A field of several lines; Tab goes on to the next field."""

    def __init__(self, value: str = "", id: str | None = None) -> None:
        super().__init__(safe(value), id=id, compact=True, tab_behavior="focus", show_line_numbers=False)
        self.cursor_blink = False

    def edit(self, edit: Edit) -> EditResult:
        """Take an edit, without what is no text."""
        edit.text = safe(edit.text.replace("\r\n", "\n").replace("\r", "\n"))
        return super().edit(edit)


class PickOne(Static, can_focus=True):
    """A choice among a few: a digit or letter picks, left and right move, Enter goes on."""

    value: reactive[str] = reactive("")

    class Taken(Message):
        """Enter: what is picked is right."""

        def __init__(self, picker: PickOne) -> None:
            super().__init__()
            self.picker = picker

        @property
        def control(self) -> PickOne:
            """The choice."""
            return self.picker

    def __init__(self, choices: Sequence[tuple[str, str]], value: str = "", id: str | None = None) -> None:
        super().__init__(id=id)
        self.choices = list(choices)
        self.set_reactive(PickOne.value, value)

    def on_mount(self) -> None:
        """Show the choices."""
        self._draw()

    def watch_value(self) -> None:
        """Show what is picked."""
        self._draw()

    def on_focus(self) -> None:
        """Show that digits count now."""
        self._draw()

    def on_blur(self) -> None:
        """Show that they no longer do."""
        self._draw()

    def on_key(self, event: events.Key) -> None:
        """Pick by digit or arrow."""
        ids = [id for id, _ in self.choices]
        at = ids.index(self.value) if self.value in ids else -1
        character = event.character or ""
        if character and character in _SIGNS[: len(ids)]:
            self.value = ids[_SIGNS.index(character)]
        elif event.key in ("right", "left") and ids:
            self.value = ids[(at + (1 if event.key == "right" else -1 if at >= 0 else 0)) % len(ids)]
        elif event.key == "enter":
            self.post_message(self.Taken(self))
        else:
            return
        event.stop()
        event.prevent_default()

    def on_resize(self) -> None:
        """Share the columns out anew."""
        self._draw()

    def _draw(self) -> None:
        parts = []
        for sign, (id, label) in zip(_SIGNS, self.choices, strict=False):
            picked = id == self.value
            mark = plain("●" if picked else " ", BOLD)
            parts.append(
                joined(
                    mark,
                    plain(sign, BOLD if self.has_focus else FAINT),
                    plain(f" {label}", BOLD if picked else ""),
                )
            )
        # Few and short: side by side; many: in two columns, read downwards.
        if len(parts) <= 4 and sum(part.cell_length + 2 for part in parts) <= max(self.size.width, 40):
            self.update(plain("  ").join(parts))
            return
        half = (len(parts) + 1) // 2
        width = max(16, self.size.width // 2 - 1)
        pairs = zip_longest(parts[:half], parts[half:], fillvalue=plain(""))
        self.update(lines([columns(pair, [width, width]) for pair in pairs]))


def _on_one_line(value: str) -> str:
    return safe(value) if "\n" not in value and "\t" not in value else one_line(value)
