"""The forms of the work: a step, what was done otherwise, a size as made, readings, the record."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from casebook.bench.typed import NotTyped, read_day, read_hours
from casebook.records.case import StepDone
from casebook.records.workshop import BeforeAfter, Departure
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.form import Entry, Form
from casebook.screens.way import Way


def step_form(at: DamageAtHand, shop: Way, text: str = "", done: StepDone | None = None) -> Form:
    """Make the form for one step: how it was done; without a text it is one's own, which is asked for.

    Args:
        at: the damage.
        shop: knows whose initials were used last, and learns them.
        text: the words of the step.
        done: how it stands ticked off already, or None.
    """

    def take(written: dict[str, str]) -> None:
        by, note, words = (written.get(name, "").strip() for name in ("by", "note", "text"))
        day, hours = read_day(written["done_on"], at.desk.today), read_hours(written["hours"])
        if done is None:
            at.desk.do_step(at.number, at.damage_number, text or words, by, hours, note, done_on=day)
        else:
            now = StepDone(text, day, by, hours, note)
            at.desk.mend_step(at.number, at.damage_number, done, now)
        shop.initials = by or shop.initials

    entries = [
        *([] if text else [Entry("text", "What was done", needed=True)]),
        Entry("by", "By (initials)", value=done.by if done else shop.initials),
        Entry("hours", "Hours", value=_number(done.hours) if done else "", hint="0.5, 90 min, 1:30"),
        Entry("done_on", "Day", value=str(done.done_on or "") if done else "today", hint="today"),
        Entry("note", "Note", value=done.note if done else ""),
    ]
    return Form("Done" if text else "A step of your own", entries, take, text)


def departure_form(at: DamageAtHand, planned: str, before: Departure | None) -> Form:
    """Make the form for what was done otherwise than planned; `before` was said of it already."""

    def take(written: dict[str, str]) -> None:
        meant, did, why = (written[name].strip() for name in ("planned", "did", "because"))
        if before is None and not did:
            raise NotTyped("Did instead: say what was done")
        at.desk.depart(at.number, at.damage_number, meant, did, why, instead_of=before)

    entries = [
        Entry("planned", "Planned", value=planned, needed=True),
        Entry("did", "Did instead", value=before.did if before else ""),
        Entry("because", "Because", value=before.why if before else ""),
    ]
    note = "Both emptied, it is taken away." if before else "It stays below the step it belongs to."
    return Form("Done otherwise than planned", entries, take, note)


def size_form(at: DamageAtHand, then: Callable[[str], None]) -> Form:
    """Make the form for a size as made; one of the same name is replaced. `then` gets what was measured."""

    def take(written: dict[str, str]) -> None:
        what, value, note = (written[name].strip() for name in ("what", "value", "note"))
        at.desk.measure_made(at.number, at.damage_number, what, value, note)
        then(what)

    entries = [
        Entry("what", "What", hint="hole as cut", needed=True),
        Entry("value", "Size", hint="5.45 mm, 0.215 in", needed=True),
        Entry("note", "Note"),
    ]
    return Form("A size as made", entries, take)


def readings_form(at: DamageAtHand) -> Form:
    """Make the form for readings: the one after the work where one was taken before, and a new one."""
    waiting = [read for read in at.damage.before_after if not read.after]

    def take(written: dict[str, str]) -> None:
        said = {name: text.strip() for name, text in written.items()}
        new = BeforeAfter(said["what"], said["before"], said["after"], said["note"])
        if (new.before or new.after or new.note) and not new.what:
            raise NotTyped("say what was read")
        if new.what and not (new.before or new.after):
            raise NotTyped(f"{new.what}: type the reading before the work, or the one after it")
        readings: list[tuple[BeforeAfter | None, BeforeAfter | None]] = []
        for place, was in enumerate(waiting):
            now = replace(was, before=said[f"before{place}"], after=said[f"after{place}"])
            readings.append((was, now if now.before or now.after else None))
        readings += [(None, new)] if new.what else []
        readings = [(was, now) for was, now in readings if was != now]
        if readings:
            at.desk.put_readings(at.number, at.damage_number, *readings)

    entries = []
    for place, read in enumerate(waiting):
        entries += [
            Entry(f"after{place}", "After", hint=f"{read.what}, after the work"),
            Entry(f"before{place}", "Before", value=read.before, hint=f"{read.what}, before the work"),
        ]
    entries += [
        Entry("what", "Another" if waiting else "What", hint="leak, spring force"),
        Entry("before", "Before", hint="12, 0.35 N; before the work"),
        Entry("after", "After", hint="where the work is done already"),
        Entry("note", "Note"),
    ]
    note = "; ".join(f"{read.what}: {read.before} before the work, and now?" for read in waiting)
    return Form("Readings before and after the work", entries, take, note)


def record_form(at: DamageAtHand) -> Form:
    """Make the form for what was done in the end; the hours of the steps stand in it already."""
    base, damage = at.case, at.damage

    def take(written: dict[str, str]) -> None:
        at.desk.record_done(
            base,
            damage.number,
            done=written["done"].strip(),
            hours=read_hours(written["hours"]),
            repaired_on=read_day(written["repaired_on"], at.desk.today),
            learned=written["learned"].strip(),
        )

    spent = damage.hours if damage.hours is not None else sum(step.hours or 0 for step in damage.steps)
    entries = [
        Entry("done", "Done", "lines", value=damage.done),
        Entry("hours", "Hours in all", value=_number(spent) if spent else "", hint="1.5, 90 min"),
        Entry("repaired_on", "Repaired on", value=str(damage.repaired_on or at.desk.today)),
        Entry("learned", "Learned", value=damage.learned, hint="what you would do differently"),
    ]
    return Form("The record", entries, take, "What was really done, in your words.")


def _number(hours: float | None) -> str:
    return "" if hours is None else f"{hours:g}"
