"""The shop's own past hours for a strategy, beside the book's."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median

from casebook.records.book import Book

# With fewer repairs than this the hours themselves say more than a middle one (common practice, no source).
_FEW = 3


@dataclass(frozen=True, slots=True)
class PastHours:
    """How long one strategy took in this shop.

    Attributes:
        done: how many repairs of it are in the book as finished work.
        hours: those that have their hours, hours of free redos counted, shortest first.
    """

    done: int = 0
    hours: tuple[float, ...] = ()

    @property
    def middle(self) -> float | None:
        """The median, or None where no hours were written down."""
        return median(self.hours) if self.hours else None

    def words(self) -> str:
        """Say it with the counts first."""
        if not self.done:
            return "none done here yet"
        if not self.hours:
            return f"{self.done} done here, hours of none written down"
        timed = f"{self.done} done here, {len(self.hours)} with hours"
        if len(self.hours) < _FEW:
            return f"{timed}: {', '.join(f'{one:g}' for one in self.hours)} h"
        return f"{timed}: middle one {self.middle:g} h, {self.hours[0]:g} to {self.hours[-1]:g} h"


def past_hours(book: Book, family: str, strategy: str, *, but: str = "") -> PastHours:
    """Gather the past of one strategy over all cases.

    Args:
        book: the book.
        family: the damage family.
        strategy: the strategy that was chosen.
        but: number of a case to leave out: the one that is being quoted.
    """
    done: int = 0
    hours: list[float] = []
    for case in book.every_case(family=family):
        for damage in case.damages:
            chosen = damage.choice.strategy if damage.choice else ""
            if case.number == but or damage.family != family or chosen != strategy:
                continue
            if damage.repaired_on is None and damage.hours is None:
                continue
            done += 1
            if damage.hours_in_all:
                hours.append(damage.hours_in_all)
    return PastHours(done, tuple(sorted(hours)))
