"""Like it: damages of the past like the one on the bench, and how they turned out."""

from __future__ import annotations

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Static
from textual.worker import get_current_worker

from casebook.bench.likeness import Like, like_this
from casebook.screens.found import Found
from casebook.screens.keys import key
from casebook.screens.plain import FAINT, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows

_MOST = 30


class LikeItScreen(Room):
    """The likest damages of the same family.

    Args:
        number: the case.
        damage: the damage's number.
        title: what they are like.
    """

    HELP = (
        "Damages of the same family, the likest first: what is the same, what differs, what was done, "
        "and how it held. Enter opens the marked case; Esc comes back to where you were."
    )
    BINDINGS: ClassVar[list[BindingType]] = [key("enter", "open", "open", "Open the marked case.")]

    def __init__(self, number: str, damage: int) -> None:
        super().__init__()
        self._number, self._damage = number, damage

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="said")
        yield Found()

    def renew(self) -> None:
        """Look for the like of it."""
        self.heading.say(f"Like {self._number}, damage {self._damage}", "looking ...")
        self._search()

    @work(thread=True, exclusive=True, group="search", exit_on_error=False)
    def _search(self) -> None:
        worker = get_current_worker()
        try:
            likes = like_this(self.desk, self._number, self._damage, _MOST)
        except Exception as error:
            if not worker.is_cancelled:
                self.app.call_from_thread(self.casebook.trouble, error)
            return
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show, likes)

    def _show(self, likes: list[Like]) -> None:
        if not self.is_mounted:
            return
        self.heading.say(f"Like {self._number}, damage {self._damage}", f"{len(likes)} like it")
        said = "" if likes else "Nothing like it yet. The more of it is answered, the more can be compared."
        self.query_one("#said", Static).update(plain(said, FAINT))
        self.query_one(Found).say(likes)
        self.set_focus(self.query_one(Rows))

    def on_found_opened(self, event: Found.Opened) -> None:
        """Open it."""
        self.casebook.open_case(event.case)

    def action_open(self) -> None:
        """Open the marked case."""
        marked = self.query_one(Found).marked
        if marked is not None:
            self.casebook.open_case(marked.case)
