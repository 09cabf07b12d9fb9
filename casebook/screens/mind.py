"""A few lines to mind before going on; any of the usual keys goes on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, lines, plain


class Mind(ModalScreen[None]):
    """What to mind now.

    Args:
        title: what it is about.
        said: a line each.
    """

    BINDINGS: ClassVar[list[BindingType]] = [key("enter,escape,space", "close", "go on")]

    def __init__(self, title: str, said: Sequence[str]) -> None:
        super().__init__()
        self._title, self._said = title, tuple(said)

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with Vertical(classes="dialog"):
            yield Static(lines([plain(self._title, BOLD), "", *self._said]))
            yield KeyLine()

    def action_close(self) -> None:
        """Go on."""
        self.dismiss()
