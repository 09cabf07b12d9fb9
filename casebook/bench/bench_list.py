"""The first screen's list: every job by what it waits for, overdue ones first."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from casebook.bench.due import LookingAfter
from casebook.bench.job_waits import HeldUp, Waiting
from casebook.bench.stage import waits_for
from casebook.bench.wood_rest import day_words
from casebook.records.case import Case
from casebook.records.workshop import WAITS_FOR

# What a row may wait for, in the order of the list.
ORDER = (*WAITS_FOR, "ready", "told", "due")


@dataclass(frozen=True, slots=True)
class BenchLine:
    """A job as a row of the list.

    Attributes:
        number: the case's number.
        instrument: kind and description.
        title: its title.
        waits_for: one of `ORDER`.
        says: in a few words, with its date; everything else it waits for after a semicolon.
        day: the day to act; None where there is none.
        overdue: whether that day, or the day it is needed by, is past.
        needed: the day it is needed by and what for, in words.
        came_in_with: what goes back with it.
        loaned_out: what is lent meanwhile, in words.
        damage: number of the damage to look at, for `due`; else 0.
    """

    number: str
    instrument: str
    title: str
    waits_for: str
    says: str
    day: date | None
    overdue: bool
    needed: str = ""
    came_in_with: str = ""
    loaned_out: str = ""
    damage: int = 0


class Listing(Waiting, LookingAfter):
    """The list of what there is to do."""

    def bench_list(self) -> list[BenchLine]:
        """List every open job, and finished ones whose repair is due to be looked at today or before.

        Jobs come first, overdue ones before all others, then in the order of what they wait for, then by day;
        a repair to look at again hurries nobody.

        Raises:
            StorageError: the book cannot be read.
        """
        rows = [self.job(case) for case in self.book.every_case(finished=False)]
        open_cases = {row.number for row in rows}
        for due in self.due():
            if due.since <= self.today and due.case not in open_cases:
                says = f"{due.place or due.title}: look {due.why}, until {day_words(due.until)}"
                rows.append(
                    BenchLine(due.case, "", due.title, "due", says, due.until, due.overdue, damage=due.damage)
                )
        return sorted(
            rows,
            key=lambda row: (
                row.waits_for == "due",
                not row.overdue,
                ORDER.index(row.waits_for),
                row.day or date.max,
                row.number,
            ),
        )

    def job(self, case: Case) -> BenchLine:
        """Say what one case waits for, as a row of the list."""
        visit = case.visit
        what, says, day = self._waits(case)
        late = visit.needed_by is not None and visit.needed_by < self.today and what != "told"
        past = day is not None and day < self.today and what in ("owner", "part", "wood", "me")
        lent = visit.loaned_out and f"{visit.loaned_out}{_until(visit.loaned_until)}"
        needed = f"{day_words(visit.needed_by)}{_for(visit.needed_for)}" if visit.needed_by else ""
        thing = ", ".join(filter(None, (case.instrument.kind, case.instrument.description)))
        return BenchLine(
            number=case.number,
            instrument=thing,
            title=case.title,
            waits_for=what,
            says=says,
            day=day,
            overdue=late or past,
            needed=needed,
            came_in_with=visit.came_in_with,
            loaned_out=lent,
        )

    def _waits(self, case: Case) -> tuple[str, str, date | None]:
        """Say what a case waits for, in words, and the day to act."""
        visit = case.visit
        if visit.told_on:
            return "told", f"owner told {day_words(visit.told_on)}", visit.told_on
        if visit.ready_on:
            return "ready", f"ready since {day_words(visit.ready_on)}: tell the owner", visit.ready_on
        held = self.held_up(case)
        lasting = [one for one in held if not one.over]
        if lasting:
            first, *others = lasting
            return first.what, "; ".join([first.says or first.what, *map(_short, others)]), first.day
        next_act = waits_for(self.library, case)
        return "me", "; ".join([*(one.says for one in held), next_act]), visit.needed_by


def _short(held: HeldUp) -> str:
    return f"{held.what}: {held.says}" if held.says else held.what


def _until(day: date | None) -> str:
    return f", until {day_words(day)}" if day else ""


def _for(what: str) -> str:
    return f", for {what}" if what else ""
