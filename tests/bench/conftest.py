"""Fixtures of the bench."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.bench.shop_days import Days, opened


@pytest.fixture
def days(tmp_path: Path) -> Iterator[Days]:
    """A shop with an empty book."""
    shop = opened(tmp_path)
    yield shop
    shop.book.close()
