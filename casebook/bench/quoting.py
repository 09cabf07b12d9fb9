"""A quote for a case of the book, or for an answers file from the telephone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Literal

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.past_hours import Past, PastHours
from casebook.bench.quote import Part, Quote, Urgency, alone, part, quote
from casebook.bench.shop import Money
from casebook.bench.triage import triage
from casebook.records.amount import read_amount
from casebook.records.book import Book
from casebook.records.case import Case, Damage
from casebook.records.errors import NoSuchCase
from casebook.records.workshop import Consent
from casebook.strict_yaml import BrokenFile

_NO_URGENCY: Mapping[int, Urgency] = {}


def money_of(desk: Desk) -> Money:
    """Give the shop's rates; without settings there are none."""
    return desk.shop.money if desk.shop else Money()


def quote_case(
    desk: Desk, number: str, *, materials: float | None = None, urgency: Mapping[int, Urgency] = _NO_URGENCY
) -> Quote:
    """Quote a case: what was chosen on each damage, else what leads; declined and finished ones are left out.

    Args:
        desk: with the shop's settings.
        number: the case.
        materials: the price of parts and materials; left out, what was kept with the case.
        urgency: damage -> must, should or can_wait, in place of what was kept with the damage.

    Raises:
        NoSuchCase: the book has none of that number.
    """
    case = desk.book.case(number)
    priced = materials_of(case) if materials is None else materials
    made = quote(as_said(parts_of(desk, case), urgency), money_of(desk), priced)
    return replace(made, left_out=left_out(desk, case))


def materials_of(case: Case) -> float:
    """Give what the parts and materials of a case are reckoned at, in the shop's currency, before tax."""
    typed = case.visit.materials_price
    return float(read_amount(typed)) if typed else 0.0


def say_urgency(desk: Desk, number: str, damage: int, urgency: Urgency | Literal[""]) -> None:
    """Keep how urgent somebody said a damage is; empty leaves it to what the answers show.

    Raises:
        NoSuchCase: no such case or damage.
    """

    def change(case: Case) -> Case:
        if damage not in {one.number for one in case.damages}:
            raise NoSuchCase(f"case {number} has no damage {damage}")
        said = tuple(replace(d, urgency=urgency) if d.number == damage else d for d in case.damages)
        return replace(case, damages=said)

    desk.book.change(number, change)


def as_said(parts: Iterable[Part], urgency: Mapping[int, Urgency]) -> list[Part]:
    """Put what somebody said of how urgent it is in place of what the answers show."""
    return [one.as_said(urgency[one.number]) if one.number in urgency else one for one in parts]


def parts_of(desk: Desk, case: Case) -> list[Part]:
    """Give what is to be quoted of a case: as urgent as somebody said, else as the answers show.

    What was declined or is done is left out, and what the packs have no rules for; what was put off can wait.
    """
    past = Past(desk.book, case.number)
    parts: list[Part] = []
    for damage in case.damages:
        last = damage.consents[-1] if damage.consents else None
        if (last and last.said == "no") or damage.repaired_on is not None:
            continue
        if not _has_rules(desk, damage):
            continue
        advice = desk.look(case.number, damage.number).advice
        chosen = damage.choice.strategy if damage.choice else ""
        if chosen not in advice.guide.strategies:
            chosen = ""
        held = past.of(damage.family, chosen or advice.first.id)
        made = part(damage.number, damage.place, advice, money_of(desk), held, chosen)
        if damage.urgency:
            made = made.as_said(damage.urgency)  # type: ignore[arg-type]
        elif last and last.said == "later":
            made = made.as_said("can_wait", f"put off{_by_whom(last)}")
        parts.append(made)
    return parts


def left_out(desk: Desk, case: Case) -> tuple[str, ...]:
    """Say which damages are not quoted: declined, or the packs no longer have their rules; not those done."""
    without = (
        f"damage {one.number}, {one.place or one.family}: no rules for {one.family} any more, no price"
        for one in case.damages
        if one.repaired_on is None and not _has_rules(desk, one)
    )
    return (*desk.declined(case.number), *without)


def _has_rules(desk: Desk, damage: Damage) -> bool:
    try:
        desk.library.guide(damage.family)
    except (KeyError, BrokenFile):
        return False
    return True


def over_agreed(desk: Desk, number: str, parts: Iterable[Part]) -> dict[int, str]:
    """Say of each damage whose likely price is more than was agreed for it that one rings before."""
    found: dict[int, str] = {}
    for one in parts:
        price = alone(one, money_of(desk))
        says = price is not None and desk.within_agreed(number, one.number, Decimal(f"{price:.2f}"))
        if says:
            found[one.number] = says
    return found


def _by_whom(said: Consent) -> str:
    who = f" by {said.who}" if said.who else ""
    return f"{who} on {said.given_on}" if said.given_on else who


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
    own = Past(book) if book else None
    parts: list[Part] = []
    for number, (advice, place) in enumerate(zip(bench.advices, bench.places, strict=True), 1):
        past = own.of(advice.guide.family, advice.first.id) if own else PastHours()
        parts.append(part(number, place, advice, money, past))
    return quote(as_said(parts, urgency), money, materials)
