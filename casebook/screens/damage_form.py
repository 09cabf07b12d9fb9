"""The form for a new damage on a case."""

from __future__ import annotations

from collections.abc import Callable

from casebook.bench.desk import Desk
from casebook.screens.form import Entry, Form


def damage_form(desk: Desk, number: str, then: Callable[[int], None]) -> Form:
    """Make the form for a damage of a case; `then` gets the damage's number."""
    families = tuple((pack.id, pack.title) for pack in desk.library.families)

    def take(written: dict[str, str]) -> None:
        then(desk.add_damage(number, written["family"], written["place"].strip(), written["story"].strip()))

    entries = [
        Entry("family", "What it is on", "pick", choices=families, needed=True),
        Entry("place", "Where", hint="low E key, upper post"),
        Entry("story", "As found", "lines"),
    ]
    return Form(f"{number}: a damage", entries, take)
