"""The shop's own facts, as everybody handles them: unit, reading errors, money, people, rules, drawer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from casebook.figures.inputs import NO_DRAWER, Drawer
from casebook.quantity import TOOL_ERRORS, ToolError, Unit

Hours = tuple[float, float, float]
_NOTHING: Mapping[str, str] = {}


@dataclass(frozen=True, slots=True)
class Price:
    """One line of the flat price list.

    Attributes:
        work: what it is for, in bench words.
        price: in the shop's currency, before tax.
        strategies: ids of the strategies it is the price of.
    """

    work: str
    price: float
    strategies: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Glue:
    """A glue, filler or finish that ages once it is opened.

    Attributes:
        keeps_months: how long it is good once opened; None where nobody says.
    """

    name: str
    opened: date
    keeps_months: int | None = None

    def over(self, today: date) -> bool:
        """Whether it is older than it keeps."""
        if self.keeps_months is None:
            return False
        months = (today.year - self.opened.year) * 12 + today.month - self.opened.month
        return (months, today.day) > (self.keeps_months, self.opened.day)


@dataclass(frozen=True, slots=True)
class Money:
    """What work costs here. Amounts are in the shop's currency; none is guessed.

    Attributes:
        currency: how it is written after an amount; empty for bare numbers.
        rate: an hour's price; None while the shop has not said.
        minimum: the least charge.
        tax: percent on top of all.
        looking: what opening up and looking costs; it comes off the bill.
        chance: percent of jobs that are to end within the range that is told.
        contingency: percent on the work for what cleaning may show.
        once: hours (low, likely, high) for keys off, on, regulating and play testing, once an instrument.
        prices: the flat price list.
    """

    currency: str = ""
    rate: float | None = None
    minimum: float = 0.0
    tax: float = 0.0
    looking: float | None = None
    chance: float = 80.0
    contingency: float = 0.0
    once: Hours | None = None
    prices: tuple[Price, ...] = ()

    def flat(self, strategy: str) -> Price | None:
        """Give the flat price of a strategy, or None."""
        return next((price for price in self.prices if strategy in price.strategies), None)


@dataclass(frozen=True, slots=True)
class Shop:
    """One shop's settings; without a file these defaults hold, and no drawer is kept.

    Attributes:
        unit: of a bare number, and in which sizes are shown.
        tools: how far a reading may be off, by tool.
        money: rates and prices.
        people: initials -> name.
        accepted: ids of the cautions that are rules of this shop, accepted once.
        drawer: shelf -> what lies there, as a list of sizes.
        glues: with the day they were opened.
        season_end: month and day on which the heating season ends; None for the usual one.
    """

    unit: Unit = "mm"
    tools: Mapping[str, ToolError] = field(default_factory=lambda: TOOL_ERRORS)
    money: Money = Money()
    people: Mapping[str, str] = field(default_factory=lambda: _NOTHING)
    accepted: tuple[str, ...] = ()
    drawer: Drawer = field(default_factory=lambda: NO_DRAWER)
    glues: tuple[Glue, ...] = ()
    season_end: tuple[int, int] | None = None
