"""Help: what a screen is for and every key of it."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.screens.keys import KeyLine, bindings_of, key, key_name
from casebook.screens.plain import BOLD, FAINT, cell, joined, lines, plain
from casebook.screens.room import Room

_EVERYWHERE = (
    ("Esc", "out of a field, then back to the screen before"),
    ("Tab", "to the next field or list"),
    ("^T", "park what lies here, half typed or not; ^T again comes back to it"),
    ("^P", "every action, by name"),
    ("^Q", "quit; everything is kept already"),
)


class Help(ModalScreen[None]):
    """The help of one screen."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape,enter,question_mark,f1,q", "close", "back to work"),
        key("down", "down", "", show=False),
        key("up", "up", "", show=False),
    ]

    def __init__(self, about: Room) -> None:
        super().__init__()
        self._about = about

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with VerticalScroll(classes="dialog wide"):
            yield Static(lines([plain(self._about.HELP), "", *self._keys()]))
            yield KeyLine()

    def _keys(self) -> list[Content]:
        own = [
            (
                " or ".join(key_name(name) for name in binding.key.split(",")),
                binding.tooltip or binding.description,
            )
            for binding in bindings_of(self._about)
            if binding.action not in ("back", "help") and (binding.tooltip or binding.description)
        ]
        shown = [joined(cell(plain(keys, BOLD), 12), " ", plain(what)) for keys, what in own]
        more = [joined(cell(plain(keys, BOLD), 12), " ", plain(what, FAINT)) for keys, what in _EVERYWHERE]
        return [*shown, plain(""), *more]

    def action_close(self) -> None:
        """Close it."""
        self.dismiss()

    def action_down(self) -> None:
        """Read on."""
        self.query_one(VerticalScroll).scroll_down(animate=False)

    def action_up(self) -> None:
        """Read back."""
        self.query_one(VerticalScroll).scroll_up(animate=False)
