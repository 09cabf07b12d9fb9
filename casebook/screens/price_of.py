"""Which strategies a flat price is for: found by a word, taken and let go by one key."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Static

from casebook.bench.shop_settings import pricing, strategies_of
from casebook.screens.fields import TextLine
from casebook.screens.keys import key
from casebook.screens.plain import FAINT, line, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.trouble import trouble_shown


class PriceOfScreen(Room):
    """The strategies, those of the price first.

    Args:
        place: the place of the price in the list.
    """

    HELP = (
        "What this flat price is for. Type a word of the strategy or its family; Enter takes the marked one "
        "or lets it go again. A quote then takes this price in place of hours. One strategy has one price."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "turn", "take or let go", "Take the marked strategy, or let it go again."),
        key("space", "turn", "", show=False),
        key("down", "into", "", show=False),
        key("slash,f3", "again", "type anew", "Back into the field."),
    ]

    def __init__(self, place: int) -> None:
        super().__init__()
        self._place = place

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield TextLine(placeholder="a word of what it is for", id="words")
        yield Static(id="said")
        yield Rows([7, 22, -1], whole=2, id="strategies")

    def on_mount(self) -> None:
        """Begin in the field."""
        self.set_focus(self.query_one(TextLine))

    def renew(self) -> None:
        """Show what fits the words."""
        money = self.desk.shop.money if self.desk.shop else None
        if money is None or self._place >= len(money.prices):
            self.dismiss()
            return
        price = money.prices[self._place]
        self.heading.say(f"Price: {price.work}", f"for {len(price.strategies)}")
        words = self.query_one(TextLine).value.casefold().split()
        found = [
            (id, family, title)
            for id, (family, title) in strategies_of(self.desk.library).items()
            if all(word in f"{family} {title} {id}".casefold() for word in words)
        ]
        found.sort(key=lambda one: one[0] not in price.strategies)
        other = {id: one.work for one in money.prices if one is not price for id in one.strategies}
        rows = self.query_one(Rows)
        rows.fill([
            (id, ["● taken" if id in price.strategies else "○", line(family, FAINT),
                  line(title + (f"  (price: {other[id]})" if id in other else ""))])
            for id, family, title in found
        ])  # fmt: skip
        said = "" if found else "no strategy has these words; fewer or other words may find it"
        self.query_one("#said", Static).update(plain(said, FAINT))

    def on_input_changed(self) -> None:
        """Show what fits the words so far."""
        self.renew()

    def on_input_submitted(self) -> None:
        """Take the marked one or let it go."""
        self.action_turn()

    def on_option_list_option_selected(self) -> None:
        """Take the marked one or let it go."""
        self.action_turn()

    def action_turn(self) -> None:
        """Take the marked one or let it go."""
        marked, shop = self.query_one(Rows).marked, self.desk.shop
        if marked is None or shop is None:
            return
        have = [str(id) for id in shop.money.prices[self._place].strategies]
        now = [id for id in have if id != marked] if marked in have else [*have, marked]
        with trouble_shown(self.app):
            self.casebook.change_shop(*pricing(self.desk, self._place, now))
        self.renew()
        rows = self.query_one(Rows)
        if marked in rows.ids:
            rows.highlighted = rows.ids.index(marked)

    def leave_field(self) -> bool:
        """Empty the field first, then leave."""
        field = self.query_one(TextLine)
        if not field.value:
            return False
        field.value = ""
        return True

    def action_into(self) -> None:
        """From the field into the list."""
        self.set_focus(self.query_one(Rows))

    def action_again(self) -> None:
        """Back into the field."""
        self.set_focus(self.query_one(TextLine))
