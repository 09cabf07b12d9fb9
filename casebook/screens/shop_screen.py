"""The shop: every setting with what it is now, and the way to change it."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from casebook.bench.shop_settings import Setting, settings_of
from casebook.screens.keys import key
from casebook.screens.plain import FAINT, WRONG, line, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.shop_forms import form_for
from casebook.screens.shop_lists import LISTS


class ShopScreen(Room):
    """The settings of the shop, each with what it is now."""

    HELP = (
        "What holds in this shop: unit, reading errors, money, who works here, rules, glues, the drawer. "
        "Enter changes the marked one; it counts at once. Everything stands in one plain file that can be "
        "changed by hand too: a change here touches its own line there and no other."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "change", "change", "Change the marked setting."),
        key("d", "drawer", "drawer", "What lies in the drawer, shelf by shelf."),
        key("p", "open_list('prices')", "prices", "The flat price list."),
        key("r", "rules", "shop rules", "The cautions you may accept once as rules of the shop."),
        key("g", "open_list('glues')", "glues", "Glues, fillers and finishes with the day they were opened."),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._names: dict[str, str] = {}

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Rows([18, -1], id="settings")
        yield Static(id="where")

    def renew(self) -> None:
        """Show what is set."""
        found = list(settings_of(self.desk))
        self._names = {one.id: one.name for one in found}
        rows = self.query_one(Rows)
        rows.fill([(one.id, [one.name, _says(one)]) for one in found])
        self.heading.say("The shop", "")
        self.query_one("#where", Static).update(self._where())
        if self.focused is None:
            self.set_focus(rows)

    def _where(self) -> Content:
        file = self.desk.shop_file
        if file is None:
            return plain("Given once for all; start the program with --shop FILE to change it.", FAINT)
        words = f"Kept in {file.path}" if file.is_there else f"No file yet; it will be made: {file.path}"
        said = [line(words, FAINT)]
        if file.unknown:
            said.append(line(f"! {file.unknown}", WRONG))
        return lines(said)

    def on_option_list_option_selected(self) -> None:
        """Change the marked setting."""
        self.action_change()

    def action_change(self) -> None:
        """Change the marked setting."""
        marked = self.query_one(Rows).marked
        if marked == "drawer":
            self.action_drawer()
        elif marked == "shop_rules":
            self.action_rules()
        elif marked in LISTS:
            self.action_open_list(marked)
        elif marked:
            self._open(form_for(self.casebook, marked, self._names[marked]))

    def _open(self, form: Screen[bool]) -> None:
        self.app.push_screen(form, lambda _: self.renew())

    def action_drawer(self) -> None:
        """Show the drawer."""
        self.casebook.drawer()

    def action_rules(self) -> None:
        """Show the shop rules."""
        self.casebook.shop_rules()

    def action_open_list(self, id: str) -> None:
        """Show people, prices or glues."""
        self.app.push_screen(LISTS[id]())


def _says(one: Setting) -> Content:
    return line(f"! {one.says}", WRONG) if one.minds else line(one.says)
