"""A shop's settings in words and as data, and the example file that comes with the program."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from datetime import date
from pkgutil import get_data
from typing import Any

from casebook.bench.shop import Price, Shop
from casebook.figures.drawer import SHELVES
from casebook.figures.inputs import list_of
from casebook.quantity import ToolError, Unit, show_length

# A shelf is shown by its first pieces; the file has them all.
_SHOWN = 12


def example() -> str:
    """Give the text of the commented example, which reads as it stands."""
    data = get_data("casebook.bench", "shop_example.yaml")
    assert data is not None
    return data.decode("utf-8")


def money_text(amount: float, currency: str) -> str:
    """Write a sum: whole where it is whole, the currency after it."""
    number = f"{amount:.0f}" if abs(amount - round(amount)) < 0.005 else f"{amount:.2f}"
    return f"{number} {currency}".strip()


def shop_text(shop: Shop, today: date) -> Iterator[str]:
    """Word what is set, a line each."""
    money = shop.money
    yield f"unit: {shop.unit}"
    yield "reading errors: " + "; ".join(
        f"{tool.replace('_', ' ')} {error_text(error, shop.unit)}" for tool, error in shop.tools.items()
    )
    if money.rate is None:
        yield "rate: not set; a quote needs it"
    else:
        yield f"rate: {money_text(money.rate, money.currency)} an hour"
    for name, amount in (("minimum", money.minimum or None), ("looking", money.looking)):
        if amount is not None:
            yield f"{name}: {money_text(amount, money.currency)}"
    yield f"tax: {money.tax:g} percent; contingency: {money.contingency:g} percent; chance: {money.chance:g}"
    if money.once:
        hours = "/".join(f"{part:g}" for part in money.once)
        yield f"once an instrument: {hours} hours for keys off, on, regulating and play testing"
    for price in money.prices:
        of = f" ({', '.join(price.strategies)})" if price.strategies else ""
        yield f"price: {price.work}, {money_text(price.price, money.currency)}{of}"
    for initials, name in shop.people.items():
        yield f"works here: {initials}, {name}"
    if shop.accepted:
        yield f"shop rules accepted: {', '.join(shop.accepted)}"
    if not shop.drawer:
        yield "drawer: none kept; worksheets choose from the standard series"
    for shelf, typed in shop.drawer.items():
        parts = list_of(typed)
        more = f" and {len(parts) - _SHOWN} more" if len(parts) > _SHOWN else ""
        yield f"drawer, {shelf}: {', '.join(parts[:_SHOWN])}{more}"
    for glue in shop.glues:
        over = ": older than it keeps, try it first or buy it new" if glue.over(today) else ""
        yield f"glue: {glue.name}, opened {glue.opened.isoformat()}{over}"


def error_text(error: ToolError, unit: Unit) -> str:
    """Word how far a reading may be off."""
    below, above = (show_length(part, unit) for part in (error.below, error.above))
    return below if below == above else f"{below} less, {above} more"


def _price(price: Price) -> dict[str, Any]:
    return {"work": price.work, "price": price.price, "strategies": [str(id) for id in price.strategies]}


def shop_json(shop: Shop) -> dict[str, Any]:
    """Give the settings as data: lengths in mm, money in the shop's currency."""
    return {
        "unit": shop.unit,
        "reading_errors": {
            tool: {"less_mm": float(error.below), "more_mm": float(error.above)}
            for tool, error in shop.tools.items()
        },
        "money": {name.name: getattr(shop.money, name.name) for name in fields(shop.money)}
        | {"prices": [_price(price) for price in shop.money.prices]},
        "people": dict(shop.people),
        "shop_rules": [str(id) for id in shop.accepted],
        "season_end": None if shop.season_end is None else "{:02d}-{:02d}".format(*shop.season_end),
        "drawer": {shelf: list_of(shop.drawer[shelf]) for shelf in SHELVES if shelf in shop.drawer},
        "glues": [
            {"name": g.name, "opened": g.opened.isoformat(), "keeps_months": g.keeps_months}
            for g in shop.glues
        ],
    }
