"""The worksheets that belong to a damage, to go to any."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook import figures
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, plain
from casebook.screens.rows import Rows


class SheetList(ModalScreen[str | None]):
    """A list of worksheets; Enter goes to the marked one."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "go", "go there"),
        key("escape,w,f9", "close", "back"),
        *[key(f"{n}", f"number({n})", "", show=False) for n in range(1, 10)],
    ]
    AUTO_FOCUS = "Rows"

    def __init__(self, ids: Sequence[str], present: str) -> None:
        super().__init__()
        self._ids, self._present = list(ids), present

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with Vertical(classes="dialog tall"):
            yield Static(plain("Worksheets that belong here", BOLD), classes="note")
            yield Rows([17, -1], numbered=True, id="sheets")
            yield KeyLine()

    def on_mount(self) -> None:
        """Fill the list."""
        rows = [(id, [id.replace("_", " "), figures.worksheet(id).title]) for id in self._ids]
        self.query_one(Rows).fill(rows, self._present)

    def on_option_list_option_selected(self) -> None:
        """Go there."""
        self.action_go()

    def action_go(self) -> None:
        """Go to the marked one."""
        self.dismiss(self.query_one(Rows).marked)

    def action_number(self, number: int) -> None:
        """Go to the one in that place."""
        if number <= len(self._ids):
            self.dismiss(self._ids[number - 1])

    def action_close(self) -> None:
        """Go nowhere."""
        self.dismiss(None)
