"""The shop's own past with a strategy: how long it took, and how it held."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median

from casebook.records.book import Book
from casebook.records.case import Damage

# With fewer repairs than this the hours themselves say more than a middle one (common practice, no source).
_FEW = 3


@dataclass(frozen=True, slots=True)
class PastHours:
    """How long one strategy took in this shop, and how it held.

    Attributes:
        done: how many repairs of it are in the book as finished work.
        hours: those that have their hours, hours of free redos counted, shortest first.
        seen: how many of them were seen or told of again.
        holding: how many of those were holding when last seen, and never let go by themselves.
        let_go: how many let go by themselves; whatever else ended them says nothing against the repair.
    """

    done: int = 0
    hours: tuple[float, ...] = ()
    seen: int = 0
    holding: int = 0
    let_go: int = 0

    @property
    def middle(self) -> float | None:
        """The median, or None where no hours were written down."""
        return median(self.hours) if self.hours else None

    def words(self) -> str:
        """Say how long it took, with the counts first."""
        if not self.done:
            return "none done here yet"
        if not self.hours:
            return f"{self.done} done here, hours of none written down"
        return f"{self.done} done here, {len(self.hours)} with hours: {self._spread()}"

    def held(self) -> str:
        """Say how it held, in counts: ``7 done, 6 seen, 5 holding, 1 let go by itself``."""
        if not self.done:
            return "none done here yet"
        if not self.seen:
            return f"{self.done} done, none seen again"
        let_go = f", {self.let_go} let go by itself" if self.let_go else ""
        return f"{self.done} done, {self.seen} seen, {self.holding} holding{let_go}"

    def took(self) -> str:
        """Say how long it took, the count first; empty where no hours were written down."""
        return f"{len(self.hours)} with hours: {self._spread()}" if self.hours else ""

    def _spread(self) -> str:
        if len(self.hours) < _FEW:
            return f"{', '.join(f'{one:g}' for one in self.hours)} h"
        return f"middle one {self.middle:g} h, {self.hours[0]:g} to {self.hours[-1]:g} h"


class Past:
    """The shop's past, family by family: each is read from the book once.

    Args:
        book: the book.
        but: number of a case to leave out: the one that is being quoted.
    """

    def __init__(self, book: Book, but: str = "") -> None:
        self._book, self._but = book, but
        self._finished: dict[str, list[Damage]] = {}

    def of(self, family: str, strategy: str) -> PastHours:
        """Gather the past of one strategy that was chosen for a damage of a family."""
        if family not in self._finished:
            self._finished[family] = [
                damage
                for case in self._book.every_case(family=family)
                if case.number != self._but
                for damage in case.damages
                if damage.family == family and not (damage.repaired_on is None and damage.hours is None)
            ]
        return _gathered(
            damage
            for damage in self._finished[family]
            if damage.choice is not None and damage.choice.strategy == strategy
        )


def past_hours(book: Book, family: str, strategy: str, *, but: str = "") -> PastHours:
    """Gather the past of one strategy over all cases, one of them left out."""
    return Past(book, but).of(family, strategy)


def _gathered(finished: Iterable[Damage]) -> PastHours:
    damages = list(finished)
    looks = [[f for f in damage.followups if f.turned_out != "not_seen"] for damage in damages]
    against = [any(look.against for look in seen) for seen in looks]
    return PastHours(
        len(damages),
        tuple(sorted(damage.hours_in_all for damage in damages if damage.hours_in_all)),
        sum(bool(seen) for seen in looks),
        sum(
            bool(seen) and not let_go and seen[-1].turned_out == "holding"
            for seen, let_go in zip(looks, against, strict=True)
        ),
        sum(against),
    )
