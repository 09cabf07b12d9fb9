"""The form that takes a known instrument in again: why it is here, and which repair brings it back."""

from __future__ import annotations

from collections.abc import Callable

from casebook.bench.desk import Desk
from casebook.bench.visits import InstrumentPage
from casebook.screens.form import Entry, Form

# As many earlier visits as there is room for; a repair that comes back is seldom older.
_MOST = 12


def again_form(desk: Desk, page: InstrumentPage, then: Callable[[str], None]) -> Form:
    """Make the form for a known instrument that is here again; `then` gets the new case's number."""
    visits = [(visit.case, f"{visit.case} {visit.title}") for visit in reversed(page.visits[-_MOST:])]

    def take(written: dict[str, str]) -> None:
        case = desk.take_in(
            written["title"].strip(),
            owner=written["owner"].strip(),
            owner_words=written["owner_words"].strip(),
            instrument_uid=page.instrument.uid,
            comes_back_from=written["back"],
        )
        then(case.number)

    entries = [
        Entry("title", "In one line", needed=True, hint="the same post is loose again"),
        Entry("back", "Comes back from", "pick", choices=(("", "a new trouble"), *visits)),
        Entry("owner_words", "Owner's words", "lines"),
        Entry("owner", "Owner", value=page.owner, hint="a reference, no address"),
    ]
    note = "It starts from what stays true of the instrument; the rest is asked anew."
    return Form("Here again", entries, take, note)
