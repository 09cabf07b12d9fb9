"""The form filled in while somebody calls: who, which instrument, what is wrong, where, in their words."""

from __future__ import annotations

from collections.abc import Callable

from casebook.bench.desk import Desk
from casebook.bench.taking_in import kinds
from casebook.bench.telephone import told_by_telephone
from casebook.screens.form import Entry, Form


def phone_form(desk: Desk, then: Callable[[str], None]) -> Form:
    """Make the form for a call; `then` gets the number of the case it makes."""
    families = tuple((pack.id, pack.title) for pack in desk.library.families)

    def take(told: dict[str, str]) -> None:
        then(told_by_telephone(desk, told).number)

    entries = [
        Entry("who", "Who calls", hint="a reference, no address"),
        Entry("kind", "Instrument", "pick", choices=kinds(desk)),
        Entry("family", "What is wrong", "pick", choices=families, needed=True),
        Entry("place", "Where", hint="low E key, upper post"),
        # One line: with it the form fits a small terminal, and Enter at its end gives the price.
        Entry("words", "They say", hint="in their own words"),
    ]
    return Form("On the telephone", entries, take)
