"""Lists of the shop, each an entry a row: who works here, the flat prices, the glues."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Static

from casebook.bench.file_lines import Written
from casebook.bench.shop import Shop
from casebook.bench.shop_keeping import Change, NotKept
from casebook.bench.shop_settings import strategies_of
from casebook.bench.shop_text import money_text
from casebook.bench.typed import read_day
from casebook.screens.form import Entry, Form
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import FAINT, WRONG, line, plain
from casebook.screens.room import Room
from casebook.screens.rows import Row, Rows
from casebook.screens.shop_forms import without
from casebook.screens.trouble import trouble_shown


class ShopList(Room):
    """A list of the shop; what is taken out can be put back while the list is open."""

    KEY: ClassVar[str] = ""
    NAME: ClassVar[str] = ""
    EMPTY: ClassVar[str] = ""
    WIDTHS: ClassVar[tuple[int, ...]] = ()
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "change", "change", "Change the marked entry."),
        key("n", "new", "new", "A new entry."),
        key("x", "take_out", "take out", "Take the marked entry out."),
        key("u", "put_back", "put back", "Put back what was taken out last."),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._gone: list[tuple[str, Written]] = []

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(plain(self.EMPTY, FAINT), id="empty")
        yield Rows(self.WIDTHS, id="entries")

    def renew(self) -> None:
        """Show the list."""
        rows = self.rows()
        self.heading.say(f"The shop: {self.NAME}", f"{len(rows)} in the list" if rows else "")
        self.query_one("#empty").display = not rows
        table = self.query_one(Rows)
        table.display = bool(rows)
        table.fill(rows)
        if rows and self.focused is None:
            self.set_focus(table)
        self.query_one(KeyLine).again()

    @property
    def here(self) -> Shop:
        """The shop."""
        return self.desk.shop or Shop()

    def rows(self) -> list[Row]:
        """Give the rows; the id of each is its place in the file's list, or its key."""
        raise NotImplementedError

    def entries(self, id: str | None) -> list[Entry]:
        """Give the fields of the form for an entry; of None for a new one."""
        raise NotImplementedError

    def changes(self, id: str | None, typed: dict[str, str]) -> list[Change]:
        """Give the changes of the file that keep what was typed."""
        raise NotImplementedError

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer what there is something for."""
        if action == "put_back":
            return bool(self._gone)
        return super().check_action(action, parameters)

    def on_option_list_option_selected(self) -> None:
        """Change the marked entry."""
        self.action_change()

    def action_change(self) -> None:
        """Change the marked entry."""
        marked = self.query_one(Rows).marked
        if marked is None:
            self.action_new()
        else:
            self._open(marked)

    def action_new(self) -> None:
        """Write a new entry."""
        self._open(None)

    def _open(self, id: str | None) -> None:
        def take(typed: dict[str, str]) -> None:
            self.casebook.change_shop(*self.changes(id, {name: one.strip() for name, one in typed.items()}))

        title = f"{self.NAME[:1].upper()}{self.NAME[1:]}" + (": a new entry" if id is None else "")
        self.app.push_screen(Form(title, self.entries(id), take), lambda _: self.renew())

    def action_take_out(self) -> None:
        """Take the marked entry out."""
        marked, file = self.query_one(Rows).marked, self.desk.shop_file
        if marked is None:
            return
        with trouble_shown(self.app):
            node: Any = file.written.get(self.KEY) if file else None
            place = self.place(marked)
            entry = None if node is None else node[place]
            self.casebook.change_shop(((self.KEY, place), None))
            if entry is not None:
                self._gone.append((marked, entry))
        self.renew()

    def action_put_back(self) -> None:
        """Put back what was taken out last."""
        with trouble_shown(self.app):
            id, entry = self._gone[-1]
            self.casebook.change_shop(((self.KEY, self.place(id, back=True)), entry))
            self._gone.pop()
        self.renew()

    def place(self, id: str, *, back: bool = False) -> str | int:
        """Give the place of an entry in the file; what is put back comes last."""
        return len(self.rows()) if back else int(id)


class People(ShopList):
    """Who works here."""

    KEY, NAME, WIDTHS = "people", "who works here", (12, -1)
    EMPTY = "Nobody is named. n names somebody, by the initials that stand at the steps of the work."
    HELP = "Who works here: initials, which stand at every step of the work, and the name they are for."

    def rows(self) -> list[Row]:
        """Give a row a person."""
        return [(initials, [initials, name]) for initials, name in self.here.people.items()]

    def place(self, id: str, *, back: bool = False) -> str | int:  # noqa: ARG002
        """Give the initials."""
        return id

    def entries(self, id: str | None) -> list[Entry]:
        """Give initials and name."""
        name = self.here.people.get(id or "", "")
        return [Entry("initials", "Initials", value=id or "", needed=True), Entry("name", "Name", value=name)]

    def changes(self, id: str | None, typed: dict[str, str]) -> list[Change]:
        """Keep a name; somebody without one is called by the initials."""
        initials = " ".join(typed["initials"].split())
        if initials != id and initials in self.here.people:
            raise NotKept(f"Initials: {initials} stands for {self.here.people[initials]} already")
        kept: Change = (("people", initials), typed["name"] or initials)
        return [kept] if id in (None, initials) else [kept, (("people", str(id)), None)]


class Prices(ShopList):
    """The flat price list."""

    KEY, NAME, WIDTHS = "prices", "price list", (-3, 12, -4)
    EMPTY = "No flat prices. n writes one down; a quote takes it for the strategies it is the price of."
    HELP = (
        "Flat prices, before tax. s says which strategies a price is for, so that a quote takes it instead "
        "of hours; one without is a line to read from. x takes one out, u puts it back."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("s", "strategies", "what for", "Say which strategies the marked price is for.")
    ]

    def rows(self) -> list[Row]:
        """Give a row a price."""
        known, money = strategies_of(self.desk.library), self.here.money
        return [
            (f"{place}", [one.work, money_text(one.price, money.currency), self._for(one.strategies, known)])
            for place, one in enumerate(money.prices)
        ]

    @staticmethod
    def _for(ids: Sequence[str], known: dict[str, tuple[str, str]]) -> Content:
        lost = [id for id in ids if id not in known]
        if lost:
            return line(f"! not in the rule packs: {', '.join(lost)}", WRONG)
        return line("; ".join(known[id][1] for id in ids) or "s: what for?", "" if ids else FAINT)

    def entries(self, id: str | None) -> list[Entry]:
        """Give work and price."""
        one = None if id is None else self.here.money.prices[int(id)]
        price = f"{one.price:.10g}" if one else ""
        return [
            Entry("work", "Work", value=str(one.work) if one else "", hint="new needle spring", needed=True),
            Entry("price", "Price", value=price, hint="25, before tax", needed=True),
        ]

    def changes(self, id: str | None, typed: dict[str, str]) -> list[Change]:
        """Keep work and price."""
        price = without(typed["price"], self.here.money.currency) or ""
        if id is None:
            return [(("prices", len(self.here.money.prices)), {"work": typed["work"], "price": price})]
        return [(("prices", int(id), "work"), typed["work"]), (("prices", int(id), "price"), price)]

    def action_strategies(self) -> None:
        """Say which strategies the marked price is for."""
        from casebook.screens.price_of import PriceOfScreen

        marked = self.query_one(Rows).marked
        if marked is not None:
            self.app.push_screen(PriceOfScreen(int(marked)))


class Glues(ShopList):
    """Glues, fillers and finishes."""

    KEY, NAME, WIDTHS = "glues", "glues", (-1, 12, 22)
    EMPTY = "No glue is listed. n writes one down with the day it was opened."
    HELP = (
        "What ages once it is opened. One that is older than it keeps is marked: try it first, or open a new "
        "one. Enter on it and 'today' as the day is all a new bottle takes."
    )

    def rows(self) -> list[Row]:
        """Give a row a glue."""
        return [
            (f"{n}", [g.name, g.opened.isoformat(), self._keeps(n)]) for n, g in enumerate(self.here.glues)
        ]

    def _keeps(self, place: int) -> Content:
        glue = self.here.glues[place]
        if glue.over(self.desk.today):
            return line("! older than it keeps", WRONG)
        return line("" if glue.keeps_months is None else f"keeps {glue.keeps_months} months", FAINT)

    def entries(self, id: str | None) -> list[Entry]:
        """Give name, day and months."""
        one = None if id is None else self.here.glues[int(id)]
        months = "" if one is None or one.keeps_months is None else f"{one.keeps_months}"
        return [
            Entry("name", "Glue", value=one.name if one else "", hint="two-part epoxy, slow", needed=True),
            Entry("opened", "Opened", value=one.opened.isoformat() if one else "today", needed=True),
            Entry("keeps_months", "Keeps months", value=months, hint="24; what its sheet says"),
        ]

    def changes(self, id: str | None, typed: dict[str, str]) -> list[Change]:
        """Keep name, day and months."""
        day = read_day(typed["opened"], self.desk.today)
        said: dict[str, str] = {"name": typed["name"], "opened": day.isoformat() if day else ""}
        months = without(typed["keeps_months"], "months")
        if id is None:
            return [(("glues", len(self.here.glues)), said | ({"keeps_months": months} if months else {}))]
        place = int(id)
        changes: list[Change] = [(("glues", place, name), value) for name, value in said.items()]
        return [*changes, (("glues", place, "keeps_months"), months)]


LISTS: dict[str, type[ShopList]] = {"people": People, "prices": Prices, "glues": Glues}
