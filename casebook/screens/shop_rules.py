"""The cautions a shop may accept once as its rules, each read whole."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Static

from casebook.bench.shop_settings import accepting, rules_of, withdrawing
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, FAINT, LEVEL_COLOURS, LEVEL_WORDS, line, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.trouble import trouble_shown

_NOTE = "Accepted once, they stand in one line where they apply; others want a key before each plan opens."


class ShopRulesScreen(Room):
    """The shop rules."""

    HELP = (
        "Cautions that hold for all work here: dust, solvents, lead, eyes, the lathe. Accept those you keep "
        "to anyway; they are then printed in one line where they apply. What is special to one instrument "
        "is never among them: it is asked each time. Space accepts the marked one or takes that back."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("space", "turn", "accept or not", "Accept the marked rule, or take that back."),
        key("enter", "turn", "", show=False),
        key("a", "all", "accept all", "Accept all of them, when you have read them."),
    ]

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Static(plain(_NOTE, FAINT), id="said")
        yield Rows([11, 8, -1], whole=2, id="rules")

    def renew(self) -> None:
        """Show the rules."""
        rules, taken = rules_of(self.desk.library), self.desk.accepted
        count = sum(1 for rule in rules if rule.id in taken)
        self.heading.say("The shop: rules", f"{count} of {len(rules)} accepted")
        rows = self.query_one(Rows)
        rows.fill([
            (
                rule.id,
                [
                    line("● accepted", BOLD) if rule.id in taken else line("○ each time"),
                    line(LEVEL_WORDS[rule.level], LEVEL_COLOURS[rule.level]),
                    line(rule.text),
                ],
            )
            for rule in rules
        ])  # fmt: skip
        if self.focused is None:
            self.set_focus(rows)

    def on_option_list_option_selected(self) -> None:
        """Accept the marked one, or take that back."""
        self.action_turn()

    def action_turn(self) -> None:
        """Accept the marked one, or take that back."""
        marked = self.query_one(Rows).marked
        if marked is None:
            return
        taken = marked in self.desk.accepted
        with trouble_shown(self.app):
            changes = withdrawing(self.desk, marked) if taken else accepting(self.desk, marked)
            self.casebook.change_shop(*changes)
        self.renew()

    def action_all(self) -> None:
        """Accept all of them."""
        with trouble_shown(self.app):
            self.casebook.change_shop(
                *accepting(self.desk, *(rule.id for rule in rules_of(self.desk.library)))
            )
        self.renew()
