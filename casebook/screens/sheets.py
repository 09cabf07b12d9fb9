"""All worksheets, to calculate without a case."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from casebook import figures
from casebook.screens.figures_screen import FiguresScreen
from casebook.screens.keys import key
from casebook.screens.room import Room
from casebook.screens.rows import Rows


class SheetsScreen(Room):
    """The list of worksheets."""

    HELP = (
        "The calculations of the shop, each by itself. From a damage, f opens those that matter, filled in."
    )
    BINDINGS: ClassVar[list[BindingType]] = [key("enter", "open", "open", "Open the marked worksheet.")]

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Rows([18, -1], id="sheets")

    def renew(self) -> None:
        """Show the list."""
        self.heading.say("Worksheets", f"{len(figures.IDS)} calculations")
        rows = self.query_one(Rows)
        rows.fill([(id, [id.replace("_", " "), figures.worksheet(id).title]) for id in figures.IDS])
        self.set_focus(rows)

    def on_option_list_option_selected(self) -> None:
        """Open the marked worksheet."""
        self.action_open()

    def action_open(self) -> None:
        """Open the marked worksheet."""
        marked = self.query_one(Rows).marked
        if marked is not None:
            self.app.push_screen(FiguresScreen(figures.IDS, None, figures.IDS.index(marked)))
