"""The first time the screens open in a shop: what only it can say, and the rules it keeps to."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from casebook.bench.shop_keeping import Change
from casebook.screens.form import Entry, Form
from casebook.screens.keys import key
from casebook.screens.shop_forms import UNITS, without
from casebook.screens.trouble import Trouble, trouble_shown
from casebook.screens.way import Way

_NOTE = (
    "All of it can be changed later on the shop screen, and everything works with the usual values. "
    "Esc: ask again next time."
)


def first_run(shop: Way) -> None:
    """Ask a shop without a file for what only it can say; tell what in a file the rule packs do not know."""
    file = shop.desk.shop_file
    if file is None:
        return
    if not file.is_there:
        shop.push_screen(FirstRun(shop))
    elif file.unknown:
        do = "Put it right on the shop screen, or in the file. Everything else of it counts."
        shop.push_screen(Trouble(f"{file.path}: {file.unknown}", do))


class FirstRun(Form):
    """The form for a new shop.

    Args:
        shop: the way through the screens.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        key("f4", "never", "do not ask again", "The usual values; they can be changed on the shop screen.")
    ]

    def __init__(self, shop: Way) -> None:
        def take(typed: dict[str, str]) -> None:
            shop.change_shop(*_changes({name: one.strip() for name, one in typed.items()}))
            shop.call_later(shop.shop_rules)

        entries = [
            Entry("unit", "Unit", "pick", value="mm", choices=UNITS),
            Entry("initials", "Your initials", hint="they stand at the steps of the work"),
            Entry("name", "Your name"),
            Entry("currency", "Currency", hint="EUR"),
            Entry("rate", "An hour", hint="65, before tax; a quote needs it"),
        ]
        super().__init__("A new shop", entries, take, _NOTE)
        self._shop = shop

    def action_never(self) -> None:
        """Make the file with nothing in it: the usual values hold, and it is not asked again."""
        with trouble_shown(self.app):
            self._shop.change_shop()
            self.dismiss(False)


def _changes(typed: dict[str, str]) -> list[Change]:
    changes: list[Change] = [(("unit",), typed["unit"])]
    if typed["initials"] or typed["name"]:
        changes.append((("people", typed["initials"] or typed["name"]), typed["name"] or typed["initials"]))
    if typed["currency"]:
        changes.append((("currency",), typed["currency"]))
    rate = without(typed["rate"], typed["currency"])
    return [*changes, (("rate",), rate)] if rate else changes
