"""The work: the steps as a checklist, sizes and readings, the record, and looking after it."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from casebook.bench.as_made import taking
from casebook.bench.sheet import sheets_for
from casebook.bench.stage import ends_look, looks_again
from casebook.bench.visit_text import outcome_text
from casebook.records.case import FollowUp
from casebook.screens.checklist import Checklist
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.keys import key
from casebook.screens.outcome_form import MISTAKEN, kind_rows, outcome_form
from casebook.screens.pick import Pick, take_away
from casebook.screens.rows import Rows
from casebook.screens.second_look import SecondLookScreen
from casebook.screens.trouble import trouble_shown
from casebook.screens.waiting_forms import wait_form
from casebook.screens.who_works import people_of
from casebook.screens.work_forms import readings_form, record_form, size_form
from casebook.screens.work_record import decided_text, record_text
from casebook.screens.work_steps import WIDTHS


class WorkScreen(Checklist):
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
        super().__init__(at)
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
        decided = decided_text(damage, strategy, bool(self.check_action("look_again", ())))
        self.query_one("#decided", Static).update(decided)
        self.show_steps(strategy)
        self.query_one("#recorded", Static).update(record_text(damage))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer the second look only where the chosen strategy ends the look; who works, where several do."""
        if action == "look_again" and not self.at.is_intake:
            library, damage = self.at.desk.library, self.at.damage
            return ends_look(library, damage) and not looks_again(library, damage)
        if action == "who":
            return self.casebook.is_open and len(people_of(self.casebook)) > 1
        return super().check_action(action, parameters)

    # -- sizes, the record, looking after it ---------------------------------------------------------------

    def action_readings(self) -> None:
        """Write down readings before and after the work."""
        self.ask(readings_form(self.at))

    def action_measured(self) -> None:
        """Write down a size as made; say where it counts."""

        def then(what: str) -> None:
            choice = self.at.damage.choice
            kept = {used.worksheet for used in self.at.damage.figures}
            sheets = taking(what, sheets_for(self.at.session, choice.strategy if choice else ""))
            if sheets:
                self._sheet = next((id for id in sheets if id in kept), sheets[0])
                words = f"f computes {self._sheet.replace('_', ' ')} with {what} as made."
                self.notify(words, timeout=3, markup=False)

        self.ask(size_form(self.at, then))

    def action_record(self) -> None:
        """Record what was done."""
        self.ask(record_form(self.at))

    def action_look_after(self) -> None:
        """Keep how it held: first the kind, then what belongs to it."""

        last = self.at.damage.followups[-1] if self.at.damage.followups else None

        def then(kind: str | None) -> None:
            if kind == MISTAKEN and last is not None:
                title = "Was it written by mistake?"
                take_away(self.app, title, self.at.name, outcome_text(last), lambda: self._take_back(last))
            elif kind is not None:
                self.ask(outcome_form(self.at, kind))

        self.app.push_screen(Pick("Looked after: how is it?", kind_rows(last)), then)

    def _take_back(self, last: FollowUp) -> None:
        with trouble_shown(self.app):
            self.at.desk.take_back_outcome(self.at.number, self.at.damage_number, last)
        self.renew()

    def action_look_again(self) -> None:
        """Take the second look."""
        self.app.push_screen(SecondLookScreen(self.at))

    def action_wait(self) -> None:
        """Let the job wait, by the clock of what was chosen."""
        self.ask(wait_form(self.desk, self.at.number, self.at.damage_number))

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
