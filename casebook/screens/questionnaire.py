"""The questionnaire: one question a screenful, and beside it what follows from the answers so far."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.widgets import Input

from casebook.bench.look import NotTaken
from casebook.guide.pack import Question
from casebook.records.case import Answer
from casebook.screens.alerts import Alerts, Cautions
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.fields import TextLine
from casebook.screens.go_to import GoTo
from casebook.screens.keys import KeyLine, key
from casebook.screens.question_panel import Marking, QuestionPanel
from casebook.screens.room import Room
from casebook.screens.standings import Standings
from casebook.screens.trouble import trouble_shown

_SETTLED = (
    "Nothing more to ask.\n\nNo answer would change the first proposal, a stop or a danger.\n\n"
    "Enter: the proposals.   g: over the answers again."
)
_PASSED = (
    "What is left to ask was passed over as not known yet.\n\n"
    "Enter: the proposals as they stand.   g: back to a question."
)
_AT_COUNTER = (
    "That is enough for the counter.\n\n"
    "Enter: where to look first.   j: a quick job, done while its owner waits."
)
_INTAKE_DONE = (
    "Everything about the instrument as a whole is answered or passed over.\n\nEnter: back to the case."
)


def _nothing_left(at: DamageAtHand) -> str:
    if not at.is_kept:
        return _AT_COUNTER
    return _INTAKE_DONE if at.is_intake else _PASSED if at.session.asked else _SETTLED


class QuestionnaireScreen(Room):
    """One look at one damage, or the intake."""

    HELP = (
        "One question at a time. A digit answers and goes on to the question that settles most. Every "
        "answer is kept the moment it is given; a correction, too. Beside it stands what could be done: "
        "what fits, what is still open and on what it waits, what is ruled out and why."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("0,ctrl+n", "not_known", "unknown", "Not known yet: pass it over, or take the answer away."),
        key("n", "not_this", "not", "Mark answers it surely is not; Enter takes them out."),
        key(
            "m",
            "may_be",
            "may be",
            "Mark the answers it may still be, when you cannot tell which; Enter takes them.",
        ),
        key("b,f9", "before", "before", "Back to the question before."),
        key("g,f8", "go_to", "go to", "All questions with their answers; jump to any."),
        key("u,f4", "undo", "undo", "Take the last answer back."),
        key("j", "quick_job", "quick job", "Done while its owner waited: who, what, found, done, paid."),
        key("p,f5", "proposals", "proposals", "The strategies in their order, with reasons; choose one."),
        key("f,f6", "figures", "figures", "Worksheets filled from the answers."),
        key("s,f7", "like", "like it", "Damages of the past like this one, and how they turned out."),
        key("c", "cautions", "cautions", "Read every stop, contradiction and caution whole.", show=False),
        key("slash,f3", "find", "find", "Find a case by what you remember of it.", show=False),
        key("enter", "take", "", "Take what is marked; go on.", show=False),
        key("down", "cursor(1)", "", show=False),
        key("up", "cursor(-1)", "", show=False),
        key("space", "mark", "", "Mark the answer at the bar.", show=False),
        key("pagedown", "scroll(1)", "", show=False),
        key("pageup", "scroll(-1)", "", show=False),
        *[key(f"{n}", f"digit({n})", "", show=False) for n in range(1, 10)],
    ]

    def __init__(self, at: DamageAtHand, question: str | None = None) -> None:
        super().__init__()
        self.at = at
        self._question = question
        self._been: list[str] = []
        self._marking = Marking()

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Alerts()
        with Horizontal(id="look"):
            yield QuestionPanel()
            with VerticalScroll(id="follows", can_focus=False):
                yield Standings()

    def on_mount(self) -> None:
        """Ask the first question."""
        self._go_on(self._question)

    def renew(self) -> None:
        """Show the look as it stands."""
        self._draw()

    def on_resize(self) -> None:
        """Break the lines anew."""
        super().on_resize()
        self.call_after_refresh(self._draw)

    # -- showing -----------------------------------------------------------------------------------------

    def _go_on(self, question: str | None = None) -> None:
        """Go to a question, or on to the one most worth asking."""
        self._question = question if question is not None else self.at.next_question()
        self._marking = Marking("all" if self._kind == "several" else "one")
        field = self.query_one(TextLine)
        measured = self._present is not None and self._present.measured
        answer = self.at.session.answers.get(self._question or "") if measured else None
        field.value = answer if isinstance(answer, str) else ""
        self._draw()
        if measured:
            self.set_focus(field)
        else:
            self.set_focus(None)
        self.query_one(KeyLine).again()

    def _follow(self, question: str | None) -> None:
        """Paint first what follows from an answer, then choose the next question: that may take longer."""
        self._draw_consequences()
        self.casebook.after_painting(lambda: self._go_on(question))

    def _draw(self) -> None:
        at, panel = self.at, self.query_one(QuestionPanel)
        if self._question is None:
            panel.say_nothing_left(at, _nothing_left(at))
        else:
            panel.say(at, self._question, self._marking)
            if self._present is not None and self._present.measured:
                panel.echo(at.session, self._question, self.query_one(TextLine).value)
        self._draw_consequences()
        panel.scroll_home(animate=False)

    def _draw_consequences(self) -> None:
        at = self.at
        self.heading.say(at.name, at.which_look, at.way)
        self.query_one(Alerts).say(at.session)
        follows = self.query_one("#follows")
        follows.display = not at.is_intake
        if not at.is_intake:
            self.query_one(Standings).say(at.session)

    @property
    def _present(self) -> Question | None:
        return self.at.session.guide.questions.get(self._question or "")

    @property
    def _kind(self) -> str:
        return self._present.kind if self._present else ""

    def on_input_changed(self, event: Input.Changed) -> None:
        """Say how the size is understood while it is typed."""
        if self._question is not None:
            self.query_one(QuestionPanel).echo(self.at.session, self._question, event.value)

    # -- answering ---------------------------------------------------------------------------------------

    def _answer(self, answer: Answer | None) -> None:
        """Keep an answer, then go on; one that is refused stays in its field."""
        question = self._question
        if question is None:
            return
        with trouble_shown(self.app):
            if answer is not None or question in self.at.session.answers:
                self.at.session.answer(question, answer)
            if answer is None:
                self.at.passed.add(question)
            else:
                self.at.passed.discard(question)
            self._been.append(question)
            self._follow(None)

    def action_digit(self, number: int) -> None:
        """Answer, or mark, by the answer's digit."""
        if self._question is None or self._present is None or self._present.measured:
            return
        options = self.at.session.options(self._question)
        if number > len(options):
            return
        if self._marking.mode == "one":
            self._answer(options[number - 1].id)
        else:
            self._marking.toggle(options[number - 1].id)
            self._draw()

    def action_cursor(self, step: int) -> None:
        """Move the bar over the answers."""
        if self._question is None or self._present is None or self._present.measured:
            return
        count = len(self.at.session.options(self._question))
        before = self._marking.cursor
        self._marking.cursor = (before + step) % count if before >= 0 else (0 if step > 0 else count - 1)
        self._draw()

    def action_mark(self) -> None:
        """Mark the answer at the bar."""
        if self._marking.cursor >= 0:
            self.action_digit(self._marking.cursor + 1)

    def action_take(self) -> None:
        """Take what is marked, or the answer at the bar; where nothing is left, go on to the proposals."""
        if self._question is None:
            self.action_back() if self.at.is_intake else self.action_proposals()
        elif self._present is not None and self._present.measured:
            self.set_focus(self.query_one(TextLine))
        elif self._marking.mode == "one" and self._marking.cursor >= 0:
            self.action_digit(self._marking.cursor + 1)
        else:
            answer = self._marking.answer()
            if answer is not None:
                self._answer(answer)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take a size; what is not understood stays, with one line that says why."""
        typed = event.value.strip()
        if not typed:
            self._answer(None)
            return
        if self._question is not None:
            try:
                self.at.session.read(self._question, typed)
            except NotTaken:
                self.query_one(QuestionPanel).echo(self.at.session, self._question, typed)
                return
        self._answer(typed)

    def action_not_known(self) -> None:
        """Pass it over, and take away what was answered."""
        self._answer(None)

    def action_not_this(self) -> None:
        """Mark what it is not."""
        self._mark_as("not")

    def action_may_be(self) -> None:
        """Mark what it may be."""
        self._mark_as("maybe")

    def _mark_as(self, mode: str) -> None:
        if self._present is None or self._present.measured:
            return
        usual = "all" if self._kind == "several" else "one"
        self._marking = Marking(usual if self._marking.mode == mode else mode)  # type: ignore[arg-type]
        self._draw()

    def action_undo(self) -> None:
        """Take the last answer back and ask it again."""
        with trouble_shown(self.app):
            question = self.at.session.undo()
            if question is None:
                self.notify("Nothing to take back since this look was opened.", timeout=3, markup=False)
                return
            if self._been and self._been[-1] == question:
                self._been.pop()
            self.at.passed.discard(question)
            self._follow(question)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A quick job is for the counter; what rests on a case needs one."""
        if action == "quick_job":
            return not self.at.is_kept
        if action in ("figures", "like"):
            return self.at.is_kept and not self.at.is_intake
        return super().check_action(action, parameters)

    # -- going about ---------------------------------------------------------------------------------------

    def action_before(self) -> None:
        """Back to the question before."""
        if self._been:
            self._go_on(self._been.pop())

    def action_go_to(self) -> None:
        """Jump to any question."""

        def then(question: str | None) -> None:
            if question is not None:
                self._go_on(question)

        self.app.push_screen(GoTo(self.at, self._question), then)

    def action_proposals(self) -> None:
        """Show the proposals."""
        if not self.at.is_intake:
            self.casebook.proposals(self.at)

    def action_figures(self) -> None:
        """Show the worksheets."""
        self.casebook.figures(self.at)

    def action_quick_job(self) -> None:
        """Write down a job done while its owner waited."""
        self.casebook.quick_job(self.at.session, "")

    def action_like(self) -> None:
        """Show the like of it."""
        self.casebook.like_it(self.at.number, self.at.damage_number)

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()

    def action_cautions(self) -> None:
        """Read the cautions whole."""
        self.app.push_screen(Cautions(self.at.session.advice))

    def action_scroll(self, step: int) -> None:
        """Read on where the question is long."""
        self.query_one(QuestionPanel).scroll_relative(y=step * 5, animate=False)

    def leave_field(self) -> bool:
        """Out of the field: then single letters work."""
        self.set_focus(None)
        return True
