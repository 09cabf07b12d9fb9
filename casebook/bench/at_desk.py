"""What all work at the desk stands on: the book, the rule packs, the shop's own date, time and rules."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, datetime, time

from casebook.bench.library import Library
from casebook.bench.sense import impossible
from casebook.bench.shop import Shop
from casebook.quantity import Unit
from casebook.records.book import Book
from casebook.records.case import Case, Damage

# The day a heating season ends, as month and day (common practice, no source; a shop sets its own).
SEASON_END = (4, 15)


class NotPossible(ValueError):
    """An act that cannot be done as asked; nothing changed. One line says what, where and what to do."""


class AtDesk:
    """A place at the desk.

    Args:
        book: where everything is kept.
        library: the rule packs.
        today: the date of the shop, where no clock tells it.
        unit: the unit of the shop.
        clock: gives the shop's local time, for what cures by the hour; left out, it is noon of `today`.
        accepted: ids of the shop rules that were accepted once for all.
        season_end: month and day on which the heating season ends.
        shop: the shop's settings: reading errors, drawer, prices; its rules are accepted, its season counts.
    """

    def __init__(
        self,
        book: Book,
        library: Library,
        today: date,
        unit: Unit = "mm",
        *,
        clock: Callable[[], datetime] | None = None,
        accepted: Iterable[str] = (),
        season_end: tuple[int, int] = SEASON_END,
        shop: Shop | None = None,
    ) -> None:
        self.book = book
        self.library = library
        self._today = today
        self.unit: Unit = unit
        self.shop = shop
        self.accepted = frozenset(accepted) | (frozenset(shop.accepted) if shop else frozenset())
        self.season_end = (shop.season_end if shop else None) or season_end
        self._clock = clock

    @property
    def today(self) -> date:
        """The date of the shop; it turns at midnight while the program stays open."""
        return self._clock().date() if self._clock else self._today

    @property
    def now(self) -> datetime:
        """The shop's local time."""
        return self._clock() if self._clock else datetime.combine(self._today, time(12))

    def _damage(self, case: Case, damage: int) -> Damage:
        try:
            return case.damage(damage)
        except KeyError:
            raise NotPossible(f"case {case.number} has no damage {damage}: look which ones it has") from None

    def _refuse_impossible(self, case: Case) -> None:
        """Refuse dates that cannot be, in the words of somebody at the desk."""
        for _, problem in impossible(case):
            raise NotPossible(f"case {case.number}: {problem}" if case.number else problem)
