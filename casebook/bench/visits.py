"""An instrument across its visits: what was done where, what is known, and a visit that starts from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from casebook.bench.at_desk import AtDesk, NotPossible
from casebook.bench.visit_text import outcome_text
from casebook.records.case import Answer, Case, Damage, Instrument
from casebook.records.workshop import Visit
from casebook.strict_yaml import BrokenFile

# Intake answers that stay true from visit to visit. What the owner wants and allows, the state of the wood
# and where it has been are asked anew.
STAYS_TRUE = (
    "instrument_kind", "body_wood", "key_metal", "age_class", "historical_importance", "protected_material",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class DoneThere:
    """What was found and done at one place on one visit.

    Attributes:
        case: number of the visit's case.
        damage: number of the damage in it.
        family: title of its family.
        place: where.
        done: what was done in words, else the title of the strategy chosen; empty while nothing was.
        on: the day it was repaired.
        outcome: how it turned out, in words; empty while nobody looked.
        turned_out: the same as one of `workshop.OUTCOMES`; empty while nobody looked.
        declined: whether it was advised, and declined.
    """

    case: str
    damage: int
    family: str
    place: str
    done: str
    on: date | None
    outcome: str
    turned_out: str
    declined: bool


@dataclass(frozen=True, slots=True)
class VisitOf:
    """One visit of an instrument."""

    case: str
    title: str
    taken_in: date | None
    finished: bool
    comes_back_from: str
    done: tuple[DoneThere, ...]


@dataclass(frozen=True, slots=True)
class InstrumentPage:
    """An instrument with its visits, the earliest first.

    Attributes:
        instrument: the thing itself.
        visits: its visits.
        known: intake answers that stay true, the latest of each: what a new case starts from.
        owner: the reference of whoever brought it last; empty where none was written down.
    """

    instrument: Instrument
    visits: tuple[VisitOf, ...]
    known: Mapping[str, Answer]
    owner: str = ""

    @property
    def by_place(self) -> dict[str, list[DoneThere]]:
        """What was done, place by place; places written alike but for capitals are one."""
        places: dict[str, tuple[str, list[DoneThere]]] = {}
        for visit in self.visits:
            for done in visit.done:
                places.setdefault(done.place.casefold(), (done.place, []))[1].append(done)
        return dict(places.values())


class Visiting(AtDesk):
    """Acts on instruments across visits."""

    def instrument(self, uid: str) -> InstrumentPage:
        """Give the page of an instrument.

        Raises:
            NotPossible: no instrument of that uid was ever here.
        """
        cases = self.book.visits(uid)
        if not cases:
            raise NotPossible(
                f"no instrument {uid or '(no uid)'} has been here: take it from one of its cases"
            )
        owner = next((case.owner for case in reversed(cases) if case.owner), "")
        visits = tuple(self._visit_of(case) for case in cases)
        return InstrumentPage(cases[-1].instrument, visits, _known(cases), owner)

    def take_in(
        self,
        title: str,
        instrument: Instrument | None = None,
        *,
        owner: str = "",
        owner_words: str = "",
        number: str = "",
        instrument_uid: str = "",
        comes_back_from: str = "",
    ) -> Case:
        """Take an instrument in today: a new case.

        On a known instrument the case starts from the intake answers that stay true.

        Args:
            title: one line.
            instrument: what came in; may be left out where it is known.
            owner: the owner's reference; left out, that of the case it comes back from.
            owner_words: the owner's own words.
            number: the case's number, else the book gives one.
            instrument_uid: the known instrument this is.
            comes_back_from: number of the earlier case whose repair brings it back; its instrument is meant.

        Raises:
            NoSuchCase: there is no case to come back from.
            NotPossible: that case was of another instrument, or no such instrument was ever here.
        """
        if comes_back_from:
            earlier = self.book.case(comes_back_from)
            comes_back_from, owner = earlier.number, owner or earlier.owner
            if instrument_uid and instrument_uid != earlier.instrument.uid:
                raise NotPossible(f"case {earlier.number} was another instrument: leave one of the two away")
            instrument_uid = earlier.instrument.uid
        known: Mapping[str, Answer] = {}
        if instrument_uid:
            page = self.instrument(instrument_uid)
            known, instrument = page.known, instrument or page.instrument
            instrument = replace(instrument, uid=instrument_uid)
        case = Case(
            number=number,
            title=title,
            taken_in=self.today,
            instrument=instrument or Instrument(),
            owner=owner,
            owner_words=owner_words,
            answers=known,
            visit=Visit(comes_back_from=comes_back_from),
        )
        return self.book.add(case)

    def _visit_of(self, case: Case) -> VisitOf:
        done = tuple(self._done(case, damage) for damage in case.damages)
        visit = case.visit
        return VisitOf(case.number, case.title, case.taken_in, case.finished, visit.comes_back_from, done)

    def _done(self, case: Case, damage: Damage) -> DoneThere:
        title, chosen = damage.family, damage.choice.strategy if damage.choice else ""
        try:
            guide = self.library.guide(damage.family)
        except (KeyError, BrokenFile):
            pass
        else:
            title = guide.pack.title
            chosen = guide.strategies[chosen].strategy.title if chosen in guide.strategies else chosen
        done = damage.done or (chosen if damage.repaired_on else "")
        last = damage.outcome
        turned_out = last.turned_out if last else ""
        return DoneThere(
            case.number,
            damage.number,
            title,
            damage.place,
            done,
            damage.repaired_on,
            outcome_text(last),
            turned_out,
            not done and bool(damage.consents) and damage.consents[-1].said == "no",
        )


def _known(cases: Sequence[Case]) -> dict[str, Answer]:
    known: dict[str, Answer] = {}
    for case in cases:
        known |= {q: case.answers[q] for q in STAYS_TRUE if q in case.answers}
    return known
