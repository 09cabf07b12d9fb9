"""One question: what to look at, how to find out, the answers to choose from or the field for a size."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from casebook.bench.look import LookSession, NotTaken, Option
from casebook.guide.pack import Question
from casebook.quantity import Reading, show_length
from casebook.records.case import Answer
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.fields import TextLine
from casebook.screens.past import Past
from casebook.screens.plain import BOLD, FAINT, WRONG, joined, lines, plain

Mode = Literal["one", "all", "not", "maybe"]
_HOW: dict[Mode, str] = {
    "one": "",
    "all": "Several may hold: a digit marks, Enter takes what is marked.",
    "not": "Surely NOT these: a digit marks, Enter takes them out.",
    "maybe": "It may be any of these: a digit marks, Enter takes them.",
}
_EFFORTS = {
    "look": "a look is enough",
    "measure": "it wants measuring",
    "take_apart": "it must come apart for it",
}


@dataclass(slots=True)
class Marking:
    """How an answer is being given: the mode, and what is marked so far."""

    mode: Mode = "one"
    marked: list[str] = field(default_factory=list)
    cursor: int = -1

    def toggle(self, id: str) -> None:
        """Mark an answer, or take the mark away."""
        if id in self.marked:
            self.marked.remove(id)
        else:
            self.marked.append(id)

    def answer(self) -> Answer | None:
        """Give the answer marked, or None while nothing is."""
        if not self.marked:
            return None
        if self.mode == "not":
            return {"not": list(self.marked)}
        return {"all": list(self.marked)} if self.mode == "all" else list(self.marked)


class QuestionPanel(VerticalScroll, can_focus=False):
    """The left side of the questionnaire."""

    def compose(self) -> ComposeResult:
        """Lay it out."""
        yield Static(id="ask")
        yield Static(id="answers")
        yield TextLine(id="size")
        yield Static(id="echo")
        yield Static(id="why")
        yield Past()

    def say(self, at: DamageAtHand, id: str, marking: Marking) -> None:
        """Show a question with what is known of it."""
        self.query_one(Past).say(at)
        session = at.session
        question = session.guide.questions[id]
        self.query_one("#ask", Static).update(lines([plain(question.ask, BOLD), plain(question.look, FAINT)]))
        now, before = session.shown(id), at.before(id)
        known = [] if now == "not known yet" else [plain(f"So far: {now}", BOLD)]
        if before:
            known.append(plain(f"First look: {before}" if len(at.damage.looks) == 2 else f"Before: {before}"))
        answers = self.query_one("#answers", Static)
        field = self.query_one(TextLine)
        field.display = question.measured
        self.query_one("#echo", Static).display = question.measured
        if question.measured:
            answers.display = bool(known)
            answers.update(lines(known))
        else:
            answers.display = True
            width = (answers.size.width or self.size.width) - 1
            answers.update(lines([*_answers(session, question, marking, max(16, width)), *known]))
        self.query_one("#why", Static).update(plain(why(session, id), FAINT))

    def say_nothing_left(self, at: DamageAtHand, words: str) -> None:
        """Say that there is nothing more to ask."""
        self.query_one(Past).say(at)
        self.query_one("#ask", Static).update(plain(words, BOLD))
        for id in ("#answers", "#size", "#echo"):
            self.query_one(id).display = False
        self.query_one("#why", Static).update("")

    def echo(self, session: LookSession, id: str, typed: str) -> bool:
        """Say below the field how a size is understood; whether it is."""
        said = self.query_one("#echo", Static)
        question = session.guide.questions[id]
        if not typed.strip():
            said.update(plain(_sizes_hint(question, session), FAINT))
            return False
        try:
            said.update(plain(understood(question, session.read(id, typed)), BOLD))
        except NotTaken as error:
            said.update(plain(str(error), WRONG))
            return False
        return True


def understood(question: Question, reading: Reading) -> str:
    """Say how a size was understood, in all units, with the bounds of the reading."""
    if question.kind == "count":
        return f"= {float(reading.value):g}"
    fine = question.of == "thread_pitch"
    units = [show_length(reading.value, unit, fine=fine) for unit in ("mm", "in", "thou")]
    low, high = (show_length(bound, "mm", fine=fine) for bound in (reading.low, reading.high))
    between = "" if low == high else f", between {low} and {high}"
    if question.of == "thread_pitch" and reading.value:
        units.append(f"{float(25.4 / reading.value):.3g} an inch")
    return f"= {' = '.join(units)}{between}"


def why(session: LookSession, id: str) -> str:
    """Say why a question is asked."""
    question = session.guide.questions[id]
    effort = _EFFORTS.get(question.effort, question.effort)
    asked = next((one for one in session.asked if one.question == id), None)
    if asked is None:
        return f"Would change neither the first proposal nor a stop nor a danger; for the record ({effort})."
    if asked.disputed:
        return f"Asked again: answers do not agree; {effort}."
    if asked.open and asked.settles >= 0.1:
        return f"Why this one: settles on average {asked.settles:.1f} of {asked.open} still open; {effort}."
    return f"Why this one: it may change the first proposal, a stop or a danger; {effort}."


def _answers(session: LookSession, question: Question, marking: Marking, width: int) -> list[Content]:
    shown: list[Content] = []
    for number, option in enumerate(session.options(question.id), 1):
        shown += _option(number, option, marking, width, at=number - 1 == marking.cursor)
    if _HOW[marking.mode]:
        shown += [plain(""), plain(_HOW[marking.mode], BOLD)]
    return [plain(""), *shown, plain("")]


def _option(number: int, option: Option, marking: Marking, width: int, *, at: bool) -> list[Content]:
    """Word one answer, its further lines set in under the first."""
    box = ""
    if marking.mode != "one":
        box = ("[-] " if marking.mode == "not" else "[x] ") if option.id in marking.marked else "[ ] "
    head = joined(plain(f" {number if number < 10 else ' '}  {box}", BOLD))
    style = ("" if option.possible else FAINT) + (" reverse" if at else "")
    label = plain(option.label + ("" if option.possible else "  (out)"), style.strip())
    first, *rest = label.wrap(max(8, width - head.cell_length))
    return [joined(head, first), *[joined(" " * head.cell_length, one) for one in rest]]


def _sizes_hint(question: Question, session: LookSession) -> str:
    if question.kind == "count":
        return "A number. Enter takes it; Enter on nothing: not known yet."
    tool = question.tool.replace("_", " ")
    by = "" if tool == "eye" else f"By {tool}. "
    return (
        f"{by}Any unit; a bare number is {session.unit}. 5.2 mm, 0.205 in, 13/64, #6, 5.2 mm +- 0.05, "
        "goes #21 not #20. Enter takes it; Enter on nothing: not known yet."
    )
