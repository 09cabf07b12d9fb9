"""The small shop with a file of settings, for the screens that change it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.shop_keeping import ShopFile
from casebook.records.book import Book
from tests.screens.shop import CASES, TODAY, frozen_library, shop

SETTINGS = """\
# What holds at our bench.
unit: mm

people:            # at the two benches
  HB: first bench
  JV: second bench

reading_errors:
  inside_jaws: {less: 0.02 mm, more: 0.1 mm}

currency: EUR
rate: 65           # an hour
minimum: 30
once: 0.8/1/1.5

prices:
- work: post straightened   # while they wait
  price: 20
  strategies: [straighten]
- work: written opinion
  price: 40

drawer:
  taps: [2-56, 3-48]
  drills: number set, 1 mm to 6 mm by 0.1 mm
  cutters: 5 mm, 5,5 mm   # sharp ones

glues:
- name: two-part epoxy, slow
  opened: 2026-01-12
  keeps_months: 24
- name: thin cyanoacrylate
  opened: 2025-06-15
  keeps_months: 6
"""


def settled_shop(
    folder: Path, settings: str | None = SETTINGS, library: Callable[[], Library] = frozen_library
) -> Callable[[], Desk]:
    """Give what opens the desk of a shop with this file of settings; None: it has none yet."""
    place = folder / "shop.yaml"
    if settings is not None:
        place.write_text(settings, encoding="utf-8")
    shop(folder / "book.db", *CASES)().book.close()

    def open_desk() -> Desk:
        packs = library()
        return Desk(Book.open(folder / "book.db"), packs, TODAY, shop_file=ShopFile(place, packs, TODAY))

    return open_desk
