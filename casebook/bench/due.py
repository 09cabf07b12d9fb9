"""What is due to be looked at: after four to six weeks, and after a heating season (common practice)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from casebook.bench.at_desk import AtDesk, NotPossible
from casebook.bench.icalendar import Day, calendar
from casebook.records.case import Case, Damage

# Common practice, no source: the first look, how much of a heating season tells something, and how long a
# look stays on the list before nobody expects it any more.
FIRST, FIRST_UNTIL = timedelta(weeks=4), timedelta(weeks=6)
LEAST_OF_A_SEASON = timedelta(days=90)
FORGOTTEN = timedelta(days=730)


@dataclass(frozen=True, slots=True)
class Due:
    """A repair due to be looked at.

    Attributes:
        case: the case's number.
        uid: the case's uid.
        damage: the damage's number.
        title: the case's title.
        place: where on the instrument.
        done: what was done.
        why: ``after 4 to 6 weeks`` or ``after a heating season``.
        since: the first day of the time to look.
        until: its last day.
        overdue: whether that day is past.
    """

    case: str
    uid: str
    damage: int
    title: str
    place: str
    done: str
    why: str
    since: date
    until: date
    overdue: bool


class LookingAfter(AtDesk):
    """What comes after the work."""

    def due(self) -> list[Due]:
        """List the repairs to be looked at, overdue ones first, then by day; those not due yet among them."""
        cases = self.book.repaired_since(self.today - FORGOTTEN)
        found = [due for case in cases for damage in case.damages if (due := self._due(case, damage))]
        return sorted(found, key=lambda due: (not due.overdue, due.until, due.case, due.damage))

    def due_calendar(self, stamp: datetime | None = None, dues: Sequence[Due] | None = None) -> str:
        """Give the looks due as an iCalendar file, without a word of their owners.

        Args:
            stamp: the moment it is written; left out, now.
            dues: what is due, where it was read already.

        Raises:
            NotPossible: nothing is due; an empty calendar is none.
        """
        dues = self.due() if dues is None else dues
        if not dues:
            raise NotPossible("nothing is due to be looked at: there is no calendar to write")
        days = [
            Day(
                uid=f"{due.uid}-{due.damage}-{due.why.replace(' ', '-')}@casebook",
                first=due.since,
                last=due.until,
                summary=f"Look at {due.case}: {due.title}",
                description="\n".join(filter(None, (due.place, due.done, due.why))),
            )
            for due in dues
        ]
        return calendar(days, stamp or datetime.now(UTC))

    def _due(self, case: Case, damage: Damage) -> Due | None:
        """Give the look a repair waits for: the first, or once the season is over the one after it."""
        if damage.repaired_on is None or any(f.ends_observation for f in damage.followups):
            return None
        # It is tried only from the day it was fetched; where nobody wrote that down, from the repair.
        began = max(damage.repaired_on, case.visit.collected_on or damage.repaired_on)
        seen = [f.looked for f in damage.followups if f.looked and f.turned_out != "not_seen"]
        season = _season_end(began, self.season_end)
        if any(day >= season for day in seen):
            return None
        first = not any(day >= began + FIRST for day in seen) and self.today < season
        since, until = (began + FIRST, began + FIRST_UNTIL) if first else (season, season + FIRST)
        return Due(
            case=case.number,
            uid=case.uid,
            damage=damage.number,
            title=case.title,
            place=damage.place,
            done=damage.done,
            why="after 4 to 6 weeks" if first else "after a heating season",
            since=since,
            until=until,
            overdue=self.today > until,
        )


def _season_end(began: date, month_and_day: tuple[int, int]) -> date:
    """Give the end of the first heating season of which a repair lives through enough to tell something."""
    end = date(began.year, *month_and_day)
    while end - began < LEAST_OF_A_SEASON:
        end = date(end.year + 1, *month_and_day)
    return end
