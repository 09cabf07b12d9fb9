"""On the telephone: the price ready to read out, over all damages of one instrument."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from casebook.bench.consent import PAYER_CAUTIONS, payer_of
from casebook.bench.quote import URGENCIES, Part, Quote, quote
from casebook.bench.quoting import (
    as_said,
    left_out,
    materials_of,
    money_of,
    over_agreed,
    parts_of,
    say_urgency,
)
from casebook.records.amount import read_amount
from casebook.records.case import Case
from casebook.screens.background_room import BackgroundRoom
from casebook.screens.damage_form import damage_form
from casebook.screens.form import Entry, Form
from casebook.screens.keys import KeyLine, key
from casebook.screens.phone_text import apart, in_it, part_rows, part_text, said
from casebook.screens.plain import BOLD, FAINT, plain
from casebook.screens.rows import Rows
from casebook.screens.trouble import trouble_shown


@dataclass(frozen=True, slots=True)
class ToQuote:
    """What is quoted, as it was read.

    Attributes:
        case: the case.
        parts: its damages that are neither declined nor done.
        over: damage -> that its likely price is more than was agreed, in a line.
        left_out: what is not in the price and why, a line each.
    """

    case: Case
    parts: tuple[Part, ...]
    over: dict[int, str]
    left_out: tuple[str, ...]


class PhoneScreen(BackgroundRoom[ToQuote]):
    """A case on the telephone.

    Args:
        number: the case's number.
    """

    HELP = (
        "Read the sentence at the top out as it stands. Below it every damage: what must be done, what "
        "should, what can wait and is left out of the price (u). n adds a damage, Enter answers its "
        "questions, which makes the price closer; k keeps what the owner says to it. Taking down and "
        "regulating is charged once, however many damages."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("n", "add_damage", "damage", "Write down one more damage."),
        key("enter", "open", "ask", "Answer the questions of the marked damage."),
        key("u", "urgency", "how soon", "Must it be done, should it, or can it wait?"),
        key("k", "consent", "consent", "What they say to the marked damage: yes, no, later; up to how much."),
        key("m", "materials", "materials", "The price of parts and materials."),
        key("s,f7", "shop", "shop", "The shop's settings, where the hourly rate is set."),
        key("slash,f3", "find", "find", "Find a case by what you remember of it.", show=False),
        *[key(f"{n}", f"open_number({n})", "", show=False) for n in range(1, 10)],
    ]

    def __init__(self, number: str) -> None:
        super().__init__()
        self._number = number
        self._read_so: ToQuote | None = None
        self._quote: Quote | None = None
        self._new = ""

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="say")
        yield Static(id="in-it")
        yield Rows([10, -2, -3, 15], numbered=True, id="parts")
        with VerticalScroll(id="job", can_focus=False):
            yield Static(id="job-text")
            yield Static(id="apart")

    def on_mount(self) -> None:
        """Say what is being done."""
        self.heading.say(f"{self._number}  on the telephone", "reckoning ...")

    # -- showing -----------------------------------------------------------------------------------------

    def read(self) -> ToQuote:
        """Read what is to be quoted."""
        case = self.desk.book.case(self._number)
        parts = parts_of(self.desk, case)
        over = over_agreed(self.desk, self._number, parts)
        return ToQuote(case, tuple(parts), over, left_out(self.desk, case))

    def show(self, read: ToQuote) -> None:
        """Show it."""
        self._read_so = read
        thing = ", ".join(filter(None, (read.case.instrument.kind, read.case.owner)))
        self.heading.say(f"{read.case.number}  {read.case.title}", thing or "on the telephone")
        self.query_one("#apart", Static).update(apart(read.left_out))
        self._reckon()

    def _reckon(self) -> None:
        """Make the price from what was read."""
        read = self._read_so
        if read is None:
            return
        self._quote = made = quote(read.parts, money_of(self.desk), materials_of(read.case))
        self.query_one("#say", Static).update(
            said(made) if read.case.damages else plain("No damage yet: n writes one down.", BOLD)
        )
        more = self.query_one("#in-it", Static)
        more.update(plain(in_it(made), FAINT))
        more.display = made.result is not None and bool(in_it(made))
        rows = self.query_one(Rows)
        rows.fill(part_rows(read.parts, read.over, made.money.currency), keep=self._new or None)
        self._new = ""
        if self.focused is None:
            self.set_focus(rows)
        self._tell()
        self.query_one(KeyLine).again()

    @property
    def _marked(self) -> Part | None:
        marked = self.query_one(Rows).marked
        parts = self._quote.parts if self._quote else ()
        return next((one for one in parts if f"{one.number}" == marked), None)

    def on_option_list_option_highlighted(self) -> None:
        """Tell more of the marked damage."""
        self._tell()

    def _tell(self) -> None:
        read, part = self._read_so, self._marked
        text = self.query_one("#job-text", Static)
        text.display = part is not None
        if part is not None and read is not None and self._quote is not None:
            over = read.over.get(part.number, "")
            text.update(part_text(part, self._quote, read.case.damage(part.number), over))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Without a damage there is only one to add."""
        if action in ("open", "urgency", "consent"):
            return self._quote is not None and bool(self._quote.parts)
        if action == "shop":
            return self._quote is not None and self._quote.money.rate is None
        return super().check_action(action, parameters)

    # -- acts --------------------------------------------------------------------------------------------

    def on_option_list_option_selected(self) -> None:
        """Answer the questions of the marked damage."""
        self.action_open()

    def action_open(self) -> None:
        """Answer the questions of the marked damage."""
        if self._marked is not None:
            self.casebook.open_damage(self._number, self._marked.number)

    def action_open_number(self, place: int) -> None:
        """Answer the questions of the damage in that place."""
        ids = self.query_one(Rows).ids
        if place <= len(ids):
            self.casebook.open_damage(self._number, int(ids[place - 1]))

    def action_add_damage(self) -> None:
        """Write down one more damage; it is in the price at once."""

        def then(damage: int) -> None:
            self._new = f"{damage}"

        self.app.push_screen(damage_form(self.desk, self._number, then))

    def action_urgency(self) -> None:
        """Turn must, should and can wait."""
        part, read = self._marked, self._read_so
        if part is None or read is None:
            return
        said = URGENCIES[(URGENCIES.index(part.urgency) + 1) % len(URGENCIES)]
        with trouble_shown(self.app):
            say_urgency(self.desk, self._number, part.number, said)
            # The rest stands as it was read: the price follows with the key.
            self._read_so = replace(read, parts=tuple(as_said(read.parts, {part.number: said})))
            self._reckon()

    def action_consent(self) -> None:
        """Keep what they say to the marked damage."""
        from casebook.screens.consent_form import consent_form

        part, read = self._marked, self._read_so
        if part is None or read is None:
            return

        def then(_: str) -> None:
            say_urgency(self.desk, self._number, part.number, "")
            case = self.desk.book.case(self._number)
            payer = payer_of(case, case.damage(part.number))
            self.casebook.mind("Who pays", PAYER_CAUTIONS.get(payer, ""))

        over = read.over.get(part.number, "")
        note = f"{over}." if over else ""
        chosen = part.strategy if part.decided else ""
        self.app.push_screen(consent_form(self.desk, self._number, part.number, then, chosen, note))

    def action_materials(self) -> None:
        """Ask for the price of the materials."""
        if self._read_so is None:
            return

        def take(written: dict[str, str]) -> None:
            typed = written["materials"].strip()
            if typed:
                read_amount(typed)
            self.desk.visit(self._number, materials_price=typed)

        value = self._read_so.case.visit.materials_price
        entry = Entry("materials", "Materials", value=value, hint="12.50")
        note = "What parts and materials cost together, before tax."
        self.app.push_screen(Form(f"{self._number}: materials", [entry], take, note))

    def action_shop(self) -> None:
        """Set what the price needs."""
        self.casebook.shop()

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()
