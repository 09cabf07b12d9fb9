"""Amounts of money as typed."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.records.amount import NoAmount, read_amount


@pytest.mark.parametrize(
    ("typed", "amount"),
    [
        ("80", "80"),
        ("80.50", "80.50"),
        ("80,50 euros", "80.50"),
        ("about £80", "80"),
        ("1,200", "1200"),
        ("1.200,00", "1200.00"),
        ("12 500", "12500"),
        ("1'200.5", "1200.5"),
        ("0", "0"),
        ("80.", "80"),
    ],
)
def test_an_amount_is_read_whatever_the_currency_and_the_grouping(typed: str, amount: str) -> None:
    assert read_amount(typed) == Decimal(amount)


@pytest.mark.parametrize("typed", ["", "much", "-80", "80 to 90", "1,2,3", "9" * 20, "1.5555"])
def test_what_is_no_amount_is_refused_in_one_line(typed: str) -> None:
    with pytest.raises(NoAmount) as refused:
        read_amount(typed)
    assert "\n" not in str(refused.value)


@given(st.decimals(0, 10**9, places=2), st.sampled_from(",. "))
def test_grouping_thousands_changes_nothing(amount: Decimal, by: str) -> None:
    point = "," if by == "." else "."
    typed = f"{amount:,.2f}".replace(".", "#").replace(",", by).replace("#", point)
    assert read_amount(typed) == read_amount(f"{amount}") == amount
