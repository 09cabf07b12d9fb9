"""The drawer: what lies on each shelf, as the shop writes it, and how that is understood."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from casebook.bench.shop_keeping import NotKept
from casebook.bench.shop_shelves import ShelfLine, shelves_of, understood, words_for_pieces
from casebook.screens.form import Entry, Form
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, FAINT, WRONG, joined, line, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.way import Way


class DrawerScreen(Room):
    """The shelves of the drawer."""

    HELP = (
        "What is in the drawer. Every worksheet chooses from a shelf that is kept, and says what is missing; "
        "a shelf that is not kept stands for the standard series. Enter writes a shelf on one line: sizes "
        "with commas, a series as 2 mm to 10 mm by 0.5 mm, drills also as number set, letter set, fraction "
        "set, metric set."
    )
    BINDINGS: ClassVar[list[BindingType]] = [key("enter", "change", "change", "Write down a shelf.")]

    def __init__(self) -> None:
        super().__init__()
        self._shelves: dict[str, ShelfLine] = {}

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Rows([10, 10, -1], id="shelves")
        with VerticalScroll(id="job", can_focus=False):
            yield Static(id="job-text")

    def renew(self) -> None:
        """Show the shelves."""
        self._shelves = {shelf.name: shelf for shelf in shelves_of(self.desk)}
        kept = sum(1 for shelf in self._shelves.values() if shelf.pieces)
        self.heading.say("The shop: drawer", f"{kept} of {len(self._shelves)} shelves kept")
        rows = self.query_one(Rows)
        rows.fill([(name, [name, _count(shelf), _written(shelf)]) for name, shelf in self._shelves.items()])
        self._tell()
        if self.focused is None:
            self.set_focus(rows)

    def on_option_list_option_highlighted(self) -> None:
        """Tell more of the marked shelf."""
        self._tell()

    def _tell(self) -> None:
        shelf = self._shelves.get(self.query_one(Rows).marked or "")
        if shelf is None:
            return
        said = words_for_pieces(shelf.pieces) if shelf.pieces else "none kept: the standard series"
        self.query_one("#job-text", Static).update(
            lines([
                joined(line(shelf.name, BOLD), "  ", line(shelf.holds, FAINT)),
                line(shelf.written) if shelf.written else line(f"as {shelf.example}", FAINT),
                line(said, FAINT),
            ])
        )  # fmt: skip

    def on_option_list_option_selected(self) -> None:
        """Write down the marked shelf."""
        self.action_change()

    def action_change(self) -> None:
        """Write down the marked shelf."""
        shelf = self._shelves.get(self.query_one(Rows).marked or "")
        if shelf is not None:
            self.app.push_screen(ShelfForm(self.casebook, shelf), lambda _: self.renew())


def _count(shelf: ShelfLine) -> Content:
    count = len(shelf.pieces)
    return line(f"{count} piece{'' if count == 1 else 's'}" if count else "", FAINT)


def _written(shelf: ShelfLine) -> Content:
    return line(shelf.written) if shelf.written else line("the standard series", FAINT)


class ShelfForm(Form):
    """One shelf on one line; how it is understood is told while it is typed.

    Args:
        shop: the way through the screens.
        shelf: the shelf.
    """

    def __init__(self, shop: Way, shelf: ShelfLine) -> None:
        def take(written: dict[str, str]) -> None:
            shop.change_shop((("drawer", shelf.name), written["shelf"].strip() or None))

        note = shelf.holds[:1].upper() + shelf.holds[1:]
        if shelf.sensible:
            note += f", each from {shelf.sensible}"
        entry = Entry("shelf", shelf.name, value=shelf.written, hint=shelf.example)
        super().__init__(
            f"The drawer: {shelf.name}", [entry], take, f"{note}. Left empty: the standard series."
        )
        self._shelf, self._shop = shelf.name, shop

    def on_input_changed(self, event: Input.Changed) -> None:
        """Tell how what is typed so far is understood."""
        event.stop()
        unit = self._shop.desk.shop.unit if self._shop.desk.shop else "mm"
        try:
            pieces = understood(self._shelf, event.value, unit)
        except NotKept as problem:
            self._tell(plain(str(problem), WRONG))
        else:
            self._tell(plain(f"understood as {words_for_pieces(pieces)}" if pieces else "", FAINT))

    def _tell(self, said: Content) -> None:
        self.query_one("#wrong", Static).update(said)
