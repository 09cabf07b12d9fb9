"""At the counter: a quick job in one call, and the way back to its owner."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from casebook.bench.at_desk import AtDesk, NotPossible
from casebook.bench.consent import open_consents
from casebook.bench.look import LookSession
from casebook.records.case import Case, Damage, Instrument, Look
from casebook.records.workshop import Visit

# The family that starts from what the instrument does, and its question of that.
SYMPTOMS, _SYMPTOM = "symptoms", "symptom"
# The family of a job nobody needed to judge: the first of these that there are rules for.
_UNJUDGED = (SYMPTOMS, "keywork")


def symptom_said(seen: LookSession) -> str:
    """Word what it does; empty while nobody asked."""
    return seen.shown(_SYMPTOM) if _SYMPTOM in seen.answers else ""


def tests_said(seen: LookSession) -> str:
    """Word what a look from the symptom found out: the symptom, then each test with its answer."""
    questions = seen.guide.questions
    tests = [
        f"{questions[id].name}: {seen.shown(id)}"
        for id in seen.questions()
        if id in seen.answers and id != _SYMPTOM
    ]
    return "; ".join(filter(None, (symptom_said(seen), *tests)))


class AtCounter(AtDesk):
    """Acts at the counter."""

    def quick_job(
        self,
        who: str,
        what: str,
        found: str,
        done: str,
        paid: str = "",
        paid_how: str = "",
        *,
        instrument: Instrument | None = None,
        place: str = "",
        family: str = "",
        hours: float | None = None,
    ) -> Case:
        """Keep a job done while its owner waited, as a finished case that search finds.

        Args:
            who: the owner's reference; may be empty.
            what: what came in and why, one line.
            found: what was found.
            done: what was done.
            paid: the amount, as typed; empty where nothing was asked.
            paid_how: how it was paid.
            instrument: what it was, where known; with its uid when it has been here before.
            place: where on it.
            family: the damage family; left out, the one for what nobody needed to judge.
            hours: bench hours.

        Raises:
            NotPossible: nothing was said of what came in, or of what was done; no such family.
            BadCase: a negative amount or hours.
        """
        if not what.strip() or not done.strip():
            raise NotPossible("a quick job needs what came in and what was done: type both")
        known = [pack.id for pack in self.library.families]
        if family and family not in known:
            raise NotPossible(f"there are no rules for {family!r}: leave the family away, or choose one")
        kind = family or next((id for id in _UNJUDGED if id in known), known[0])
        damage = Damage(
            family=kind,
            place=place,
            story=found,
            looks=(Look(taken=self.today),),
            done=done,
            hours=hours,
            repaired_on=self.today,
        )
        visit = Visit(
            ready_on=self.today,
            told_on=self.today,
            collected_on=self.today,
            paid=paid,
            paid_how=paid_how,
            paid_on=self.today if paid else None,
        )
        thing = instrument or Instrument()
        case = Case(
            title=what, taken_in=self.today, instrument=thing, owner=who, finished=True, damages=(damage,),
            visit=visit,
        )  # fmt: skip
        return self.book.add(case)

    def visit(self, number: str, **told: Any) -> Case:
        """Keep what belongs to the visit: needed_by, needed_for, came_in_with, loaned_out ... (see `Visit`).

        Raises:
            TypeError: no field of `Visit`.
            BadCase: a value that cannot be kept.
            NotPossible: it is needed before it came in, or lent until before it was lent.
        """

        def change(case: Case) -> Case:
            changed = replace(case, visit=replace(case.visit, **told))
            self._refuse_impossible(changed)
            return changed

        return self.book.change(number, change)

    def paid(self, number: str, amount: str, how: str = "") -> Case:
        """Keep that it was paid today.

        Raises:
            BadCase: no amount, or less than nothing.
        """
        return self.visit(number, paid=amount, paid_how=how, paid_on=self.today)

    def ready(self, number: str) -> Case:
        """Keep that the work is done and the owner may be told."""
        return self.visit(number, ready_on=self.today)

    def told(self, number: str) -> Case:
        """Keep that the owner was told."""
        case = self.book.case(number)
        return self.visit(number, ready_on=case.visit.ready_on or self.today, told_on=self.today)

    def collected(self, number: str) -> list[str]:
        """Keep that it was fetched, close the case, and say what goes back with it.

        Raises:
            NotPossible: somebody said 'later' to a damage and no answer came.
        """

        def change(case: Case) -> Case:
            for damage in open_consents(case):
                raise NotPossible(
                    f"case {case.number}, damage {damage.number}: the answer was 'later';"
                    " write down yes or no (declined) before it goes"
                )
            visit = case.visit
            handed = replace(visit, ready_on=visit.ready_on or self.today, collected_on=self.today)
            return replace(case, visit=handed, finished=True)

        case = self.book.change(number, change)
        back = [
            ("goes back with it", case.visit.came_in_with),
            ("comes back to the shop", case.visit.loaned_out),
        ]
        return [f"{what}: {things}" for what, things in back if things]
