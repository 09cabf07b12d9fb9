"""The forms of the work: a step done, the record, looking after."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from casebook.bench.typed import read_day
from casebook.records.case import HELD, Damage, FollowUp, StepDone
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.form import Entry, Form

_HELD = (("yes", "holding"), ("no", "let go"), ("not_known", "not seen since"))
_BY_PHONE = (("no", "seen"), ("yes", "told by phone"))

Take = Callable[[dict[str, str]], None]


def step_form(text: str, done: StepDone | None, initials: str, take: Take) -> Form:
    """Make the form for one step done; without a text it is a departure, which is asked for."""
    own = [] if text else [Entry("text", "What was done", needed=True)]
    entries = [
        *own,
        Entry("by", "By (initials)", value=done.by if done else initials),
        Entry("hours", "Hours", value=_number(done.hours) if done else "", hint="0.5, 90 min, 1:30"),
        Entry("done_on", "Day", value=str(done.done_on or "") if done else "today", hint="today"),
        Entry("note", "Note", value=done.note if done else ""),
    ]
    return Form("Done" if text else "Done another way than planned", entries, take, text)


def record_form(damage: Damage, today: date, take: Take) -> Form:
    """Make the form for what was done in the end; the hours of the steps stand in it already."""
    spent = damage.hours if damage.hours is not None else sum(step.hours or 0 for step in damage.steps)
    entries = [
        Entry("done", "Done", "lines", value=damage.done),
        Entry("hours", "Hours in all", value=_number(spent) if spent else "", hint="1.5, 90 min"),
        Entry("repaired_on", "Repaired on", value=str(damage.repaired_on or today)),
        Entry("learned", "Learned", value=damage.learned, hint="what you would do differently"),
    ]
    return Form("The record", entries, take, "What was really done, in your words.")


def follow_up_form(at: DamageAtHand) -> Form:
    """Make the form for how a repair held."""

    def take(written: dict[str, str]) -> None:
        held = next(one for one in HELD if one == (written["held"] or "not_known"))
        looked = read_day(written["looked"], at.desk.today)
        at.desk.follow_up(
            at.number,
            at.damage_number,
            FollowUp(
                held, looked, written["cause"].strip(), written["by_phone"] == "yes", written["note"].strip()
            ),
        )

    entries = [
        Entry("held", "It is", "pick", value="yes", choices=_HELD),
        Entry("cause", "What let go", hint="glue, wood, thread, metal, line; empty if it holds"),
        Entry("by_phone", "Seen or told", "pick", value="no", choices=_BY_PHONE),
        Entry("looked", "Day", value="today", hint="today, 2026-03-09"),
        Entry("note", "Note"),
    ]
    return Form("Looked after", entries, take)


def _number(hours: float | None) -> str:
    return "" if hours is None else f"{hours:g}"
