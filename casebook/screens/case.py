"""One case: what came in, in whose words, what it waits for, and its damages with how far each has come."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.bench.consent import PAYER_CAUTIONS, payer_of
from casebook.bench.job_waits import wait_names
from casebook.records.case import Case
from casebook.screens.case_about import about, damage_cells
from casebook.screens.consent_form import consent_form
from casebook.screens.intake_form import rewrite_form
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.trouble import trouble_shown
from casebook.screens.waiting_forms import collected_form, over_form, visit_form, wait_form, weigh_form


class CaseScreen(Room):
    """One case.

    Args:
        number: the case's number.
    """

    HELP = (
        "One visit of one instrument. Each damage stands with how far it has come; its digit opens it "
        "where the work goes on. i asks about the instrument as a whole; what is answered there counts "
        "for every damage. w lets it wait, k keeps what was said to the marked damage, h hands it back."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the marked damage where the work goes on."),
        key("n", "add_damage", "new damage", "Write down a damage."),
        key("i", "intake", "intake", "Answer what concerns the instrument as a whole."),
        key("k", "consent", "consent", "What was said to the marked damage: yes, no, later; up to how much."),
        key("w", "wait", "wait", "Let it wait: for the owner, a part, wood, glue."),
        key("o", "over", "over", "A wait is over: answered, come, dry."),
        key("h", "ready", "ready", "The work is done, the owner may be told."),
        key("h", "told", "owner told", "The owner was told that it is ready."),
        key("h", "collected", "fetched", "It was fetched: paid, and what goes back with it."),
        key("t", "telephone", "price", "What it will cost, ready to read out on the telephone."),
        key("v", "visit", "visit", "Needed by, what came with it, lent meanwhile, who pays."),
        key("y", "weigh", "weigh", "A reading of the wood: weight, humidity, width."),
        key("p", "instrument", "past visits", "The instrument's own page: its visits, what was done where."),
        key("e", "rewrite", "change", "Change what was written down when it came in."),
        key("x", "finish", "finish", "Close the case, or open it again."),
        key("s,f7", "like", "like it", "Show damages of the past like the marked one."),
        key("slash,f3", "find", "find", "Find a case by what you remember of it."),
        *[key(f"{n}", f"open_number({n})", "", show=False) for n in range(1, 10)],
    ]

    def __init__(self, number: str) -> None:
        super().__init__()
        self._number = number
        self._case: Case | None = None

    def body(self) -> ComposeResult:
        """Lay it out."""
        with VerticalScroll(id="about", can_focus=False):
            yield Static(id="words")
        yield Static(id="damages-head")
        yield Rows([-2, -3, 14, 8, -3], numbered=True, id="damages")

    def renew(self) -> None:
        """Read the case anew."""
        with trouble_shown(self.app):
            self._case = case = self.desk.book.case(self._number)
            job = self.desk.job(case)
            self.heading.say(
                f"{case.number}  {case.title}", "finished" if case.finished else f"waits for {job.waits_for}"
            )
            self.query_one("#words", Static).update(about(self.desk, case))
            self.query_one("#damages-head", Static).update(
                plain("Damages", BOLD) if case.damages else plain("No damage yet: n writes one down.", BOLD)
            )
            rows = self.query_one("#damages", Rows)
            rows.display = bool(case.damages)
            rows.fill([(f"{damage.number}", damage_cells(self.desk, damage)) for damage in case.damages])
            if case.damages and self.focused is None:
                self.set_focus(rows)
            self.query_one(KeyLine).again()

    @property
    def _marked(self) -> int:
        """The number of the marked damage; 0 where there is none."""
        return int(self.query_one("#damages", Rows).marked or 0)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer of handing back the next act alone, and the end of a wait only while it lasts."""
        case = self._case
        if action in ("ready", "told", "collected", "over") and case is not None:
            visit = case.visit
            following = "ready" if not visit.ready_on else "told" if not visit.told_on else "collected"
            if action == "over":
                return bool(wait_names(case))
            return action == following and visit.collected_on is None
        return super().check_action(action, parameters)

    # -- damages -------------------------------------------------------------------------------------------

    def on_option_list_option_selected(self) -> None:
        """Open the marked damage."""
        self.action_open()

    def action_open(self) -> None:
        """Open the marked damage."""
        if self._marked:
            self.casebook.open_damage(self._number, self._marked)
        else:
            self.action_add_damage()

    def action_open_number(self, place: int) -> None:
        """Open the damage in that place of the list."""
        ids = self.query_one("#damages", Rows).ids
        if place <= len(ids):
            self.casebook.open_damage(self._number, int(ids[place - 1]))

    def action_add_damage(self) -> None:
        """Write down a damage, then look at it."""
        self.casebook.add_damage(self._number)

    def action_intake(self) -> None:
        """Ask about the instrument as a whole."""
        self.casebook.open_damage(self._number, 0)

    def action_like(self) -> None:
        """Show the like of the marked damage."""
        if self._marked:
            self.casebook.like_it(self._number, self._marked)

    # -- the visit -----------------------------------------------------------------------------------------

    def _ask(self, form: ModalScreen[bool]) -> None:
        """Show a form; what it keeps is shown at once."""
        self.app.push_screen(form, lambda _: self.renew())

    def action_rewrite(self) -> None:
        """Change what was written down."""
        if self._case is not None:
            self._ask(rewrite_form(self.desk, self._case))

    def action_consent(self) -> None:
        """Keep what was said to the marked damage."""
        damage = self._marked
        if not damage:
            return

        def then(_: str) -> None:
            case = self.desk.book.case(self._number)
            self.casebook.mind("Who pays", PAYER_CAUTIONS.get(payer_of(case, case.damage(damage)), ""))

        self._ask(consent_form(self.desk, self._number, damage, then))

    def action_wait(self) -> None:
        """Let it wait."""
        self._ask(wait_form(self.desk, self._number, self._marked))

    def action_over(self) -> None:
        """End the wait; where there are several, ask which."""
        if self._case is None:
            return
        names = wait_names(self._case)
        if len(names) > 1:
            self._ask(over_form(self.desk, self._case))
        else:
            with trouble_shown(self.app):
                self.desk.stop_waiting(self._number, names[0])
                self.renew()

    def action_weigh(self) -> None:
        """Keep a reading of the wood."""
        if self._case is not None:

            def then(says: str) -> None:
                self.notify(f"The wood: {says}.", timeout=3, markup=False)

            self._ask(weigh_form(self.desk, self._case, then))

    def action_telephone(self) -> None:
        """Show what it will cost."""
        self.casebook.phone(self._number)

    def action_visit(self) -> None:
        """Keep what belongs to the visit."""
        if self._case is not None:
            self._ask(visit_form(self.desk, self._case))

    def action_ready(self) -> None:
        """The work is done."""
        with trouble_shown(self.app):
            self.desk.ready(self._number)
            self.renew()

    def action_told(self) -> None:
        """The owner was told."""
        with trouble_shown(self.app):
            self.desk.told(self._number)
            self.renew()

    def action_collected(self) -> None:
        """It was fetched."""
        if self._case is not None:

            def then(back: list[str]) -> None:
                self.casebook.mind(f"{self._number} is fetched", *back)

            self._ask(collected_form(self.desk, self._case, then))

    def action_instrument(self) -> None:
        """Show the instrument's own page."""
        if self._case is not None:
            self.casebook.instrument(self._case.instrument.uid)

    def action_finish(self) -> None:
        """Close the case, or open it again."""
        if self._case is not None:
            with trouble_shown(self.app):
                self.desk.finish(self._number, not self._case.finished)
                self.renew()

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()
