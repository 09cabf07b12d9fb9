"""One case: what came in, in whose words, and its damages with how far each has come."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from casebook.bench.case_text import answer_text
from casebook.bench.stage import STAGES, stage_of, waits_for
from casebook.records.case import Case, Damage
from casebook.screens.damage_form import damage_form
from casebook.screens.intake_form import rewrite_form
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, FAINT, cell, joined, line, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.trouble import trouble_shown

_MARKS = {"taken in": "□", "looked at": "?", "decided": "=", "done": "■", "looked after": "■"}


class CaseScreen(Room):
    """One case.

    Args:
        number: the case's number.
    """

    HELP = (
        "One visit of one instrument. Each damage stands with how far it has come; its digit opens it "
        "where the work goes on. i asks about the instrument as a whole; what is answered there counts "
        "for every damage."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "open", "open", "Open the marked damage where the work goes on."),
        key("n", "add_damage", "new damage", "Write down a damage."),
        key("i", "intake", "intake questions", "Answer what concerns the instrument as a whole."),
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
        yield Rows([-2, -3, 14, -3], numbered=True, id="damages")

    def renew(self) -> None:
        """Read the case anew."""
        with trouble_shown(self.app):
            self._case = case = self.desk.book.case(self._number)
            finished = "finished" if case.finished else f"waits for {waits_for(self.desk.library, case)}"
            self.heading.say(f"{case.number}  {case.title}", finished)
            self.query_one("#words", Static).update(self._about(case))
            self.query_one("#damages-head", Static).update(
                plain("Damages", BOLD) if case.damages else plain("No damage yet: n writes one down.", BOLD)
            )
            rows = self.query_one("#damages", Rows)
            rows.display = bool(case.damages)
            rows.fill([(f"{damage.number}", self._cells(damage)) for damage in case.damages])
            if case.damages and self.focused is None:
                self.set_focus(rows)

    def _about(self, case: Case) -> Content:
        seen = case.instrument
        parts = [
            ("Instrument", ", ".join(filter(None, (seen.kind, seen.description)))),
            ("Materials", seen.materials),
            ("Marks", seen.marks),
            ("Taken in", f"{case.taken_in or '(no date)'}{f', {case.owner}' if case.owner else ''}"),
            ("In the owner's words", case.owner_words),
        ]
        intake = self.desk.library.intake()
        known = [
            f"{intake.questions[id].name}: {answer_text(intake, id, answer)}"
            for id, answer in case.answers.items()
            if id in intake.questions
        ]
        parts.append(("Intake", "; ".join(known) or "nothing answered yet: i asks"))
        shown = [joined(cell(plain(name, FAINT), 13), " ", plain(text)) for name, text in parts[:4] if text]
        shown += [joined(plain(f"{name}  ", FAINT), plain(text)) for name, text in parts[4:] if text]
        return lines(shown)

    def _cells(self, damage: Damage) -> list[Content | str]:
        library = self.desk.library
        stage = stage_of(library, damage)
        family = library.packs.get(damage.family)
        chosen = ""
        if damage.choice:
            strategy = self.desk.strategy(damage.family, damage.choice.strategy) if family else None
            chosen = strategy.title if strategy else damage.choice.strategy
        style = FAINT if STAGES.index(stage) > STAGES.index("decided") else BOLD
        return [
            family.title if family else damage.family,
            damage.place or damage.story,
            line(f"{_MARKS[stage]} {stage}", style),
            chosen,
        ]

    def on_option_list_option_selected(self) -> None:
        """Open the marked damage."""
        self.action_open()

    def action_open(self) -> None:
        """Open the marked damage."""
        marked = self.query_one("#damages", Rows).marked
        if marked is not None:
            self.casebook.open_damage(self._number, int(marked))
        else:
            self.action_add_damage()

    def action_open_number(self, place: int) -> None:
        """Open the damage in that place of the list."""
        ids = self.query_one("#damages", Rows).ids
        if place <= len(ids):
            self.casebook.open_damage(self._number, int(ids[place - 1]))

    def action_add_damage(self) -> None:
        """Write down a damage, then look at it."""

        def then(damage: int) -> None:
            self.call_later(self.casebook.open_damage, self._number, damage)

        self.app.push_screen(damage_form(self.desk, self._number, then))

    def action_intake(self) -> None:
        """Ask about the instrument as a whole."""
        self.casebook.open_damage(self._number, 0)

    def action_rewrite(self) -> None:
        """Change what was written down."""
        if self._case is not None:
            self.app.push_screen(rewrite_form(self.desk, self._case))

    def action_finish(self) -> None:
        """Close the case, or open it again."""
        if self._case is not None:
            with trouble_shown(self.app):
                self.desk.finish(self._number, not self._case.finished)
                self.renew()

    def action_like(self) -> None:
        """Show the like of the marked damage."""
        marked = self.query_one("#damages", Rows).marked
        if marked is not None:
            self.casebook.like_it(self._number, int(marked))

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()
