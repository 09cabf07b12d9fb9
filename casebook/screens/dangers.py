"""Dangers, whole, to be read once a case before a plan opens."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.guide.pack import Caution
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, FAINT, LEVEL_COLOURS, joined, lines, plain


class Dangers(ModalScreen[bool]):
    """Dangers to be read; `r` says that they were."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("r", "read", "I have read this", "Go on to the plan."),
        key("escape", "back", "back", "Back without the plan."),
        key("down", "down", "", show=False),
        key("up", "up", "", show=False),
    ]

    def __init__(self, dangers: Sequence[Caution]) -> None:
        super().__init__()
        self._dangers = dangers

    def compose(self) -> ComposeResult:
        """Lay it out."""
        parts: list[Content | str] = [plain("Before the plan: this can hurt", BOLD), ""]
        for danger in self._dangers:
            parts += [joined(plain("! DANGER  ", LEVEL_COLOURS["danger"]), plain(danger.text)), ""]
        parts.append(plain("Local rules and licensed practice go before what stands here.", FAINT))
        with VerticalScroll(classes="dialog wide danger"):
            yield Static(lines(parts))
            yield KeyLine()

    def action_read(self) -> None:
        """They were read."""
        self.dismiss(True)

    def action_back(self) -> None:
        """Not now."""
        self.dismiss(False)

    def action_down(self) -> None:
        """Read on."""
        self.query_one(VerticalScroll).scroll_down(animate=False)

    def action_up(self) -> None:
        """Read back."""
        self.query_one(VerticalScroll).scroll_up(animate=False)
