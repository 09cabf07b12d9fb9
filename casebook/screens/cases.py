"""The first screen: the cases on the bench and what each waits for."""

from __future__ import annotations

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Static
from textual.worker import get_current_worker

from casebook.bench.stage import BenchRow, bench_rows
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, FAINT, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows

_EMPTY = (
    "Nothing lies on the bench.",
    "n takes an instrument in. / finds a case of the past. a shows the finished ones too.",
)


class CasesScreen(Room):
    """The cases on the bench, the latest first."""

    HELP = (
        "The cases on the bench, the latest first, and what each waits for. Arrows move, Enter opens. "
        "Everything is kept the moment it is typed: leave whenever you like."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the marked case."),
        key("n", "take_in", "new case", "Take an instrument in."),
        key("slash,f3", "find", "find", "Find a case by what you remember of it."),
        key("w,f6", "worksheets", "worksheets", "Shop calculations, without a case."),
        key("a", "all", "finished too", "Show the finished cases as well, or leave them out."),
        key("q", "leave", "quit", "Leave. Everything is kept already."),
        key("escape", "nothing", "", show=False),
    ]
    _all = False

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="empty")
        yield Rows([8, -3, -5, 18], id="cases")

    def on_mount(self) -> None:
        """Say what is being done until the book is open."""
        self.heading.say("On the bench", "opening the book ...")

    def renew(self) -> None:
        """Read the list anew."""
        self._read(None if self._all else False)

    @work(thread=True, exclusive=True, group="list", exit_on_error=False)
    def _read(self, finished: bool | None) -> None:
        worker = get_current_worker()
        try:
            rows = bench_rows(self.desk, finished)
        except Exception as error:
            if not worker.is_cancelled:
                self.app.call_from_thread(self.casebook.trouble, error)
            return
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show, rows)

    def _show(self, rows: list[BenchRow]) -> None:
        if not self.is_mounted:
            return
        count = f"{len(rows)} case{'' if len(rows) == 1 else 's'}, waiting for"
        self.heading.say("All cases" if self._all else "On the bench", count if rows else "")
        empty = self.query_one("#empty", Static)
        empty.display = not rows
        empty.update(lines([plain(_EMPTY[0], BOLD), "", plain(_EMPTY[1], FAINT)]))
        table = self.query_one("#cases", Rows)
        table.display = bool(rows)
        table.fill([(row.number, _cells(row)) for row in rows])
        if rows and self.focused is None:
            self.set_focus(table)

    def on_option_list_option_selected(self) -> None:
        """Open the marked case."""
        self.action_open()

    def action_open(self) -> None:
        """Open the marked case."""
        number = self.query_one("#cases", Rows).marked
        if number is not None:
            self.casebook.open_case(number)

    def action_take_in(self) -> None:
        """Take an instrument in."""
        if self.casebook.is_open:
            self.casebook.take_in()

    def action_find(self) -> None:
        """Search."""
        if self.casebook.is_open:
            self.casebook.find()

    def action_worksheets(self) -> None:
        """Calculate without a case."""
        if self.casebook.is_open:
            self.casebook.worksheets()

    def action_all(self) -> None:
        """Show finished cases too, or not."""
        self._all = not self._all
        if self.casebook.is_open:
            self.renew()

    def action_leave(self) -> None:
        """Leave."""
        self.app.exit()

    def action_nothing(self) -> None:
        """Stay: there is nothing behind the first screen."""


def _cells(row: BenchRow) -> list[str]:
    return [row.number, row.instrument, row.title, row.waits_for]
