"""What a job waits for: ended by hand, or by itself when glue has cured or wood has come to rest."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from datetime import date, timedelta

from casebook.bench.at_desk import AtDesk, NotPossible
from casebook.bench.waiting import wait_text
from casebook.bench.wood_rest import NoReading, Rest, checked, day_words, rest_of
from casebook.guide.pack import Wait as PackWait
from casebook.records.case import Case
from casebook.records.workshop import WAITS_FOR, Wait, WoodReading
from casebook.strict_yaml import BrokenFile

# Days after which one asks again where no date was given (common practice, no source).
ASK_AGAIN = {"owner": 7, "part": 14}
# What a pack calls waiting -> what a job then waits for.
_OF_PACK = {"cure": "glue", "dry": "glue", "rest": "wood", "part": "part"}


@dataclass(frozen=True, slots=True)
class HeldUp:
    """One thing a job waits for, or waited for until it ended by itself.

    Attributes:
        what: one of `WAITS_FOR`.
        says: in a few words.
        day: the day to act: it is expected to end, or is to be weighed or asked again.
        over: whether it has ended by itself.
    """

    what: str
    says: str
    day: date | None
    over: bool


def wait_names(case: Case) -> list[str]:
    """Name what a case was let wait for and still does, what holds it up most first."""
    waits = {wait.what for wait in case.waits if wait.ended is None}
    return [what for what in WAITS_FOR if what in waits]


class Waiting(AtDesk):
    """Acts on what a job waits for."""

    def wait(
        self,
        number: str,
        what: str,
        *,
        until: date | None = None,
        hours: float | None = None,
        note: str = "",
        damage: int = 0,
    ) -> Case:
        """Let a case wait from now on.

        Args:
            number: the case.
            what: owner, part, wood, glue or me.
            until: the day it is expected to end.
            hours: how long it lasts, in place of `until`; for glue and wood it is else what the chosen
                strategy of `damage` waits for. Left out, an owner is asked again after a week, a part after
                two.
            note: which part, which glue, what was asked.
            damage: the damage that waits; 0 for the whole case.

        Raises:
            NotPossible: no such wait, an end before its beginning, or glue without a time.
        """
        if what not in WAITS_FOR:
            raise NotPossible(f"nothing waits for {what!r}: say one of {', '.join(WAITS_FOR)}")
        if hours is not None and not (math.isfinite(hours) and 0 < hours <= 366 * 24):
            raise NotPossible(f"{hours} hours is no time to wait: say more than none and at most a year")
        if until is not None and until < self.today:
            raise NotPossible(f"{until} is past: a wait ends on a day to come")
        known = (
            self._of_strategy(number, damage, what) if damage and until is None and hours is None else None
        )
        if known is not None:
            hours, note = float(known.most), note or known.of
        at = ""
        if hours is not None:
            # Rounded up to the minute, so that nothing is called cured before its time.
            ends = self.now + timedelta(minutes=math.ceil(hours * 60 + self.now.second / 60))
            until, at = ends.date(), ends.strftime("%H:%M") if what == "glue" else ""
        if until is None and what in ASK_AGAIN:
            until = self.today + timedelta(days=ASK_AGAIN[what])
        if until is None and what == "glue":
            raise NotPossible("glue needs a time: say how many hours it cures, by its maker's sheet")
        begun = Wait(what, self.today, until, at, None, damage, note)

        def add(case: Case) -> Case:
            if damage:
                self._damage(case, damage)
            return replace(case, waits=(*case.waits, begun))

        return self.book.change(number, add)

    def stop_waiting(self, number: str, what: str, note: str = "") -> Case:
        """End every wait of a kind: the owner answered, the part came, the clamp is off.

        Raises:
            NotPossible: the case waits for nothing of the kind.
        """

        def end(case: Case) -> Case:
            if not any(wait.what == what and wait.ended is None for wait in case.waits):
                raise NotPossible(f"case {case.number} does not wait for {what}: look what it waits for")
            return replace(
                case, waits=tuple(self._ended(w, note) if w.what == what else w for w in case.waits)
            )

        return self.book.change(number, end)

    def weigh(
        self,
        number: str,
        weight: str = "",
        *,
        humidity: str = "",
        widths: tuple[str, ...] = (),
        part: str = "",
        note: str = "",
        on: date | None = None,
    ) -> Rest:
        """Keep a dated reading of the wood, and say whether it has come to rest.

        A bare weight is in grams, a bare width in the shop's unit.

        Raises:
            NotPossible: nothing was read, a value is not understood, or a day to come.
        """
        if on is not None and on > self.today:
            raise NotPossible(f"{on} is still to come: a reading has the day it was taken")
        typed = tuple(
            f"{w} {self.unit}" if w.replace(",", "").replace(".", "").isdigit() else w for w in widths
        )
        try:
            reading = checked(WoodReading(on or self.today, part, weight, humidity, typed, note))
        except NoReading as error:
            raise NotPossible(str(error)) from None
        case = self.book.change(
            number, lambda case: replace(case, wood_readings=(*case.wood_readings, reading))
        )
        return rest_of(case.wood_readings)

    def held_up(self, case: Case) -> list[HeldUp]:
        """List what a case waits for, what holds the job up most first, and what is over by itself."""
        found = [self._held(case, wait) for wait in case.waits if wait.ended is None]
        if not any(one.what == "owner" for one in found):
            for damage in case.damages:
                last = damage.consents[-1] if damage.consents else None
                if last and last.said == "later" and not damage.repaired_on:
                    asked = last.given_on or self.today
                    again = asked + timedelta(days=ASK_AGAIN["owner"])
                    says = f"said 'later' to damage {damage.number} on {day_words(asked)}"
                    found.append(HeldUp("owner", says, again, over=False))
        return sorted(found, key=lambda one: WAITS_FOR.index(one.what))

    def _held(self, case: Case, wait: Wait) -> HeldUp:
        until = f"until {day_words(wait.until)}{f' {wait.at}' if wait.at else ''}" if wait.until else ""
        if wait.what == "glue" and wait.ends is not None and self.now >= wait.ends:
            return HeldUp("glue", f"{wait.note or 'glue'} cured since {until[6:]}", wait.until, over=True)
        if wait.what == "wood":
            rest = rest_of(
                r for r in case.wood_readings if not (wait.since and r.read_on) or r.read_on >= wait.since
            )
            if rest.since:
                return HeldUp("wood", f"wood {rest.says}", rest.since, over=True)
            if rest.weigh_on is None and wait.until and wait.until <= self.today:
                return HeldUp("wood", f"rested {until}: weigh it", wait.until, over=True)
            day = rest.weigh_on or wait.until or wait.since
            return HeldUp("wood", ", ".join(filter(None, (wait.note, rest.says))), day, over=False)
        return HeldUp(wait.what, ", ".join(filter(None, (wait.note, until))), wait.until, over=False)

    def _ended(self, wait: Wait, note: str) -> Wait:
        if wait.ended is not None:
            return wait
        return replace(wait, ended=self.today, note="; ".join(filter(None, (wait.note, note))))

    def _of_strategy(self, number: str, damage: int, what: str) -> PackWait | None:
        """Give the longest wait of the kind that the chosen strategy of a damage brings."""
        found = self._damage(self.book.case(number), damage)
        if found.choice is None:
            return None
        try:
            ruled = self.library.guide(found.family).strategies.get(found.choice.strategy)
        except (KeyError, BrokenFile):
            return None
        waits = [wait for wait in ruled.strategy.waits if _OF_PACK[wait.what] == what] if ruled else []
        return max(waits, key=lambda wait: wait.most, default=None)

    def waits_of(self, number: str, damage: int) -> list[str]:
        """Word what the strategy chosen for a damage waits for; empty while none is, or where damage is 0."""
        found = self._damage(self.book.case(number), damage) if damage else None
        if found is None or found.choice is None:
            return []
        try:
            return self.waits_ahead(found.family, found.choice.strategy)
        except (KeyError, BrokenFile):
            return []

    def waits_ahead(self, family: str, strategy: str) -> list[str]:
        """Word what a strategy will wait for, before it is chosen.

        Raises:
            KeyError: no such family or strategy.
        """
        waits = self.library.guide(family).strategies[strategy].strategy.waits
        return [wait_text(wait) for wait in waits]
