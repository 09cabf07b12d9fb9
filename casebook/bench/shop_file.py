"""The shop's settings as one plain YAML file: read with file and line, and written back."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from typing import Any

from casebook.bench.shop import Glue, Money, Price, Shop
from casebook.bench.shop_drawer import ShelfOf, shelf_lines
from casebook.bench.shop_shapes import Amount, Day, ErrorOf, HoursOf, MonthAndDay, Tool
from casebook.figures.drawer import SHELVES
from casebook.quantity import TOOL_ERRORS, ToolError, Unit
from casebook.shape import Line, ListOf, MapOf, OneOf, Record
from casebook.strict_yaml import BrokenFile, Mapping, Text, parse

_MOST_PEOPLE = 50


def _shape(today: date, unit: Unit) -> Record:
    price = Record({"work": Line(), "price": Amount(100_000)}, {"strategies": ListOf(Line())})
    glue = Record({"name": Line(), "opened": Day(today)}, {"keeps_months": Amount(240, 1)})
    return Record(
        {},
        {
            "unit": OneOf("mm", "in", "thou"),
            "people": MapOf(Line(), key=Line()),
            "reading_errors": MapOf(ErrorOf(), key=Tool()),
            "currency": Line(),
            "rate": Amount(10_000),
            "minimum": Amount(100_000),
            "tax": Amount(100),
            "looking": Amount(100_000),
            "chance": Amount(99.9, 1),
            "contingency": Amount(300),
            "once": HoursOf(),
            "prices": ListOf(price),
            "shop_rules": ListOf(Line()),
            "season_end": MonthAndDay(),
            "drawer": Record({}, {name: ShelfOf(name, unit) for name in SHELVES}),
            "glues": ListOf(glue),
        },
    )


_MONEY = ("currency", "rate", "minimum", "tax", "looking", "chance", "contingency", "once")


def read_shop(text: str, file: str, today: date) -> Shop:
    """Read a shop's settings.

    Args:
        text: the whole file; an empty one is a shop of defaults.
        file: how messages call it.
        today: the date of the shop: nothing was opened after it.

    Raises:
        BrokenFile: one line with file, line, what is wrong and what would be sensible.
    """
    node = parse(text, file)
    if node is None:
        return Shop()
    unit: Any = node.get("unit", "mm") if isinstance(node, Mapping) else "mm"
    said = _shape(today, unit if unit in ("mm", "in", "thou") else "mm").read(node, file, "the shop")
    prices = tuple(
        Price(str(one["work"]), one["price"], tuple(one.get("strategies", ())))
        for one in said.get("prices", ())
    )
    _refuse_twice([one["work"] for one in said.get("prices", ())], file, "prices")
    glues = tuple(
        Glue(str(g["name"]), g["opened"], int(g["keeps_months"]) if "keeps_months" in g else None)
        for g in said.get("glues", ())
    )
    people = {str(initials): str(name) for initials, name in said.get("people", {}).items()}
    if len(people) > _MOST_PEOPLE:
        raise BrokenFile(file, None, f"people: more than {_MOST_PEOPLE}")
    tools = {str(tool): error for tool, error in said.get("reading_errors", {}).items()}
    return Shop(
        unit=said.get("unit", "mm"),
        tools={**TOOL_ERRORS, **tools},
        money=Money(**{key: _plain(said[key]) for key in _MONEY if key in said}, prices=prices),
        people=people,
        accepted=tuple(said.get("shop_rules", ())),
        drawer=said.get("drawer", {}),
        glues=glues,
        season_end=said.get("season_end"),
    )


def _plain(value: Any) -> Any:
    return str(value) if isinstance(value, Text) else value


def _refuse_twice(names: list[Text], file: str, what: str) -> None:
    seen: set[str] = set()
    for name in names:
        if name.casefold() in seen:
            raise BrokenFile(file, name.line, f"{what}: {name} stands here twice")
        seen.add(name.casefold())


def write_shop(shop: Shop) -> str:
    """Write a shop's settings so that `read_shop` gives the same shop; remarks of a file are lost."""
    return "\n".join(_lines(shop)) + "\n"


def _lines(shop: Shop) -> Iterator[str]:
    yield f"unit: {shop.unit}"
    money = shop.money
    for key in _MONEY:
        value = getattr(money, key)
        if value == getattr(Money(), key):
            continue
        if key == "currency":
            value = _quoted(value)
        yield f"{key}: {_hours(value) if isinstance(value, tuple) else _number(value)}"
    yield from _mapping("people", {_quoted(k): _quoted(v) for k, v in shop.people.items()})
    errors = {tool: _error(error) for tool, error in shop.tools.items() if TOOL_ERRORS.get(tool) != error}
    yield from _mapping("reading_errors", errors)
    if shop.season_end:
        yield "season_end: {:02d}-{:02d}".format(*shop.season_end)
    if shop.accepted:
        yield f"shop_rules: [{', '.join(map(_quoted, shop.accepted))}]"
    if money.prices:
        yield "prices:"
    for price in money.prices:
        yield f"- work: {_quoted(price.work)}"
        yield f"  price: {_number(price.price)}"
        if price.strategies:
            yield f"  strategies: [{', '.join(map(_quoted, price.strategies))}]"
    if shop.drawer:
        yield "drawer:"
        yield from shelf_lines(shop.drawer)
    if shop.glues:
        yield "glues:"
    for glue in shop.glues:
        yield f"- name: {_quoted(glue.name)}"
        yield f"  opened: {glue.opened.isoformat()}"
        if glue.keeps_months is not None:
            yield f"  keeps_months: {glue.keeps_months}"


def _mapping(name: str, pairs: dict[str, str]) -> Iterator[str]:
    if pairs:
        yield f"{name}:"
        yield from (f"  {key}: {value}" for key, value in pairs.items())


def _number(value: object) -> str:
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def _hours(hours: tuple[float, ...]) -> str:
    return "/".join(map(_number, hours))


def _error(error: ToolError) -> str:
    below, above = (f"{_number(float(part))} mm" for part in (error.below, error.above))
    return below if below == above else f"{{less: {below}, more: {above}}}"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
