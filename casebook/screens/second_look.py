"""Before the second look: what is carried over, and what is asked anew because the act has changed it."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from casebook.bench.case_text import answer_text
from casebook.bench.stage import act_of
from casebook.records.case import Answer
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, FAINT, joined, lines, plain
from casebook.screens.room import Room
from casebook.screens.trouble import trouble_shown


class SecondLookScreen(Room):
    """What the next look begins with."""

    HELP = (
        "Cleaning, resting or taking out a stump changes what there is to see: the look before it is "
        "closed and kept, and the next begins with what is still true. Everything that was judged under "
        "what has gone is asked anew."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter,f2", "begin", "begin the look", "Close the look before and begin this one."),
        key("down", "scroll(1)", "", show=False),
        key("up", "scroll(-1)", "", show=False),
    ]

    def __init__(self, at: DamageAtHand) -> None:
        super().__init__()
        self.at = at
        self._kept: dict[str, Answer] = {}

    def body(self) -> ComposeResult:
        """Lay it out."""
        with VerticalScroll(id="carried", can_focus=False):
            yield Static(id="words")

    def renew(self) -> None:
        """Work out what is carried over."""
        at = self.at
        with trouble_shown(self.app):
            at.again()
            choice = at.damage.choice
            if choice is None:
                return
            self._kept = at.desk.still_true(at.number, at.damage_number, choice.strategy)
            strategy = at.desk.strategy(at.damage.family, choice.strategy)
            self.heading.say(at.name, f"after the {at.which_look}", at.stage)
            before = at.damage.looks[-1].answers
            gone = {id: answer for id, answer in before.items() if id not in self._kept}
            parts: list[Content | str] = [
                joined(plain("Done: ", FAINT), plain(strategy.title if strategy else choice.strategy, BOLD)),
                "",
                plain(f"Asked anew ({len(gone)})", BOLD),
                *self._named(gone, "nothing: no answer was judged under it"),
                "",
                plain(f"Carried over as still true ({len(self._kept)})", BOLD),
                *self._named(self._kept, "nothing"),
            ]
            self.query_one("#words", Static).update(lines(parts))

    def _named(self, answers: dict[str, Answer], nothing: str) -> list[Content]:
        guide = self.at.session.guide
        named = [
            joined("  ", plain(f"{guide.questions[id].name}: "), plain(answer_text(guide, id, answer), FAINT))
            for id, answer in answers.items()
            if id in guide.questions
        ]
        return named or [plain(f"  {nothing}", FAINT)]

    def action_begin(self) -> None:
        """Close the look before and begin this one."""
        at = self.at
        with trouble_shown(self.app):
            choice = at.damage.choice
            if choice is not None:
                at.desk.second_look(
                    at.number, at.damage_number, act_of(at.desk.library, at.damage), self._kept
                )
                at.look_again()
                self.casebook.question(at, instead=True)

    def action_scroll(self, step: int) -> None:
        """Read on."""
        self.query_one("#carried").scroll_relative(y=step * 3, animate=False)
