"""The work: the steps as a checklist, sizes and readings, the record, and looking after it."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from casebook.bench.as_made import taking
from casebook.bench.sheet import sheets_for
from casebook.bench.stage import ends_look, looks_again
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.form import Form
from casebook.screens.keys import key
from casebook.screens.outcome_form import KIND_ROWS, outcome_form
from casebook.screens.pick import Pick
from casebook.screens.plain import BOLD, FAINT, joined, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.second_look import SecondLookScreen
from casebook.screens.trouble import trouble_shown
from casebook.screens.waiting_forms import wait_form
from casebook.screens.work_forms import departure_form, readings_form, record_form, size_form, step_form
from casebook.screens.work_record import record_text
from casebook.screens.work_steps import WIDTHS, Step, step_rows, steps_of


class WorkScreen(Room):
    """The work on one damage."""

    HELP = (
        "The steps of the chosen strategy. Space ticks the marked step off as done today, with the initials "
        "used last; Enter does it with initials, hours and a note. What went otherwise than planned stays "
        "with its step (d); a step of your own is added (a). r records what was done in the end; l keeps "
        "how it held when you saw or heard of it again."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("o", "look_again", "look again", "The act has changed the instrument: take the second look."),
        key("space", "tick", "done", "Tick the marked step off, or take the tick away."),
        key("enter", "tick_with", "note", "Tick it off with initials, day, hours and a note."),
        key("d", "departure", "instead", "What was done otherwise than planned at the marked step, and why."),
        key("b", "readings", "read", "A reading before or after the work: leak, spring force."),
        key("m", "measured", "made", "Write down a size as it was made."),
        key("r", "record", "record", "What was done in the end, hours, day, what was learned."),
        key("l", "look_after", "held?", "How the repair held."),
        key("a", "add", "add", "Add a step of your own."),
        key("w", "wait", "wait", "Let it wait: glue and wood end by the clock of the chosen strategy."),
        key("i", "who", "who", "Who works now: whose initials the next ticks get."),
        key("x", "finish", "finish", "Close the case, or open it again."),
        key("f,f6", "figures", "figures", "The worksheets of this damage; sizes as made are in them."),
        key("g,f8", "questions", "answers", "Back to the questions.", show=False),
        key(
            "p,f5",
            "proposals",
            "proposals",
            "The strategies again; choosing anew keeps the reason.",
            show=False,
        ),
        key("slash,f3", "find", "find", "Find a case by what you remember of it.", show=False),
        key("right", "scroll(1)", "", "Read on in the record.", show=False),
        key("left", "scroll(-1)", "", "Read back in the record.", show=False),
    ]

    def __init__(self, at: DamageAtHand) -> None:
        super().__init__()
        self.at = at
        self._steps: list[Step] = []
        # The worksheet that takes the size measured last.
        self._sheet = ""

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="decided")
        yield Rows(WIDTHS, whole=1, id="steps")
        with VerticalScroll(id="record", can_focus=False):
            yield Static(id="recorded")

    # -- showing -----------------------------------------------------------------------------------------

    def renew(self) -> None:
        """Read the damage anew."""
        with trouble_shown(self.app):
            self.at.again()
            self._draw()

    def _draw(self) -> None:
        at, damage = self.at, self.at.damage
        where = "finished" if at.case.finished else at.which_look
        works = f"{self.casebook.initials} works, " if self.casebook.initials else ""
        self.heading.say(at.name, f"{works}{where}", at.stage)
        strategy = at.desk.strategy(damage.family, damage.choice.strategy) if damage.choice else None
        self.query_one("#decided", Static).update(lines(self._decided(strategy.title if strategy else "")))
        self._steps = steps_of(damage, strategy.steps if strategy else ())
        rows = self.query_one(Rows)
        rows.fill(step_rows(self._steps))
        self.query_one("#recorded", Static).update(record_text(damage))
        self.set_focus(rows)

    def _decided(self, title: str) -> list[Content]:
        choice = self.at.damage.choice
        if choice is None:
            return [plain("Nothing is decided yet: p shows the proposals.", BOLD)]
        said = [plain(title or choice.strategy, BOLD)]
        if choice.reason:
            said.append(joined(plain("because  ", FAINT), choice.reason))
        if self.check_action("look_again", ()):
            words = "This ends the look: when it is done, o takes the second look."
            said.append(plain(words, "$text-warning"))
        return said

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer the second look only where the chosen strategy ends the look; who works, where several do."""
        if action == "look_again" and not self.at.is_intake:
            library, damage = self.at.desk.library, self.at.damage
            return ends_look(library, damage) and not looks_again(library, damage)
        if action == "who":
            return len(self._people) > 1
        return super().check_action(action, parameters)

    @property
    def _people(self) -> dict[str, str]:
        return dict(self.desk.shop.people) if self.casebook.is_open and self.desk.shop else {}

    @property
    def _marked(self) -> Step | None:
        marked = self.query_one(Rows).marked
        return None if marked is None else self._steps[int(marked)]

    # -- the steps ---------------------------------------------------------------------------------------

    def action_tick(self) -> None:
        """Tick the marked step off as done today, or take the tick away."""
        step = self._marked
        if step is None:
            return
        if step.done is None:
            self._as_somebody(lambda: self._tick(step))
        else:
            with trouble_shown(self.app):
                self.at.desk.mend_step(self.at.number, self.at.damage_number, step.done, None)
            self.renew()

    def _tick(self, step: Step) -> None:
        shown = self._steps
        self.renew()
        if self._steps != shown:
            self.notify("Somebody else has written here meanwhile: look, then tick.", timeout=5, markup=False)
            return
        with trouble_shown(self.app):
            self.at.desk.do_step(self.at.number, self.at.damage_number, step.text, self.casebook.initials)
            self.renew()
            self.query_one(Rows).action_cursor_down()

    def _as_somebody(self, then: Callable[[], None]) -> None:
        """Go on once it is known who works: asked once, where several people do and nobody said."""
        people = self._people
        if len(people) == 1 and not self.casebook.initials:
            self.casebook.initials = next(iter(people))
        if self.casebook.initials or not people:
            then()
        else:
            self._ask_who(then)

    def _ask_who(self, then: Callable[[], None]) -> None:
        def take(initials: str | None) -> None:
            if initials is not None:
                self.casebook.initials = initials
                self.renew()
                then()

        rows = [(initials, [initials, name]) for initials, name in self._people.items()]
        self.app.push_screen(Pick("Who works?", rows), take)

    def action_who(self) -> None:
        """Say who works now."""
        self._ask_who(lambda: None)

    def on_option_list_option_selected(self) -> None:
        """Tick off with details."""
        self.action_tick_with()

    def action_tick_with(self) -> None:
        """Tick the marked step off with initials, day, hours and a note."""
        step = self._marked
        if step is not None:
            self._as_somebody(lambda: self._ask(step_form(self.at, self.casebook, step.text, step.done)))

    def action_add(self) -> None:
        """Add a step of one's own."""
        self._as_somebody(lambda: self._ask(step_form(self.at, self.casebook)))

    def action_departure(self) -> None:
        """Write down what was done otherwise than planned."""
        step = self._marked
        before = step.departures[-1] if step and step.departures else None
        self._ask(departure_form(self.at, step.text if step else "", before))

    def _ask(self, form: Form) -> None:
        """Show a form; what it keeps is shown at once."""
        self.app.push_screen(form, lambda _: self.renew())

    # -- sizes, the record, looking after it ---------------------------------------------------------------

    def action_readings(self) -> None:
        """Write down readings before and after the work."""
        self._ask(readings_form(self.at))

    def action_measured(self) -> None:
        """Write down a size as made; say where it counts."""

        def then(what: str) -> None:
            choice = self.at.damage.choice
            kept = {used.worksheet for used in self.at.damage.figures}
            sheets = taking(what, sheets_for(self.at.session, choice.strategy if choice else ""))
            if sheets:
                self._sheet = next((id for id in sheets if id in kept), sheets[0])
                words = f"f computes {self._sheet.replace('_', ' ')} with {what} as made."
                self.notify(words, timeout=5, markup=False)

        self._ask(size_form(self.at, then))

    def action_record(self) -> None:
        """Record what was done."""
        self._ask(record_form(self.at))

    def action_look_after(self) -> None:
        """Keep how it held: first the kind, then what belongs to it."""

        def then(kind: str | None) -> None:
            if kind is not None:
                self._ask(outcome_form(self.at, kind))

        self.app.push_screen(Pick("Looked after: how is it?", KIND_ROWS), then)

    def action_look_again(self) -> None:
        """Take the second look."""
        self.app.push_screen(SecondLookScreen(self.at))

    def action_wait(self) -> None:
        """Let the job wait, by the clock of what was chosen."""
        self._ask(wait_form(self.desk, self.at.number, self.at.damage_number))

    def action_finish(self) -> None:
        """Close the case, or open it again."""
        with trouble_shown(self.app):
            self.at.desk.finish(self.at.number, not self.at.case.finished)
            self.renew()

    def action_scroll(self, step: int) -> None:
        """Read on in the record."""
        self.query_one("#record").scroll_relative(y=step * 4, animate=False)

    # -- going about ---------------------------------------------------------------------------------------

    def action_figures(self) -> None:
        """Show the worksheets."""
        self.casebook.figures(self.at, self._sheet)

    def action_questions(self) -> None:
        """Back to the questions."""
        self.casebook.question(self.at)

    def action_proposals(self) -> None:
        """Back to the proposals."""
        self.casebook.proposals(self.at)

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()
