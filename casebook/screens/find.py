"""Find: cases by what somebody remembers, as it is typed."""

from __future__ import annotations

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input, Static
from textual.worker import get_current_worker

from casebook.bench.likeness import Finds, find_cases
from casebook.screens.fields import TextLine
from casebook.screens.found import Found
from casebook.screens.keys import key
from casebook.screens.plain import FAINT, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows

_MOST = 50


class FindScreen(Room):
    """A field to type into, and what it finds."""

    HELP = (
        "Type whatever you remember: words, sizes in any unit, a note, a number. Slips of the finger "
        "are mended. Down goes into the list; Enter opens the marked case."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the marked case."),
        key("down", "into", "list", "From the field into the list.", show=False),
        key("slash,f3", "again", "type anew", "Back into the field."),
    ]

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield TextLine(placeholder="words, sizes, a number: what you remember of it", id="words")
        yield Static(id="said")
        yield Found()

    def on_mount(self) -> None:
        """Begin in the field."""
        self.heading.say("Find", "")
        self.set_focus(self.query_one(TextLine))

    def renew(self) -> None:
        """Search anew: a case may have changed."""
        self._search(self.query_one(TextLine).value)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Search for what is typed so far."""
        self._search(event.value)

    @work(thread=True, exclusive=True, group="search", exit_on_error=False)
    def _search(self, words: str) -> None:
        worker = get_current_worker()
        try:
            finds = find_cases(self.desk, words, _MOST) if words.strip() else Finds((), {}, ())
        except Exception as error:
            if not worker.is_cancelled:
                self.app.call_from_thread(self.casebook.trouble, error)
            return
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show, words, finds)

    def _show(self, words: str, finds: Finds) -> None:
        if not self.is_mounted or words != self.query_one(TextLine).value:
            return
        said = [f"showing {used} for {typed}" for typed, used in finds.corrected.items()]
        said += [f"{word} stands nowhere" for word in finds.nowhere]
        if words.strip() and not finds.hits:
            said = ["nothing found; fewer or other words may find it"]
        self.query_one("#said", Static).update(plain("; ".join(said), FAINT))
        count = len(finds.hits)
        self.heading.say("Find", f"{count} found" if words.strip() else "")
        self.query_one(Found).say(finds.hits)

    def on_input_submitted(self) -> None:
        """Open the marked case."""
        self.action_open()

    def on_found_opened(self, event: Found.Opened) -> None:
        """Open it."""
        self.casebook.open_case(event.case)

    def action_open(self) -> None:
        """Open the marked case."""
        marked = self.query_one(Found).marked
        if marked is not None:
            self.casebook.open_case(marked.case)

    def action_into(self) -> None:
        """From the field into the list."""
        self.set_focus(self.query_one(Rows))

    def action_again(self) -> None:
        """Back into the field."""
        self.set_focus(self.query_one(TextLine))
