"""A quote for a case of the book, or for an answers file from the telephone."""

from __future__ import annotations

from collections.abc import Mapping

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.past_hours import PastHours, past_hours
from casebook.bench.quote import Part, Quote, Urgency, part, quote
from casebook.bench.shop import Money
from casebook.bench.triage import triage
from casebook.records.book import Book

_NO_URGENCY: Mapping[int, Urgency] = {}


def _money(desk: Desk) -> Money:
    return desk.shop.money if desk.shop else Money()


def quote_case(
    desk: Desk, number: str, *, materials: float = 0.0, urgency: Mapping[int, Urgency] = _NO_URGENCY
) -> Quote:
    """Quote a case: what was chosen on each damage, else what leads; declined and finished ones are left out.

    Args:
        desk: with the shop's settings.
        number: the case.
        materials: the price of parts and materials.
        urgency: damage -> must, should or can_wait, where somebody has said so.

    Raises:
        NoSuchCase: the book has none of that number.
    """
    case = desk.book.case(number)
    parts: list[Part] = []
    for damage in case.damages:
        declined = bool(damage.consents) and damage.consents[-1].said == "no"
        if declined or damage.repaired_on is not None:
            continue
        advice = desk.look(number, damage.number).advice
        chosen = damage.choice.strategy if damage.choice else ""
        if chosen not in advice.guide.strategies:
            chosen = ""
        past = past_hours(desk.book, damage.family, chosen or advice.first.id, but=number)
        said = urgency.get(damage.number)
        if said is None and damage.consents and damage.consents[-1].said == "later":
            said = "can_wait"
        parts.append(part(damage.number, damage.place, advice, _money(desk), past, chosen, said))
    return quote(parts, _money(desk), materials)


def quote_answers(
    library: Library,
    text: str,
    file: str,
    *,
    money: Money,
    book: Book | None = None,
    materials: float = 0.0,
    urgency: Mapping[int, Urgency] = _NO_URGENCY,
) -> Quote:
    """Quote an answers file: what leads on each of its damages.

    Args:
        library: the rule packs.
        text: the file's text.
        file: how messages call it.
        money: the shop's rates.
        book: for the shop's own past; None while there is no book.
        materials: the price of parts and materials.
        urgency: damage, by its place in the file -> must, should or can_wait.

    Raises:
        BrokenFile: it is no such file.
    """
    bench = triage(library, text, file)
    parts: list[Part] = []
    for number, (advice, place) in enumerate(zip(bench.advices, bench.places, strict=True), 1):
        past = past_hours(book, advice.guide.family, advice.first.id) if book else PastHours()
        parts.append(part(number, place, advice, money, past, urgency=urgency.get(number)))
    return quote(parts, money, materials)
