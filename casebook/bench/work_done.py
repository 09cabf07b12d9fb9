"""The work itself: steps with initials, what was done otherwise than planned, readings, looks after it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any, TypeVar

from casebook.bench.at_desk import NotPossible
from casebook.bench.both_sides import Settling
from casebook.records.case import Case, Damage, FollowUp, Measured, StepDone
from casebook.records.workshop import OUTCOMES, BeforeAfter, Departure

Told = TypeVar("Told")


class Working(Settling):
    """Acts of the work and after it."""

    def record_work(self, number: str, damage: int, **work: Any) -> None:
        """Keep what was done: any of the fields of a damage that tell of the work (`book.WORK`).

        Raises:
            NotPossible: repaired before it came in, or on a day to come.
        """
        self._not_to_come(work.get("repaired_on"), "it is repaired on the day the work was done")
        self._in_order(number, damage, lambda found: replace(found, **work))
        self.book.record_work(number, damage, **work)

    def record_done(self, base: Case, damage: int, **work: Any) -> Case:
        """Keep what was done in the end, written while looking at `base`: done, hours, repaired_on, learned.

        Raises:
            NotPossible: repaired before it came in, or on a day to come.
            BothChanged: somebody else wrote the same meanwhile, and otherwise.
        """
        self._not_to_come(work.get("repaired_on"), "it is repaired on the day the work was done")
        return self.amend(base, _with(base, self._damage(base, damage), lambda found: replace(found, **work)))

    def do_step(
        self,
        number: str,
        damage: int,
        text: str,
        by: str = "",
        hours: float | None = None,
        note: str = "",
        *,
        done_on: date | None = None,
    ) -> Case:
        """Tick a step off, with the initials of who did it and the hours it took; today if no day is given.

        Raises:
            NotPossible: on a day to come, or before it came in.
            BadCase: a step without words, or negative hours.
        """
        step = self._step(StepDone(text, done_on, by, hours, note))
        return self._add(number, damage, lambda found: replace(found, steps=(*found.steps, step)))

    def mend_step(self, number: str, damage: int, was: StepDone, now: StepDone | None) -> Case:
        """Put a step that was ticked off right, or take the tick away (None).

        Raises:
            NotPossible: it does not stand there like that any more; or as `do_step`.
        """
        put = None if now is None else self._step(now)

        def change(found: Damage) -> Damage:
            if was not in found.steps:
                raise NotPossible(
                    f"{was.text!r} was changed by somebody else meanwhile: look at it, then do it"
                )
            return replace(found, steps=_put(found.steps, was, put))

        return self._add(number, damage, change)

    def depart(
        self,
        number: str,
        damage: int,
        planned: str,
        did: str,
        why: str,
        *,
        instead_of: Departure | None = None,
    ) -> Case:
        """Keep what was done otherwise than planned, and why.

        It takes the place of what was said before (`instead_of`) where that still stands; nothing done and no
        reason takes that away.
        """
        now = Departure(planned, did, why) if did or why else None

        def change(found: Damage) -> Damage:
            return replace(found, departures=_put(found.departures, instead_of, now))

        return self._add(number, damage, change)

    def measure_made(self, number: str, damage: int, what: str, value: str, note: str = "") -> Case:
        """Keep a size as made, as typed; one of the same name is replaced, and named in the note."""

        def change(found: Damage) -> Damage:
            same = [one for one in found.measured if one.what.casefold() == what.casefold()]
            was = [f"was {one.value}" for one in same if one.value != value]
            made = Measured(what, value, "; ".join(filter(None, (note, *was))))
            return replace(found, measured=(*(one for one in found.measured if one not in same), made))

        return self._add(number, damage, change)

    def read_before(self, number: str, damage: int, what: str, value: str, note: str = "") -> Case:
        """Keep a reading taken before the work: a leak, a spring's force at the touch."""
        return self.put_readings(number, damage, (None, BeforeAfter(what, value, "", note)))

    def read_after(self, number: str, damage: int, what: str, value: str) -> Case:
        """Keep the reading after the work, beside the one of the same name taken before it."""

        def change(found: Damage) -> Damage:
            same = (one for one in found.before_after if one.what == what and not one.after)
            was = next(same, None)
            now = replace(was, after=value) if was else BeforeAfter(what, "", value)
            return replace(found, before_after=_put(found.before_after, was, now))

        return self._add(number, damage, change)

    def put_readings(
        self, number: str, damage: int, *readings: tuple[BeforeAfter | None, BeforeAfter | None]
    ) -> Case:
        """Keep readings before and after the work, each as what it was and what it is now.

        It takes the place of what it was where that still stands; what is nothing now (None) is taken away.
        """

        def change(found: Damage) -> Damage:
            kept = found.before_after
            for was, now in readings:
                kept = _put(kept, was, now)
            return replace(found, before_after=kept)

        return self._add(number, damage, change)

    def hours_of_steps(self, number: str, damage: int) -> float:
        """Add up the hours of the steps, for the hours of the whole repair."""
        found = self._damage(self.book.case(number), damage)
        return sum(step.hours or 0 for step in found.steps)

    def follow_up(self, number: str, damage: int, followup: FollowUp) -> None:
        """Keep that the repair was looked at again or told of by phone; today if it says no day.

        Raises:
            NotPossible: looked at before it was repaired, or on a day to come.
            BadCase: a kind that does not go with whether it held.
        """
        seen = followup if followup.looked else replace(followup, looked=self.today)
        self._not_to_come(seen.looked, "a look has the day it was taken")
        self._in_order(number, damage, lambda found: replace(found, followups=(*found.followups, seen)))
        self.book.follow_up(number, damage, seen)

    def take_back_outcome(self, number: str, damage: int, was: FollowUp) -> Case:
        """Take back that a repair was looked at again: it was written to the wrong one, or the wrong kind."""
        return self._add(
            number, damage, lambda found: replace(found, followups=_put(found.followups, was, None))
        )

    def turned_out(self, number: str, damage: int, kind: str, **told: Any) -> None:
        """Keep how a repair turned out, by its kind alone: whether it held follows from it.

        Args:
            number: the case.
            damage: the damage.
            kind: one of `OUTCOMES`: holding, let_go, knocked_again ...
            told: looked, what, since, cause, by_phone, note, redo_hours, as in `FollowUp`.

        Raises:
            NotPossible: another kind.
        """
        if kind not in OUTCOMES:
            raise NotPossible(f"{kind!r} is no outcome: say one of {', '.join(OUTCOMES)}")
        self.follow_up(number, damage, FollowUp(OUTCOMES[kind], kind=kind, **told))  # type: ignore[arg-type]

    def _step(self, step: StepDone) -> StepDone:
        self._not_to_come(step.done_on, "a step has the day it was done")
        return step if step.done_on else replace(step, done_on=self.today)

    def _add(self, number: str, damage: int, change: Callable[[Damage], Damage]) -> Case:
        def put(case: Case) -> Case:
            changed = _with(case, self._damage(case, damage), change)
            self._refuse_impossible(changed)
            return changed

        return self.book.change(number, put)

    def _in_order(self, number: str, damage: int, change: Callable[[Damage], Damage]) -> None:
        case = self.book.case(number)
        found = next((one for one in case.damages if one.number == damage), None)
        if found is not None:
            self._refuse_impossible(_with(case, found, change))

    def _not_to_come(self, day: date | None, why: str) -> None:
        if day is not None and day > self.today:
            raise NotPossible(f"{day} is still to come: {why}")


def _with(case: Case, found: Damage, change: Callable[[Damage], Damage]) -> Case:
    changed = change(found)
    return replace(case, damages=tuple(changed if one is found else one for one in case.damages))


def _put(told: tuple[Told, ...], was: Told | None, now: Told | None) -> tuple[Told, ...]:
    """Put one thing in the place of what it was, at the end where that is not there any more."""
    put = () if now is None else (now,)
    if was is None or was not in told:
        return (*told, *put)
    at = told.index(was)
    return (*told[:at], *put, *told[at + 1 :])
