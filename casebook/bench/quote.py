"""What a job will cost: from the strategies' hours, the flat prices and the shop's own past.

Taking down and regulating is charged once an instrument, however many damages. The sums themselves are made
by the quote worksheet.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import Literal

from casebook.bench.past_hours import PastHours
from casebook.bench.shop import Hours, Money, Price
from casebook.bench.shop_text import money_text
from casebook.bench.waiting import wait_text
from casebook.figures import worksheet
from casebook.figures.inputs import read
from casebook.figures.worksheet import Result
from casebook.guide.advice import Advice, Standing

Urgency = Literal["must", "should", "can_wait"]
URGENCIES: tuple[Urgency, ...] = ("must", "should", "can_wait")

# A sum told on the phone is rounded to this, up to that amount (common practice, no source).
_ROUNDED = ((50.0, 1.0), (500.0, 5.0), (float("inf"), 10.0))
# So many ways are reckoned with while it is open which one leads.
_OPEN_WAYS = 3
_LEFT_ALONE = ("leave_and_document", "rest_first")


@dataclass(frozen=True, slots=True)
class Part:
    """One damage of the quote.

    Attributes:
        number: of the damage, as in the file or case.
        place: where it is.
        title: the strategy it is reckoned by.
        strategy: its id.
        decided: whether it was chosen; else it leads by the answers so far.
        standing: how it stands by the answers.
        hours: low, likely and high, as the rule pack says; while it is open which way leads, from the least
            to the most of the first few.
        flat: the shop's flat price for it, which then counts instead of the hours.
        past: the shop's own hours for the like.
        urgency: must, should or can wait; what can wait is left out of the sum.
        because: why.
        materials: what it needs, in words; priced by whoever quotes.
        waits: what it waits for, in words, one after the other.
    """

    number: int
    place: str
    title: str
    strategy: str
    decided: bool
    standing: Standing
    hours: Hours
    flat: Price | None
    past: PastHours
    urgency: Urgency
    because: str
    materials: tuple[str, ...] = ()
    waits: tuple[str, ...] = ()

    def as_said(self, urgency: Urgency, because: str = "as you said") -> Part:
        """Give it with the urgency that somebody said."""
        return replace(self, urgency=urgency, because=because)


@dataclass(frozen=True, slots=True)
class Quote:
    """A price range over one instrument.

    Attributes:
        parts: the damages, in their order.
        money: the shop's rates as they were used.
        result: the quote worksheet; None where the shop has set no rate and hours are charged.
        materials: the sum for parts and materials that was given.
        problem: why there is no price, in a line; empty where there is one.
        left_out: damages that are not in it and why, a line each.
    """

    parts: tuple[Part, ...]
    money: Money
    result: Result | None
    materials: float = 0.0
    problem: str = ""
    left_out: tuple[str, ...] = ()

    def price(self, name: str) -> float | None:
        """Give a price of the worksheet: price_low, price_likely, price_high or price_most."""
        figure = self.result.figures.get(name) if self.result else None
        return figure.value if figure else None

    def phone_line(self) -> str:
        """Word it ready to read out, rounded outwards to what one says on the phone."""
        low, likely, most = (self.price(f"price_{name}") for name in ("low", "likely", "most"))
        if low is None or likely is None or most is None:
            return self.problem
        under, over = _told(low, floor), _told(most, ceil)
        near = min(max(_told(likely, round), under), over)
        x, z, y = (money_text(sum_, self.money.currency) for sum_ in (under, near, over))
        looking = ""
        if self.money.looking is not None:
            cost = money_text(self.money.looking, self.money.currency)
            looking = f" Looking costs {cost} and comes off the bill."
        said = f"Unseen, between {x} and {y}; most like it ended near {z}.{looking}"
        return f"{said} I ring you before I pass {y}."


def _told(amount: float, to: Callable[[float], int]) -> float:
    step = next(step for most, step in _ROUNDED if amount <= most)
    # A float's own noise is no reason to go a step further.
    return to(round(amount / step, 6)) * step


def part(
    number: int,
    place: str,
    advice: Advice,
    money: Money,
    past: PastHours,
    chosen: str = "",
) -> Part:
    """Make one damage's part: by the strategy that was chosen, else by the one that leads.

    Raises:
        KeyError: the packs no longer have the strategy that was chosen.
    """
    proposal = advice.proposal(chosen) if chosen else advice.first
    strategy = advice.guide.strategies[proposal.id].strategy
    said, because = _urgency(advice, proposal.id, bool(chosen))
    return Part(
        number,
        place,
        strategy.title,
        proposal.id,
        bool(chosen),
        proposal.standing,
        strategy.hours if chosen or proposal.standing == "fits" else _open_hours(advice),
        money.flat(proposal.id),
        past,
        said,
        because,
        strategy.materials,
        tuple(wait_text(wait) for wait in strategy.waits),
    )


def _open_hours(advice: Advice) -> Hours:
    """Spread the hours over the ways that may still lead."""
    strategies = [
        ruled.strategy
        for proposal in advice.proposals
        if proposal.standing != "ruled_out"
        and not (ruled := advice.guide.strategies[proposal.id]).strategy.on_call
    ]
    first = advice.guide.strategies[advice.first.id].strategy.hours
    ways = [first, *(strategy.hours for strategy in strategies[:_OPEN_WAYS])]
    return min(way[0] for way in ways), first[1], max(way[2] for way in ways)


def _urgency(advice: Advice, strategy: str, chosen: bool) -> tuple[Urgency, str]:
    """Judge how urgent it is by what the answers show; whoever looks at the instrument knows better."""
    danger = next((w for w in advice.cautions if w.level == "danger" and not w.shop_rule), None)
    if danger is not None:
        return "must", "a danger stands: see the cautions"
    if strategy in _LEFT_ALONE and not chosen:
        return "can_wait", "it is left alone for now"
    # A stop says to ask or consult first, not that it presses.
    asks = f"ask first: {advice.stops[0].says.rstrip('.')}" if advice.stops else ""
    return "should", asks or "nothing in the answers makes it urgent"


def quote(parts: Iterable[Part], money: Money, materials: float = 0.0) -> Quote:
    """Reckon the price over all parts that are not to wait.

    Args:
        parts: one for each damage.
        money: the shop's rates.
        materials: the price of parts and materials.
    """
    parts = tuple(parts)
    counted = [one for one in parts if one.urgency != "can_wait"]
    by_hours = [one for one in counted if one.flat is None]
    typed: dict[str, str] = {"flat": _plain(sum(one.flat.price for one in counted if one.flat))}
    if not counted:
        return Quote(parts, money, None, materials, "Nothing of it needs doing now.")
    if money.rate is None and (by_hours or money.once):
        problem = "no rate is set: put rate: into the shop's file (casebook shop example shows one)"
        return Quote(parts, money, None, materials, problem)
    if by_hours:
        typed["hours"] = ", ".join(_step(one.hours) for one in by_hours)
    if money.once:
        typed["once"] = _step(money.once)
    for name, value in (
        ("rate", money.rate),
        ("materials", materials),
        ("minimum", money.minimum),
        ("tax", money.tax),
        ("chance", money.chance),
        ("contingency", money.contingency),
    ):
        if value is not None:
            typed[name] = _plain(value)
    sheet = worksheet("quote")
    return Quote(parts, money, sheet.run(read(sheet.inputs, typed)), materials)


def alone(part: Part, money: Money) -> float | None:
    """Reckon the likely price of one damage by itself, tax included, what is charged once left out.

    Returns:
        The price, or None where no rate is set and its hours are charged.
    """
    work_only = replace(money, once=None, minimum=0.0)
    return quote([part.as_said("should")], work_only).price("price_likely")


def by_urgency(parts: Iterable[Part]) -> Mapping[Urgency, list[Part]]:
    """Sort the parts into must, should and can wait."""
    listed = list(parts)
    return {urgency: [one for one in listed if one.urgency == urgency] for urgency in URGENCIES}


def _step(hours: Hours) -> str:
    return "/".join(_plain(one) for one in hours)


def _plain(value: float) -> str:
    return f"{value:.6f}".rstrip("0").rstrip(".")
