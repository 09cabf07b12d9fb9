"""What all work at the desk stands on: the book, the rule packs, the shop's own date, time and rules."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, datetime, time
from typing import TYPE_CHECKING

from casebook.bench.library import Library
from casebook.bench.sense import impossible
from casebook.bench.shop import Shop
from casebook.bench.shop_keeping import NotKept
from casebook.quantity import Unit
from casebook.records.book import Book
from casebook.records.case import Case, Damage

if TYPE_CHECKING:
    from casebook.bench.shop_keeping import Change, ShopFile

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
        shop_file: where the shop's settings are kept and changed; None where they are given once for all.
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
        shop_file: ShopFile | None = None,
    ) -> None:
        self.book = book
        self.library = library
        self._today = today
        self.unit: Unit = unit
        self.shop_file = shop_file
        self._always_accepted = frozenset(accepted)
        self._usual_season_end = season_end
        self.shop: Shop | None = None
        self._follow(shop or (shop_file.shop if shop_file else None))
        self._clock = clock

    @property
    def today(self) -> date:
        """The date of the shop; it turns at midnight while the program stays open."""
        return self._clock().date() if self._clock else self._today

    @property
    def now(self) -> datetime:
        """The shop's local time."""
        return self._clock() if self._clock else datetime.combine(self._today, time(12))

    def change_shop(self, *changes: Change) -> None:
        """Change settings of the shop in its file; from now on the desk works with them.

        Raises:
            NotKept: a value that makes no sense, or a file that cannot be changed so; nothing was written.
            BrokenFile: somebody else's change of the file left it broken.
        """
        if self.shop_file is None:
            raise NotKept("this shop keeps no file of settings: open the program on one with --shop")
        before = self.shop_file.shop.unit
        try:
            self.shop_file.change(self.today, *changes)
        finally:
            self._follow(self.shop_file.shop)
            if self.shop_file.shop.unit != before:
                self.unit = self.shop_file.shop.unit

    def _follow(self, shop: Shop | None) -> None:
        """Work with these settings."""
        self.shop = shop
        self.accepted = self._always_accepted | (frozenset(shop.accepted) if shop else frozenset())
        self.season_end = (shop.season_end if shop else None) or self._usual_season_end

    def _damage(self, case: Case, damage: int) -> Damage:
        try:
            return case.damage(damage)
        except KeyError:
            raise NotPossible(f"case {case.number} has no damage {damage}: look which ones it has") from None

    def _refuse_impossible(self, case: Case) -> None:
        """Refuse dates that cannot be, in the words of somebody at the desk."""
        for _, problem in impossible(case):
            raise NotPossible(f"case {case.number}: {problem}" if case.number else problem)
