"""A quote in words for the telephone: what is read out, the damages as rows, why each costs what it does."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content

from casebook.bench.quote import URGENCIES, Part, Quote, Urgency
from casebook.bench.shop import Hours
from casebook.bench.shop_text import money_text
from casebook.bench.visit_text import agreed_text
from casebook.records.case import Damage
from casebook.screens.plain import BOLD, FAINT, WRONG, joined, line, lines, plain
from casebook.screens.rows import Row

# Urgency -> glyph, word, colour.
_URGENT: dict[Urgency, tuple[str, str, str]] = {
    "must": ("!", "must", "bold $text-error"),
    "should": ("=", "should", ""),
    "can_wait": ("-", "can wait", "$foreground-muted"),
}
_NO_RATE = "No price yet, for no hourly rate is set: s opens the shop's settings. The hours stand below."


def said(quote: Quote) -> Content:
    """Give the sentence to read out; without a price, what is missing."""
    if quote.result is not None:
        return plain(quote.phone_line(), BOLD)
    if not quote.parts:
        return plain("Nothing is left to be quoted.", BOLD)
    missing = quote.money.rate is None and any(one.urgency != "can_wait" for one in quote.parts)
    return plain(_NO_RATE if missing else quote.problem, WRONG if missing else BOLD)


def in_it(quote: Quote) -> str:
    """Name what is in the price besides the damages."""
    money = quote.money
    parts = [f"{_hours(money.once)} once for keys off, on, regulating and play testing"] if money.once else []
    if quote.materials:
        parts.append(f"materials {money_text(quote.materials, money.currency)}")
    if money.tax:
        parts.append(f"tax {money.tax:g} percent")
    return f"With {'; '.join(parts)}." if parts else ""


def part_rows(parts: Iterable[Part], over: Iterable[int], currency: str) -> list[Row]:
    """Give the damages as rows, what must be done first; where more than was agreed it shows."""
    rows: list[Row] = []
    passed = set(over)
    for one in sorted(parts, key=lambda one: (URGENCIES.index(one.urgency), one.number)):
        glyph, word, colour = _URGENT[one.urgency]
        cost = _cost(one, currency)
        shown = line(f"! {cost}", WRONG) if one.number in passed else line(f"  {cost}")
        where = one.place or f"damage {one.number}"
        # Which way it will be is known only when it is chosen, or leads for good.
        way = one.title if one.decided or one.standing == "fits" else f"? {one.title}"
        rows.append((f"{one.number}", [line(f"{glyph} {word}", colour), where, way, shown]))
    return rows


def part_text(one: Part, quote: Quote, damage: Damage, over: str) -> Content:
    """Word all that is known of what one damage will cost."""
    how = "chosen" if one.decided else "leads" if one.standing == "fits" else "leads so far, still open"
    flat = f", flat {money_text(one.flat.price, quote.money.currency)} ({one.flat.work})" if one.flat else ""
    low, likely, high = one.hours
    facts = (
        ("hours", f"{low:g} to {high:g} h, likely {likely:g}{flat}"),
        ("why", f"{_URGENT[one.urgency][1]}: {one.because}"),
        ("here", "; ".join(filter(None, (one.past.held(), one.past.took())))),
        ("said", "; ".join(agreed_text(damage))),
        ("needs", ", ".join(one.materials)),
        ("waits", ", then ".join(one.waits)),
    )
    parts = [joined(plain(one.title, BOLD), plain(f"  {how}", FAINT))]
    if over:
        parts.append(plain(f"! {over}.", WRONG))
    parts += [joined(plain(f"{name:8}", FAINT), plain(text)) for name, text in facts if text]
    return lines(parts)


def apart(left_out: Iterable[str]) -> Content:
    """Word what is left out of the price."""
    return lines([line(f"x {one}", FAINT) for one in left_out])


def _cost(one: Part, currency: str) -> str:
    return f"flat {money_text(one.flat.price, currency)}" if one.flat else _hours(one.hours)


def _hours(hours: Hours) -> str:
    low, _, high = hours
    return f"{low:g} h" if low == high else f"{low:g} to {high:g} h"
