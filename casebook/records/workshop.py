"""What stands around a damage in a workshop: who waits for what, who agreed to what, how it turned out.

All flat values: texts, days, hours, and words out of a closed list, which the field's ``one_of`` names. Flat
values are read from files, written to files and kept as rows by one rule each (`flat`, `FieldReader.flat`).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Any

# What a job may wait for, in the order in which it holds a job up.
WAITS_FOR = ("owner", "part", "wood", "glue", "me")
SAID = ("yes", "no", "later")
# How urgent somebody said a damage is, the most urgent first.
URGENCIES = ("must", "should", "can_wait")
PAYERS = ("owner", "insurer", "school", "seller")
# How a repair turned out -> whether it held until then, as the short `held` says it. Only `let_go` speaks
# against a repair; those that are neither `holding` nor `not_seen` end the observation on their day.
OUTCOMES: dict[str, str] = {
    "holding": "yes",
    "let_go": "no",
    "knocked_again": "yes",
    "altered_by_others": "yes",
    "new_fault_elsewhere": "yes",
    "not_seen": "not_known",
}
LET_GO = ("glue", "wood", "thread", "metal", "line")


def _one_of(words: tuple[str, ...], **more: str) -> Any:
    return field(metadata={"one_of": words, **more})


def _perhaps(words: tuple[str, ...]) -> Any:
    return field(default="", metadata={"one_of": ("", *words)})


@dataclass(frozen=True, slots=True)
class Visit:
    """What belongs to the visit and not to one damage.

    Attributes:
        comes_back_from: number of the earlier case whose repair brings the instrument here again.
        pays: who pays: one of `PAYERS`; empty while nobody asked.
        needed_by: the day the owner needs it.
        needed_for: what for.
        came_in_with: case, mouthpiece, loose parts: what goes back with it.
        loaned_out: the instrument lent to the owner meanwhile.
        loaned_since: the day it was lent.
        loaned_until: the day it is to come back.
        ready_on: the day the work was done.
        told_on: the day the owner was told.
        collected_on: the day it was fetched.
        paid: the amount paid, as typed.
        paid_how: how it was paid.
        paid_on: the day of payment.
        materials_price: what parts and materials are reckoned at, before tax, as typed.
    """

    comes_back_from: str = ""
    pays: str = _perhaps(PAYERS)
    needed_by: date | None = None
    needed_for: str = ""
    came_in_with: str = ""
    loaned_out: str = ""
    loaned_since: date | None = None
    loaned_until: date | None = None
    ready_on: date | None = None
    told_on: date | None = None
    collected_on: date | None = None
    paid: str = field(default="", metadata={"amount": True})
    paid_how: str = ""
    paid_on: date | None = None
    materials_price: str = field(default="", metadata={"amount": True})


@dataclass(frozen=True, slots=True)
class Wait:
    """A job that waits.

    Attributes:
        what: what it waits for: one of `WAITS_FOR`.
        since: the day the wait began.
        until: the day it is expected to end; glue ends by itself then.
        at: the time of that day, as ``14:30``; empty for the whole day.
        ended: the day somebody ended it; None while it lasts.
        damage: number of the damage that waits; 0 for the whole case.
        note: which part, which glue, what was asked.
    """

    what: str = _one_of(WAITS_FOR, key="for")
    since: date | None = None
    until: date | None = None
    at: str = field(default="", metadata={"clock": True})
    ended: date | None = None
    damage: int = 0
    note: str = ""

    @property
    def ends(self) -> datetime | None:
        """The moment it ends by the clock, in the shop's local time; None where no day is set."""
        if self.until is None:
            return None
        return datetime.combine(self.until, time.fromisoformat(self.at) if self.at else time.min)


@dataclass(frozen=True, slots=True)
class WoodReading:
    """A dated reading of wood that is coming to rest, each value as typed.

    Attributes:
        read_on: the day.
        part: which joint; empty where only one is watched.
        weight: its weight (``182.4 g``).
        humidity: relative humidity of the room in percent.
        widths: its width at up to three places, always the same ones.
        note: anything else.
    """

    read_on: date | None = None
    part: str = ""
    weight: str = ""
    humidity: str = ""
    widths: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Consent:
    """What somebody said to work on one damage.

    Attributes:
        said: yes, no or later; a no to what was advised is kept as 'advised, declined'.
        given_on: the day.
        who: who said it.
        how: by telephone, in writing, at the counter.
        up_to: the most it may cost, as typed.
        to_what: the strategy or the words it was said to; empty for whatever the damage needs.
        pays: who pays for this damage, where it is not who pays for the case: one of `PAYERS`.
        note: anything else.
    """

    said: str = _one_of(SAID)
    given_on: date | None = None
    who: str = ""
    how: str = ""
    up_to: str = field(default="", metadata={"amount": True})
    to_what: str = ""
    pays: str = _perhaps(PAYERS)
    note: str = ""


@dataclass(frozen=True, slots=True)
class Departure:
    """What was done otherwise than planned, and why."""

    planned: str
    did: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class BeforeAfter:
    """A reading before and after the work (a leak, a spring's force), as typed."""

    what: str
    before: str = ""
    after: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Confirmed:
    """A danger that somebody read and confirmed: the caution's id, the day, the initials."""

    caution: str
    confirmed_on: date | None = None
    by: str = ""
