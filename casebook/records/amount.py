"""Amounts of money as people type them: kept as typed, read as a number without a currency."""

from __future__ import annotations

import re
from decimal import Decimal

_NUMBER = re.compile(r"(?<![\w.,])-?\d[\d.,' ]*")
_GROUPED = re.compile(r"\d{1,3}(?P<by>[.,' ])\d{3}(?:(?P=by)\d{3})*(?:[.,]\d{1,2})?|\d+(?:[.,]\d{1,2})?")
_MOST = 12


class NoAmount(ValueError):
    """What was typed is no amount of money; the message says what to type."""


def read_amount(typed: str) -> Decimal:
    """Read an amount: ``80``, ``80.50``, ``80,50 euros``, ``1,200``, ``1.200,00``; the currency is not read.

    A separator with three digits behind it groups thousands, since no money has three decimals.

    Raises:
        NoAmount: no number, more than one, a negative one, or one of more than twelve digits.
    """
    found = [one.strip(" .,'") for one in _NUMBER.findall(typed)]
    if len(found) == 1 and found[0].startswith("-"):
        raise NoAmount(f"{typed.strip()!r} is less than nothing: type an amount such as 80 or 80.50")
    if len(found) != 1 or not (groups := _GROUPED.fullmatch(found[0])):
        raise NoAmount(f"{typed.strip()!r} is no amount: type one number, such as 80 or 80.50")
    number = found[0].replace(groups["by"], "") if groups["by"] else found[0]
    if sum(letter.isdigit() for letter in number) > _MOST:
        raise NoAmount(f"{typed.strip()[:40]!r} is no amount: it has more than {_MOST} digits")
    return Decimal(number.replace(",", "."))
