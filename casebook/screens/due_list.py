"""What is due to be looked at and what will be, what is overdue first; and the way into a calendar."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from casebook.bench.calendar_file import InTheWay, write_calendar
from casebook.bench.due import Due
from casebook.bench.wood_rest import day_words
from casebook.screens.background_room import BackgroundRoom
from casebook.screens.form import Entry, Form
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, FAINT, WRONG, joined, line, lines, plain
from casebook.screens.rows import Rows

_EMPTY = (
    "No repair waits to be looked at.",
    "One does four to six weeks after it went back, and again after a heating season (common practice).",
)
_FILE = "casebook-looks.ics"


class DueScreen(BackgroundRoom[list[Due]]):
    """The repairs to look at again."""

    HELP = (
        "The repairs to look at again, after four to six weeks and after a heating season; what is overdue "
        "stands first, what comes later last in its place by day. Enter opens the repair, where l keeps how "
        "it held. i writes the days into a file that any calendar program reads; no owner is named in it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the marked repair, to keep how it held."),
        key("i", "calendar", "into a calendar", "Write the days to a calendar file."),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._dues: dict[str, Due] = {}

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="empty")
        yield Rows([9, 9, -1, 22], id="dues")
        with VerticalScroll(id="job", can_focus=False):
            yield Static(id="job-text")

    def on_mount(self) -> None:
        """Say what is being done."""
        self.heading.say("To be looked at", "looking ...")

    def read(self) -> list[Due]:
        """Read what is due."""
        return self.desk.due()

    def show(self, dues: list[Due]) -> None:
        """Show what is due."""
        self._dues = {f"{due.case} {due.damage}": due for due in dues}
        self.heading.say("To be looked at", _count(dues, self.desk.today))
        empty = self.query_one("#empty", Static)
        empty.display = not dues
        empty.update(lines([plain(_EMPTY[0], BOLD), "", plain(_EMPTY[1], FAINT)]))
        rows = self.query_one(Rows)
        rows.display = bool(dues)
        rows.fill([(id, _cells(due, self.desk.today)) for id, due in self._dues.items()])
        self._tell()
        if dues and self.focused is None:
            self.set_focus(rows)
        self.query_one(KeyLine).again()

    @property
    def _marked(self) -> Due | None:
        return self._dues.get(self.query_one(Rows).marked or "")

    def on_option_list_option_highlighted(self) -> None:
        """Tell more of the marked one."""
        self._tell()

    def _tell(self) -> None:
        due = self._marked
        self.query_one("#job").display = due is not None
        if due is not None:
            self.query_one("#job-text", Static).update(_told(due, self.desk.today))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Without anything due there is nothing to open or to write."""
        if action in ("open", "calendar") and not self._dues:
            return False
        return super().check_action(action, parameters)

    def on_option_list_option_selected(self) -> None:
        """Open the marked one."""
        self.action_open()

    def action_open(self) -> None:
        """Open the marked repair."""
        if self._marked is not None:
            self.casebook.open_damage(self._marked.case, self._marked.damage)

    def action_calendar(self) -> None:
        """Ask where, then write the calendar."""
        refused, dues = "", tuple(self._dues.values())

        def take(written: dict[str, str]) -> None:
            nonlocal refused
            place = written["place"]
            try:
                path = write_calendar(place, self.desk.due_calendar(dues=dues), over=place == refused)
            except InTheWay:
                refused = place
                raise InTheWay(
                    f"{place.strip()} is another file: F2 once more writes over it, or name a new one"
                ) from None
            self.notify(f"Written to {path}.", timeout=3, markup=False)

        entries = [Entry("place", "File", value=str(Path.home() / _FILE), needed=True)]
        note = "A calendar made here before is written anew, so that no day stands in it twice."
        self.app.push_screen(Form("The days into a calendar", entries, take, note))


def _count(dues: list[Due], today: date) -> str:
    if not dues:
        return ""
    words = [_when(due, today)[2] for due in dues]
    return ", ".join(f"{words.count(word)} {word}" for word in ("overdue", "now", "later") if word in words)


def _when(due: Due, today: date) -> tuple[str, str, str]:
    """Say when it is due: style, glyph, word."""
    if due.overdue:
        return WRONG, "!", "overdue"
    return ("", "=", "now") if due.since <= today else (FAINT, " ", "later")


def _cells(due: Due, today: date) -> list[Content | str]:
    style, glyph, word = _when(due, today)
    until = f"from {_day(due.since, today)}" if word == "later" else f"until {_day(due.until, today)}"
    what = ": ".join(filter(None, (due.place, due.title)))
    return [line(f"{glyph} {word}", style), due.case, what, line(until, style)]


def _told(due: Due, today: date) -> Content:
    told = (
        ("where", due.place),
        ("done", due.done),
        ("look", f"{due.why}: {_day(due.since, today)} to {_day(due.until, today)}"),
    )
    head = plain(f"{due.case}{f'/{due.damage}' if due.damage > 1 else ''}  {due.title}", BOLD)
    return lines([head, *(joined(plain(f"{name:7}", FAINT), line(words)) for name, words in told if words)])


def _day(day: date, today: date) -> str:
    """Word a day; its year where it is not this one."""
    return f"{day_words(day)}{f' {day.year}' if day.year != today.year else ''}"
