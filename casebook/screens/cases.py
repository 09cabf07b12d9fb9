"""The first screen: every job by what it waits for, and what is due to be looked at."""

from __future__ import annotations

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static
from textual.worker import get_current_worker

from casebook.bench.bench_list import BenchLine
from casebook.bench.stage import BenchRow, bench_rows
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, FAINT, WRONG, joined, line, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows

_EMPTY = (
    "Nothing lies on the bench.",
    "n takes an instrument in. c is for the counter, t for the telephone. / finds a case of the past.",
)


class CasesScreen(Room):
    """The jobs by what each waits for, what is late first."""

    HELP = (
        "Every job by what it waits for; what is late stands first, marked with !. A wait for glue or wood "
        "ends by itself. Arrows move, Enter opens. Everything is kept the moment it is typed: leave whenever "
        "you like."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the marked job; one that is due, where it was repaired."),
        key("n", "take_in", "new", "Take an instrument in."),
        key("c", "counter", "counter", "At the counter: what does it do, two quick tests, a quick job."),
        key("t", "telephone", "telephone", "Somebody asks on the telephone what it will cost."),
        key("slash,f3", "find", "find", "Find a case by what you remember of it."),
        key("d", "due", "due", "What is due to be looked at again, and the calendar of it."),
        key("i", "instruments", "instruments", "Instruments that have been here, with their visits."),
        key("w,f6", "worksheets", "worksheets", "Shop calculations, without a case."),
        key("s", "shop", "shop", "The shop's settings: prices, people, reading errors, rules, drawer."),
        key("a", "all", "finished too", "Show the finished cases as well, or leave them out."),
        key("q", "leave", "quit", "Leave. Everything is kept already."),
        key("escape", "nothing", "", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._all = False
        # What stands in the list: id of the row -> the job, or the finished case.
        self._rows: dict[str, BenchLine | BenchRow] = {}

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="empty")
        yield Rows([8, -5, 7, -5], id="cases")
        with VerticalScroll(id="job", can_focus=False):
            yield Static(id="job-text")

    def on_mount(self) -> None:
        """Say what is being done until the book is open."""
        self.heading.say("On the bench", "opening the book ...")

    def renew(self) -> None:
        """Read the list anew."""
        self._read()

    @work(thread=True, exclusive=True, group="list", exit_on_error=False)
    def _read(self) -> None:
        worker = get_current_worker()
        try:
            rows = bench_rows(self.desk, None) if self._all else self.desk.bench_list()
        except Exception as error:
            if not worker.is_cancelled:
                self.app.call_from_thread(self.casebook.trouble, error)
            return
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show, rows)

    def _show(self, rows: list[BenchLine] | list[BenchRow]) -> None:
        if not self.is_mounted:
            return
        self._rows = {_id(row): row for row in rows}
        self.heading.say("All cases" if self._all else "On the bench", self._count(rows))
        empty = self.query_one("#empty", Static)
        empty.display = not rows
        empty.update(lines([plain(_EMPTY[0], BOLD), "", plain(_EMPTY[1], FAINT)]))
        table = self.query_one("#cases", Rows)
        table.display = bool(rows)
        table.fill([(id, _cells(row)) for id, row in self._rows.items()])
        self._tell()
        if rows and self.focused is None:
            self.set_focus(table)

    def _count(self, rows: list[BenchLine] | list[BenchRow]) -> str:
        if self.casebook.parked:
            return f"parked: {self.casebook.parked}: ^T goes back to it"
        due = sum(1 for row in rows if isinstance(row, BenchLine) and row.damage)
        late = sum(1 for row in rows if isinstance(row, BenchLine) and row.overdue and not row.damage)
        jobs = len(rows) - due
        said = [f"{late} late"] if late else []
        said += [f"{jobs} case{'' if jobs == 1 else 's'}"] if jobs else []
        said += [f"{due} to look at again"] if due else []
        return ", ".join(said)

    def on_option_list_option_highlighted(self) -> None:
        """Tell more of the marked job."""
        self._tell()

    def _tell(self) -> None:
        row = self._rows.get(self.query_one("#cases", Rows).marked or "")
        panel = self.query_one("#job")
        panel.display = isinstance(row, BenchLine)
        if isinstance(row, BenchLine):
            self.query_one("#job-text", Static).update(_told(row))

    def on_option_list_option_selected(self) -> None:
        """Open the marked job."""
        self.action_open()

    def action_open(self) -> None:
        """Open the marked job."""
        row = self._rows.get(self.query_one("#cases", Rows).marked or "")
        if row is None:
            return
        if isinstance(row, BenchLine) and row.damage:
            self.casebook.open_damage(row.number, row.damage)
        else:
            self.casebook.open_case(row.number)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Until the book is open one can only wait, ask for help or leave."""
        if action in ("open", "all", "leave", "nothing", "help", "back") or self.casebook.is_open:
            return super().check_action(action, parameters)
        return False

    def action_take_in(self) -> None:
        """Take an instrument in."""
        self.casebook.take_in()

    def action_counter(self) -> None:
        """Serve somebody at the counter."""
        self.casebook.counter()

    def action_telephone(self) -> None:
        """Say a price on the telephone."""
        self.casebook.phone_call()

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()

    def action_due(self) -> None:
        """Show what is due to be looked at again."""
        self.casebook.due()

    def action_instruments(self) -> None:
        """Show the instruments that have been here."""
        self.casebook.instruments()

    def action_shop(self) -> None:
        """Show the shop's settings."""
        self.casebook.shop()

    def action_worksheets(self) -> None:
        """Calculate without a case."""
        self.casebook.worksheets()

    def action_all(self) -> None:
        """Show finished cases too, or not."""
        self._all = not self._all
        if self.casebook.is_open:
            self.renew()

    def action_leave(self) -> None:
        """Leave; what lies parked is gone back to first."""
        if self.casebook.parked:
            self.call_later(self.casebook.action_park)
        else:
            self.app.exit()

    def action_nothing(self) -> None:
        """Stay: there is nothing behind the first screen."""


def _id(row: BenchLine | BenchRow) -> str:
    return f"{row.number} {row.damage}" if isinstance(row, BenchLine) else row.number


def _cells(row: BenchLine | BenchRow) -> list[Content | str]:
    if isinstance(row, BenchRow):
        return [row.number, _both(row.instrument, row.title), "", row.waits_for]
    style = WRONG if row.overdue else ""
    waits = line(f"{'!' if row.overdue else ' '} {row.waits_for}", style)
    return [row.number, _both(row.instrument, row.title), waits, f"{'late: ' * row.overdue}{row.says}"]


def _both(instrument: str, title: str) -> str:
    kind = instrument.partition(",")[0]
    return f"{kind}: {title}" if kind else title


def _told(row: BenchLine) -> Content:
    """Tell of a job what its row has no room for."""
    parts = [plain(_both(row.instrument, row.title), BOLD)]
    told = (
        ("instrument", row.instrument),
        ("waits for", f"{row.waits_for}: {row.says}"),
        ("needed by", row.needed),
        ("came with", row.came_in_with),
        ("lent", row.loaned_out),
    )
    parts += [joined(plain(f"{name:11}", FAINT), line(words)) for name, words in told if words]
    return lines(parts)
