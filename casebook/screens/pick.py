"""One of a few, taken by its digit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, ClassVar

from textual.app import App, ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, plain
from casebook.screens.rows import Row, Rows


class Pick(ModalScreen[str | None]):
    """A few rows; a digit takes one, Enter the marked one, Esc none.

    Args:
        title: what is asked.
        rows: what there is to choose from, the first column short.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "take", "take"),
        key("escape", "none", "back"),
        *[key(f"{n}", f"number({n})", "", show=False) for n in range(1, 10)],
    ]
    AUTO_FOCUS = "Rows"

    def __init__(self, title: str, rows: Sequence[Row]) -> None:
        super().__init__()
        self._title, self._choices = title, list(rows)

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with Vertical(classes="dialog few"):
            yield Static(plain(self._title, BOLD), classes="note")
            yield Rows([-2, -3], numbered=True, id="choices")
            yield KeyLine()

    def on_mount(self) -> None:
        """Fill the list."""
        self.query_one(Rows).fill(self._choices)

    def on_option_list_option_selected(self) -> None:
        """Take the marked one."""
        self.action_take()

    def action_take(self) -> None:
        """Take the marked one."""
        self.dismiss(self.query_one(Rows).marked)

    def action_number(self, number: int) -> None:
        """Take the one in that place."""
        if number <= len(self._choices):
            self.dismiss(self._choices[number - 1][0])

    def action_none(self) -> None:
        """Take none."""
        self.dismiss(None)


def take_away(app: App[Any], title: str, stays: str, goes: str, then: Callable[[], None]) -> None:
    """Ask before something written is taken away; Enter and Esc let it stay."""
    rows: list[Row] = [("stays", ["it stays", stays]), ("goes", ["take it away", goes])]
    app.push_screen(Pick(title, rows), lambda said: then() if said == "goes" else None)
