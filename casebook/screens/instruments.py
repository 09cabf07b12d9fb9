"""All instruments that were here, to find a known one by what is typed."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input, Static

from casebook.bench.known import matching
from casebook.records.case import InstrumentRow
from casebook.screens.background_room import BackgroundRoom
from casebook.screens.fields import TextLine
from casebook.screens.keys import key
from casebook.screens.plain import FAINT, plain
from casebook.screens.rows import Rows

# More rows than this nobody looks through; typing a word leaves fewer.
_MOST = 200


class InstrumentsScreen(BackgroundRoom[list[InstrumentRow]]):
    """A field to type into, and the instruments that it leaves."""

    HELP = (
        "Every instrument that was here, the one that came in last first. Type a word of it, of its owner, a "
        "case number or what it came for; Enter opens its page. There it is taken in again, with what is "
        "known of it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the page of the marked instrument."),
        key("down", "into", "list", "From the field into the list.", show=False),
        key("slash,f3", "again", "type anew", "Back into the field."),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._all: list[InstrumentRow] = []

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield TextLine(placeholder="a word of it, its owner, a case number, what it came for", id="words")
        yield Static(id="said")
        yield Rows([-4, -2, 10, 8], id="instruments")

    def on_mount(self) -> None:
        """Begin in the field."""
        self.heading.say("Instruments", "")
        self.set_focus(self.query_one(TextLine))

    def read(self) -> list[InstrumentRow]:
        """Read the list."""
        return self.desk.book.instruments()

    def show(self, rows: list[InstrumentRow]) -> None:
        """Show those that what is typed leaves."""
        self._all = rows
        self._show()

    def _show(self) -> None:
        typed = self.query_one(TextLine).value
        left = matching(self._all, typed)
        shown = left[:_MOST]
        said = ""
        if not self._all:
            said = "Nothing was taken in yet."
        elif not left:
            said = "None like that; fewer or other words may find it."
        elif len(left) > len(shown):
            said = f"The first {len(shown)}; type a word to leave fewer."
        words = self.query_one("#said", Static)
        words.display = bool(said)
        words.update(plain(said, FAINT))
        self.heading.say("Instruments", f"{len(left)} of {len(self._all)}" if typed.strip() else _count(left))
        self.query_one(Rows).fill([(row.instrument.uid, _cells(row)) for row in shown])

    def on_input_changed(self) -> None:
        """Leave those in which what is typed stands."""
        self._show()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Open the marked one."""
        event.stop()
        self.action_open()

    def on_option_list_option_selected(self) -> None:
        """Open the marked one."""
        self.action_open()

    def action_open(self) -> None:
        """Open the page of the marked instrument."""
        marked = self.query_one(Rows).marked
        if marked is not None:
            self.casebook.instrument(marked)

    def action_into(self) -> None:
        """From the field into the list."""
        self.set_focus(self.query_one(Rows))

    def action_again(self) -> None:
        """Back into the field."""
        self.set_focus(self.query_one(TextLine))


def _count(rows: list[InstrumentRow]) -> str:
    return f"{len(rows)} instrument{'' if len(rows) == 1 else 's'}"


def _cells(row: InstrumentRow) -> list[str]:
    thing = ", ".join(filter(None, (row.instrument.kind or "instrument", row.instrument.description)))
    visits = len(row.cases)
    return [
        thing,
        row.owner,
        str(row.last or "(no date)"),
        f"{visits} visit{'' if visits == 1 else 's'}",
    ]
