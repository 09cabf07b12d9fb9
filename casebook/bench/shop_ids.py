"""The ids in a shop's file, held against the rule packs: rules accepted, strategies with a flat price."""

from __future__ import annotations

from collections.abc import Iterable

from casebook.bench.library import Library
from casebook.bench.shop import Shop
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile, line_of


def refuse_unknown(shop: Shop, library: Library, file: str) -> None:
    """Hold a shop's ids against the rule packs: accepted cautions and the strategies of the price list.

    Raises:
        BrokenFile: an id that no pack has, with its line and the nearest known one; or one strategy with two
            prices.
    """
    packs = library.packs.values()
    rules = {id for pack in packs for id, caution in pack.cautions.items() if caution.shop_rule}
    _known(shop.accepted, rules, file, "shop_rules: no rule to accept is called")
    strategies = {id for pack in packs for id in pack.strategies}
    priced: set[str] = set()
    for price in shop.money.prices:
        what = f"prices, {price.work}: no strategy is called"
        _known(price.strategies, strategies, file, what)
        for id in price.strategies:
            if id in priced:
                raise BrokenFile(file, line_of(id), f"prices, {price.work}: {str(id)!r} has a price already")
            priced.add(id)


def _known(ids: Iterable[str], known: set[str], file: str, problem: str) -> None:
    for id in ids:
        if id not in known:
            raise BrokenFile(file, line_of(id), f"{problem} {str(id)!r}{nearest(id, sorted(known))}")
