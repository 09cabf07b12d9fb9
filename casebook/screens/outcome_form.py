"""How a repair turned out: first the kind, then only what belongs to it."""

from __future__ import annotations

from casebook.bench.typed import read_day, read_hours
from casebook.bench.visit_text import outcome_text
from casebook.records.case import FollowUp
from casebook.records.workshop import LET_GO
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.form import Entry, Form
from casebook.screens.rows import Row

# Kind -> what it is called here, and what it says of the repair.
_KINDS = {
    "holding": ("holding", "speaks for the repair"),
    "let_go": ("let go by itself", "only this counts against the repair"),
    "knocked_again": ("knocked again", "not against the repair; ends the watch"),
    "altered_by_others": ("altered by others", "not against the repair; ends the watch"),
    "new_fault_elsewhere": ("new fault elsewhere", "not against the repair; ends the watch"),
    "not_seen": ("not seen since", "says nothing, the watch goes on"),
}
MISTAKEN = "mistaken"
_BY_PHONE = (("no", "seen"), ("yes", "told by phone"))


def kind_rows(last: FollowUp | None) -> list[Row]:
    """List the kinds, and the way to take back what was kept last."""
    rows: list[Row] = list(_KINDS.items())
    if last is not None:
        rows.append((MISTAKEN, ("take the last one back", outcome_text(last))))
    return rows


def outcome_form(at: DamageAtHand, kind: str) -> Form:
    """Make the form for one kind of outcome."""
    let_go, told_of = kind == "let_go", kind != "not_seen"

    def take(written: dict[str, str]) -> None:
        at.desk.turned_out(
            at.number,
            at.damage_number,
            kind,
            looked=read_day(written["looked"], at.desk.today),
            what=written.get("what", ""),
            since=read_day(written.get("since", ""), at.desk.today),
            cause=written.get("cause", "").strip(),
            by_phone=written.get("by_phone") == "yes",
            redo_hours=read_hours(written.get("redo_hours", "")),
            note=written["note"].strip(),
        )

    entries = []
    if let_go:
        entries += [
            Entry("what", "What let go", "pick", choices=tuple((one, one) for one in LET_GO)),
            Entry("since", "It started", hint="2026-02-20, 10 days ago; empty: not known"),
            Entry("cause", "Why", hint="oil in the joint, too short a needle"),
            Entry("redo_hours", "Free redo", hint="hours done again free: 0.5, 90 min"),
        ]
    if told_of:
        entries.append(Entry("by_phone", "Seen or told", "pick", value="no", choices=_BY_PHONE))
    entries += [Entry("looked", "Day", value="today", hint="today, 3 days ago"), Entry("note", "Note")]
    name, says = _KINDS[kind]
    return Form(f"Looked after: {name}", entries, take, f"{says[:1].upper()}{says[1:]}.")
