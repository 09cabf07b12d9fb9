"""`casebook quote`: what it will cost, ready to read out on the phone."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from casebook.commands.exits import BROKEN_FILE, FINE, PROBLEM, Failure, complain
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import desk, has_book, library, read_text, shop
from casebook.strict_yaml import BrokenFile

if TYPE_CHECKING:
    from casebook.bench.quote import Part, Quote, Urgency

_SAID = {"must": "must be done", "should": "should be done", "can_wait": "can wait, not in the sum"}
_PRICES = ("price_low", "price_likely", "price_high", "price_most")


def run(args: argparse.Namespace) -> int:
    """Quote a case or an answers file.

    Raises:
        Failure: neither is there, or the file is broken.
    """
    from casebook.bench.quoting import quote_answers, quote_case
    from casebook.records.errors import NoSuchCase

    is_file = args.what == "-" or Path(args.what).is_file()
    urgency: dict[int, Urgency] = dict.fromkeys(args.must, "must")
    urgency |= dict.fromkeys(args.can_wait, "can_wait")
    try:
        if is_file:
            text, name = read_text(args.what)
            money, packs = shop(args).money, library(args)
            book = desk(args).book if has_book(args) else None
            made = quote_answers(
                packs, text, name, money=money, book=book, materials=args.materials or 0.0, urgency=urgency
            )
        else:
            made = quote_case(desk(args), args.what, materials=args.materials, urgency=urgency)
    except BrokenFile as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    except NoSuchCase as error:
        raise Failure(PROBLEM, f"{error} (and no file of that name)") from None
    unknown = sorted(urgency.keys() - {one.number for one in made.parts})
    if unknown:
        raise Failure(PROBLEM, f"{args.what} has no damage {unknown[0]} to quote")
    if args.json:
        print_json(_data(made))
    else:
        print_text(*_text(made))
    return complain(PROBLEM, made.problem) if made.result is None else FINE


def _text(made: Quote) -> Iterator[str]:
    from casebook.bench.quote import by_urgency

    if made.result is not None:
        yield made.phone_line()
    for urgency, parts in by_urgency(made.parts).items():
        if parts:
            yield f"{_SAID[urgency]}:"
        for one in parts:
            yield from _part(one, made)
    if made.left_out:
        yield "left out:"
    for left in made.left_out:
        yield f"  {left}"


def _part(one: Part, made: Quote) -> Iterator[str]:
    from casebook.bench.shop_text import money_text

    low, likely, high = one.hours
    price = f"{low:g} to {high:g} h, likely {likely:g}"
    if one.flat is not None:
        price = f"flat {money_text(one.flat.price, made.money.currency)} ({one.flat.work})"
    how = "chosen" if one.decided else "leads" if one.standing == "fits" else "leads so far, still open"
    place = f"{one.place}: " if one.place else ""
    yield f"  {one.number}. {place}{one.title} ({how}): {price}"
    yield f"     {one.because}; {one.past.words()}"
    if one.materials:
        yield f"     needs {', '.join(one.materials)}"


def _data(made: Quote) -> dict[str, Any]:
    from casebook.figures.as_json import result_json

    return {
        "says": made.phone_line(),
        **{name: made.price(name) for name in _PRICES},
        "currency": made.money.currency,
        "looking": made.money.looking,
        "once": made.money.once,
        "materials": made.materials,
        "left_out": list(made.left_out),
        "damages": [
            {
                "damage": one.number,
                "place": one.place,
                "strategy": one.strategy,
                "title": one.title,
                "decided": one.decided,
                "standing": one.standing,
                "hours": one.hours,
                "flat": one.flat.price if one.flat else None,
                "urgency": one.urgency,
                "because": one.because,
                "past": {"done": one.past.done, "hours": one.past.hours, "middle": one.past.middle},
            }
            for one in made.parts
        ],
        "worksheet": result_json(made.result) if made.result else None,
    }
