"""The page of one instrument: its visits, what was done where, and how each repair turned out."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from casebook.bench.visits import InstrumentPage
from casebook.screens.again_form import again_form
from casebook.screens.background_room import BackgroundRoom
from casebook.screens.instrument_text import by_place, known_of, thing_name, visit_rows
from casebook.screens.keys import KeyLine, key
from casebook.screens.rows import Rows


class InstrumentScreen(BackgroundRoom[InstrumentPage]):
    """One instrument.

    Args:
        uid: the instrument's uid.
    """

    HELP = (
        "One instrument with all its visits, the earliest first; below each visit what was repaired then. "
        "Under the list: what was done where, with how it turned out, the marked place first. n takes it in "
        "again and starts from what is known; a repair that came back is named there. l opens the marked "
        "repair, to keep how it held."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the case of the marked visit."),
        key("n", "take_in", "take in again", "Take it in again; it starts from what is known."),
        key("l", "repair", "held?", "Open the marked repair: how it held."),
        key("slash,f3", "find", "find", "Find a case by what you remember of it."),
    ]

    def __init__(self, uid: str) -> None:
        super().__init__()
        self._uid = uid
        self._page: InstrumentPage | None = None

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="known")
        yield Rows([9, 10, -4, -3], id="visits")
        with VerticalScroll(id="places", can_focus=False):
            yield Static(id="done")

    def read(self) -> InstrumentPage:
        """Read the page."""
        return self.desk.instrument(self._uid)

    def show(self, page: InstrumentPage) -> None:
        """Show the page."""
        count, known = len(page.visits), len(self._page.visits) if self._page else 0
        self._page = page
        self.heading.say(thing_name(page.instrument), f"{count} visit{'' if count == 1 else 's'}")
        self.query_one("#known", Static).update(known_of(self.desk, page))
        rows = self.query_one(Rows)
        # What came in last is what one usually looks for.
        rows.fill(visit_rows(page), keep=page.visits[-1].case if count > known else None)
        if self.focused is None:
            self.set_focus(rows)
        self._tell()

    @property
    def _marked(self) -> tuple[str, int]:
        """The case of the marked row, and the damage, 0 on the row of a visit."""
        case, _, damage = (self.query_one(Rows).marked or "").partition(" ")
        return case, int(damage or 0)

    @property
    def _repair(self) -> tuple[str, int] | None:
        """The marked repair that was done, or the only one of the marked visit; None where there is none."""
        case, damage = self._marked
        visits = self._page.visits if self._page else ()
        done = [one.damage for visit in visits for one in visit.done if one.done and one.case == case]
        return (case, damage or done[0]) if damage in done or (not damage and len(done) == 1) else None

    def on_option_list_option_highlighted(self) -> None:
        """Show the marked place first."""
        self._tell()

    def _tell(self) -> None:
        if self._page is not None:
            self.query_one("#done", Static).update(by_place(self._page, *self._marked))
            self.query_one("#places", VerticalScroll).scroll_home(animate=False)
            self.query_one(KeyLine).again()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Only a repair that was done can have held."""
        if action == "repair":
            return self._page is not None and self._repair is not None
        return super().check_action(action, parameters)

    def on_option_list_option_selected(self) -> None:
        """Open the case of the marked visit."""
        self.action_open()

    def action_open(self) -> None:
        """Open the case of the marked visit."""
        case, _ = self._marked
        if case:
            self.casebook.open_case(case)

    def action_repair(self) -> None:
        """Open the marked repair."""
        if self._repair is not None:
            self.casebook.open_damage(*self._repair)

    def action_take_in(self) -> None:
        """Take it in again."""
        if self._page is not None:
            self.app.push_screen(again_form(self.desk, self._page, self.casebook.taken_in))

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()
