"""The form for taking an instrument in, and for changing what was written then."""

from __future__ import annotations

from collections.abc import Callable

from casebook.bench.desk import Desk
from casebook.bench.taking_in import kind_of, kinds, rewrite, take_in
from casebook.records.case import Case
from casebook.screens.form import Entry, Form


def intake_form(desk: Desk, then: Callable[[str], None], title: str = "") -> Form:
    """Make the form for a new case; `then` gets its number, `title` stands in it at first."""

    def take(written: dict[str, str]) -> None:
        then(take_in(desk, written).number)

    return Form("Take an instrument in", _entries(desk, None, title), take)


def rewrite_form(desk: Desk, case: Case) -> Form:
    """Make the form that changes what was written down when the instrument came in."""

    def take(written: dict[str, str]) -> None:
        rewrite(desk, case, written)

    return Form(f"{case.number} as taken in", _entries(desk, case), take)


def _entries(desk: Desk, case: Case | None, title: str = "") -> list[Entry]:
    seen = case.instrument if case else None
    return [
        Entry(
            "title",
            "In one line",
            value=case.title if case else title,
            needed=True,
            hint="low E key post torn out",
        ),
        Entry("kind", "Instrument", "pick", value=kind_of(desk, case) if case else "", choices=kinds(desk)),
        Entry(
            "description", "Description", value=seen.description if seen else "", hint="B flat, about 1990"
        ),
        Entry(
            "materials",
            "Materials",
            value=seen.materials if seen else "",
            hint="grenadilla, silver-plated keys",
        ),
        Entry("marks", "Marks", value=seen.marks if seen else ""),
        Entry("owner", "Owner", value=case.owner if case else "", hint="a reference, no address"),
        Entry("owner_words", "Owner's words", "lines", value=case.owner_words if case else ""),
    ]
