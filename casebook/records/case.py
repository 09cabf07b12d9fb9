"""A case as everybody handles it: plain values, no database behind them.

An answer is kept exactly as it was typed, in the form a file gives it: text, a list, or a mapping. What it
means is not known here; whoever has the rule packs reads it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Literal

from casebook.records.workshop import (
    LET_GO,
    OUTCOMES,
    BeforeAfter,
    Confirmed,
    Consent,
    Departure,
    Visit,
    Wait,
    WoodReading,
)

# text | list of answers | mapping of text to answers; every leaf is text.
Answer = str | list[Any] | dict[str, Any]
Answers = Mapping[str, Answer]
Held = Literal["yes", "no", "not_known"]
HELD: tuple[Held, ...] = ("yes", "no", "not_known")


def _no_answers() -> Answers:
    return {}


@dataclass(frozen=True, slots=True)
class Instrument:
    """The thing itself, known across visits by its uid."""

    kind: str = ""
    description: str = ""
    materials: str = ""
    marks: str = ""
    uid: str = ""


@dataclass(frozen=True, slots=True)
class Look:
    """The answers between two acts that change the instrument.

    Attributes:
        answers: question id to answer as typed.
        taken: the day of the look.
        ended_by: the act that ended it (cleaning, resting, taking out a stump); empty while it lasts.
        note: anything else, in the repairer's words.
    """

    answers: Answers = field(default_factory=_no_answers)
    taken: date | None = None
    ended_by: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """What was decided, with the advice as it stood on that day.

    Attributes:
        strategy: id of the chosen strategy.
        on: the day of the decision.
        reason: why this one, in the repairer's words.
        advice: what the program said then, any JSON value: advice, packs by digest, version of the program,
            the shop's settings. Shown again as it was, never computed anew.
    """

    strategy: str
    on: date | None = None
    reason: str = ""
    advice: Any = None


@dataclass(frozen=True, slots=True)
class FiguresUsed:
    """One worksheet as it was used: inputs as typed, the result as JSON."""

    worksheet: str
    inputs: Mapping[str, str] = field(default_factory=dict)
    result: Any = None


@dataclass(frozen=True, slots=True)
class StepDone:
    """One step of the work: what, when, by whom (initials), bench hours."""

    text: str
    done_on: date | None = None
    by: str = ""
    hours: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Measured:
    """A size as it was made: what, and the value as typed with its unit."""

    what: str
    value: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class FollowUp:
    """The repair looked at again, or told of by phone.

    Attributes:
        held: whether it held until then.
        looked: the day.
        cause: why it did not hold, in words.
        by_phone: whether somebody told it and nobody saw it.
        note: anything else.
        kind: how it turned out, one of `OUTCOMES`; empty where only `held` was said.
        what: what let go, one of `LET_GO`; only with ``let_go``.
        since: when it started.
        redo_hours: bench hours of a free redo.
    """

    held: Held
    looked: date | None = None
    cause: str = ""
    by_phone: bool = False
    note: str = ""
    kind: str = field(default="", metadata={"one_of": ("", *OUTCOMES)})
    what: str = field(default="", metadata={"one_of": ("", *LET_GO)})
    since: date | None = None
    redo_hours: float | None = None

    @property
    def turned_out(self) -> str:
        """How it turned out: the kind, or what `held` alone says of it."""
        return self.kind or {"yes": "holding", "no": "let_go", "not_known": "not_seen"}[self.held]

    @property
    def against(self) -> bool:
        """Whether it counts against the repair: it let go by itself."""
        return self.turned_out == "let_go"

    @property
    def ends_observation(self) -> bool:
        """Whether nothing seen later says anything of this repair."""
        return self.turned_out not in ("holding", "not_seen")


@dataclass(frozen=True, slots=True)
class Damage:
    """One fault at one place, from what was found to how it turned out.

    Attributes:
        family: id of the damage family.
        number: 1, 2, ... within the case, never reused; 0 until the book gives it.
        place: where on the instrument.
        story: as found, in the repairer's words.
        looks: at least one, in order; the last is the present one.
        choice: what was decided, or None so far.
        figures: worksheets used.
        steps: what was done, step by step.
        measured: sizes as made.
        done: what was really done, in words.
        hours: bench hours spent in all.
        repaired_on: the day the repair was finished.
        followups: looks after the repair, in order.
        learned: what the repairer would do differently.
        consents: what was said to the work, in order; the last counts.
        departures: what was done otherwise than planned.
        before_after: readings before and after the work.
        urgency: how urgent somebody said it is, one of `workshop.URGENCIES`; empty while nobody did.
    """

    family: str
    number: int = 0
    place: str = ""
    story: str = ""
    looks: tuple[Look, ...] = (Look(),)
    choice: Choice | None = None
    figures: tuple[FiguresUsed, ...] = ()
    steps: tuple[StepDone, ...] = ()
    measured: tuple[Measured, ...] = ()
    done: str = ""
    hours: float | None = None
    repaired_on: date | None = None
    followups: tuple[FollowUp, ...] = ()
    learned: str = ""
    consents: tuple[Consent, ...] = ()
    departures: tuple[Departure, ...] = ()
    before_after: tuple[BeforeAfter, ...] = ()
    urgency: str = ""

    @property
    def hours_in_all(self) -> float | None:
        """Bench hours with those of every free redo; None where none were written down."""
        spent = [self.hours, *(followup.redo_hours for followup in self.followups)]
        known = [hours for hours in spent if hours is not None]
        return sum(known) if known else None

    @property
    def outcome(self) -> FollowUp | None:
        """The latest follow-up: by its day where all days are known, else the last entry."""
        if not all(followup.looked for followup in self.followups):
            return self.followups[-1]
        return max(reversed(self.followups), key=lambda f: f.looked or date.min, default=None)


@dataclass(frozen=True, slots=True)
class Case:
    """One visit of one instrument.

    Attributes:
        number: as written on the tag (``B-0142``); empty until the book gives one; never reused.
        title: one line.
        taken_in: the day it came in.
        instrument: what came in.
        owner: a reference only; what else is known of an owner is kept apart.
        owner_words: the owner's own words.
        answers: intake answers, of the instrument as a whole.
        finished: whether the case is closed.
        damages: its faults.
        uid: 32 hex digits, the same in every book; empty until the book gives it.
        version: counts the changes in this book, for seeing that somebody else changed the case in
            between; None for a case that did not come from a book.
        visit: what belongs to the visit: when it is needed, who pays, when it was handed back.
        waits: what it waited and waits for, in order.
        wood_readings: dated readings of wood coming to rest.
        confirmed: dangers read and confirmed.
    """

    number: str = ""
    title: str = ""
    taken_in: date | None = None
    instrument: Instrument = Instrument()
    owner: str = ""
    owner_words: str = ""
    answers: Answers = field(default_factory=_no_answers)
    finished: bool = False
    damages: tuple[Damage, ...] = ()
    uid: str = ""
    version: int | None = field(default=None, compare=False)
    visit: Visit = field(default_factory=Visit)
    waits: tuple[Wait, ...] = ()
    wood_readings: tuple[WoodReading, ...] = ()
    confirmed: tuple[Confirmed, ...] = ()

    def damage(self, number: int) -> Damage:
        """Give the damage of that number.

        Raises:
            KeyError: the case has none of that number.
        """
        for damage in self.damages:
            if damage.number == number:
                return damage
        raise KeyError(number)


@dataclass(frozen=True, slots=True)
class CaseRow:
    """A case as one row of a list."""

    number: str
    title: str
    instrument: str
    taken_in: date | None
    state: Literal["open", "finished"]


@dataclass(frozen=True, slots=True)
class InstrumentRow:
    """An instrument as one row of a list.

    Attributes:
        instrument: the thing itself.
        owner: the reference of the owner who brought it last; empty where none was written down.
        last: the day it came in last; None where no day was written down.
        cases: numbers of its cases, the earliest taken in first, those without a day before all.
        titles: their titles.
    """

    instrument: Instrument
    owner: str
    last: date | None
    cases: tuple[str, ...]
    titles: tuple[str, ...]
