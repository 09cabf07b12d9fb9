"""The work: the steps as a checklist, sizes as made, departures; then the record, and looking after it."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from casebook.bench.stage import ends_look, looks_again
from casebook.bench.typed import read_day, read_hours
from casebook.bench.visit_text import outcome_text
from casebook.records.case import Damage, Measured, StepDone
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.form import Entry, Form
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, FAINT, joined, line, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.second_look import SecondLookScreen
from casebook.screens.trouble import trouble_shown
from casebook.screens.work_forms import follow_up_form, record_form, step_form


class WorkScreen(Room):
    """The work on one damage."""

    HELP = (
        "The steps of the chosen strategy. Space ticks the marked step off as done today; Enter does it "
        "with initials, hours and a note. What went another way than planned is a step of its own (d). "
        "r records what was done; l keeps how it held when you saw or heard of it again."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("space", "tick", "done", "Tick the marked step off, or take the tick away."),
        key("enter", "tick_with", "with note", "Tick it off with initials, day, hours and a note."),
        key("m", "measured", "as made", "Write down a size as it was made."),
        key("d", "departure", "departure", "Write down what was done another way than planned."),
        key("r", "record", "record", "What was done in the end, hours, day, what was learned."),
        key("l", "look_after", "look after", "How the repair held."),
        key("o", "look_again", "look again", "The act has changed the instrument: take the second look."),
        key("x", "finish", "finish", "Close the case."),
        key("f,f6", "figures", "figures", "The worksheets of this damage."),
        key("g,f8", "questions", "answers", "Back to the questions.", show=False),
        key(
            "p,f5",
            "proposals",
            "proposals",
            "The strategies again; choosing anew keeps the reason.",
            show=False,
        ),
        key("slash,f3", "find", "find", "Find a case by what you remember of it.", show=False),
    ]

    def __init__(self, at: DamageAtHand) -> None:
        super().__init__()
        self.at = at

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="decided")
        yield Rows([3, -1, 20], whole=1, id="steps")
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
        self.heading.say(at.name, "finished" if at.case.finished else at.which_look, at.stage)
        strategy = self._strategy_title()
        reason = damage.choice.reason if damage.choice else ""
        decided = [plain(strategy, BOLD)]
        if reason:
            decided.append(joined(plain("because  ", FAINT), reason))
        if self.check_action("look_again", ()):
            decided.append(
                plain("This ends the look: when it is done, o takes the second look.", "$text-warning")
            )
        self.query_one("#decided", Static).update(lines(decided))
        rows = self.query_one(Rows)
        rows.fill([(f"{place}", self._cells(text, done)) for place, (text, done) in enumerate(self._steps())])
        self.query_one("#recorded", Static).update(_recorded(damage))
        self.set_focus(rows)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer the second look only where the chosen strategy ends the look."""
        if action == "look_again" and not self.at.is_intake:
            library, damage = self.at.desk.library, self.at.damage
            return ends_look(library, damage) and not looks_again(library, damage)
        return super().check_action(action, parameters)

    def _strategy_title(self) -> str:
        choice = self.at.damage.choice
        if choice is None:
            return "Nothing is decided yet: p shows the proposals."
        strategy = self.at.desk.strategy(self.at.damage.family, choice.strategy)
        return strategy.title if strategy else choice.strategy

    def _steps(self) -> list[tuple[str, StepDone | None]]:
        """List the planned steps with what was done, and below them what was done besides."""
        damage = self.at.damage
        strategy = self.at.desk.strategy(damage.family, damage.choice.strategy) if damage.choice else None
        planned = strategy.steps if strategy else ()
        done = {step.text: step for step in damage.steps}
        return [(text, done.get(text)) for text in planned] + [
            (step.text, step) for step in damage.steps if step.text not in planned
        ]

    def _cells(self, text: str, done: StepDone | None) -> list[Content | str]:
        if done is None:
            return ["[ ]", text, ""]
        hours = f"{done.hours:g} h" if done.hours is not None else ""
        about = " ".join(part for part in (str(done.done_on or ""), done.by, hours) if part)
        return [
            plain("[x]", BOLD),
            line(f"{text}{f' ({done.note})' if done.note else ''}", FAINT),
            line(about, FAINT),
        ]

    def _marked(self) -> tuple[str, StepDone | None] | None:
        marked = self.query_one(Rows).marked
        return None if marked is None else self._steps()[int(marked)]

    # -- doing -------------------------------------------------------------------------------------------

    def action_tick(self) -> None:
        """Tick the marked step off as done today, or take the tick away."""
        marked = self._marked()
        if marked is None:
            return
        text, done = marked
        with trouble_shown(self.app):
            if done is None:
                self._keep_step(StepDone(text, self.at.desk.today, self.casebook.initials))
                self.query_one(Rows).action_cursor_down()
            else:
                left = tuple(step for step in self.at.damage.steps if step.text != text)
                self.at.desk.record_work(self.at.number, self.at.damage_number, steps=left)
                self.renew()

    def _keep_step(self, done: StepDone, instead_of: str | None = None) -> None:
        before = self.at.damage.steps
        old = instead_of if instead_of is not None else done.text
        if any(step.text == old for step in before):
            steps = tuple(done if step.text == old else step for step in before)
        else:
            steps = (*before, done)
        self.at.desk.record_work(self.at.number, self.at.damage_number, steps=steps)
        self.renew()

    def on_option_list_option_selected(self) -> None:
        """Tick off with details."""
        self.action_tick_with()

    def action_tick_with(self) -> None:
        """Tick the marked step off with initials, day, hours and a note."""
        marked = self._marked()
        if marked is not None:
            self._ask_step(*marked)

    def action_departure(self) -> None:
        """Write down a step of one's own."""
        self._ask_step("", None)

    def _ask_step(self, text: str, done: StepDone | None) -> None:
        today = self.at.desk.today

        def take(written: dict[str, str]) -> None:
            step = StepDone(
                text or written["text"].strip(),
                read_day(written["done_on"], today),
                written["by"].strip(),
                read_hours(written["hours"]),
                written["note"].strip(),
            )
            self.casebook.initials = step.by
            self._keep_step(step)

        self.app.push_screen(step_form(text, done, self.casebook.initials, take))

    def action_measured(self) -> None:
        """Write down a size as made."""

        def take(written: dict[str, str]) -> None:
            size = Measured(written["what"].strip(), written["value"].strip(), written["note"].strip())
            sizes = tuple(one for one in self.at.damage.measured if one.what != size.what)
            self.at.desk.record_work(self.at.number, self.at.damage_number, measured=(*sizes, size))
            self.renew()

        entries = [
            Entry("what", "What", hint="hole as cut", needed=True),
            Entry("value", "Size", hint="5.45 mm, 0.215 in", needed=True),
            Entry("note", "Note"),
        ]
        self.app.push_screen(Form("A size as made", entries, take))

    def action_record(self) -> None:
        """Record what was done."""

        def take(written: dict[str, str]) -> None:
            self.at.desk.record_work(
                self.at.number,
                self.at.damage_number,
                done=written["done"].strip(),
                hours=read_hours(written["hours"]),
                repaired_on=read_day(written["repaired_on"], self.at.desk.today),
                learned=written["learned"].strip(),
            )
            self.renew()

        self.app.push_screen(record_form(self.at.damage, self.at.desk.today, take))

    def action_look_after(self) -> None:
        """Keep how it held."""
        self.app.push_screen(follow_up_form(self.at), lambda _: self.renew())

    def action_look_again(self) -> None:
        """Take the second look."""
        self.app.push_screen(SecondLookScreen(self.at))

    def action_finish(self) -> None:
        """Close the case, or open it again."""
        with trouble_shown(self.app):
            self.at.desk.finish(self.at.number, not self.at.case.finished)
            self.renew()

    # -- going about ---------------------------------------------------------------------------------------

    def action_figures(self) -> None:
        """Show the worksheets."""
        self.casebook.figures(self.at)

    def action_questions(self) -> None:
        """Back to the questions."""
        self.casebook.question(self.at)

    def action_proposals(self) -> None:
        """Back to the proposals."""
        self.casebook.proposals(self.at)

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()


def _recorded(damage: Damage) -> Content:
    parts: list[Content | str] = []
    for one in damage.measured:
        note = f" ({one.note})" if one.note else ""
        parts.append(joined(plain("as made  ", FAINT), f"{one.what} {one.value}{note}"))
    parts += [joined(plain("figures  ", FAINT), used.worksheet.replace("_", " ")) for used in damage.figures]
    if damage.done:
        parts.append(joined(plain("done  ", FAINT), damage.done))
    hours = f"{damage.hours:g} hours" if damage.hours is not None else ""
    day = f"repaired on {damage.repaired_on}" if damage.repaired_on else ""
    if hours or day:
        parts.append(plain(", ".join(part for part in (hours, day) if part)))
    if damage.learned:
        parts.append(joined(plain("learned  ", FAINT), damage.learned))
    parts += [joined(plain("looked after  ", FAINT), outcome_text(one)) for one in damage.followups]
    return lines(parts or [plain("Nothing recorded yet: r records what was done.", FAINT)])
