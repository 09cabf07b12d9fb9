"""The shop's settings one by one: what each is called, what it is now, and what may be typed for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from casebook.bench.at_desk import SEASON_END
from casebook.bench.desk import Desk
from casebook.bench.file_lines import Path
from casebook.bench.library import Library
from casebook.bench.shop import Money, Shop
from casebook.bench.shop_keeping import Change, NotKept
from casebook.bench.shop_text import error_text, money_text
from casebook.guide.pack import Caution
from casebook.quantity import TOOL_ERRORS
from casebook.quantity.tool import TOOLS
from casebook.strict_yaml import Mapping, Text


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting.

    Attributes:
        id: its key in the file, or the key of the first of several that belong together.
        name: what it is called.
        says: what it is now, in words.
        minds: whether something about it wants to be minded.
    """

    id: str
    name: str
    says: str
    minds: bool = False


def settings_of(desk: Desk) -> Iterator[Setting]:
    """Give every setting of a desk's shop, in the order of the shop screen."""
    shop, money = desk.shop or Shop(), (desk.shop or Shop()).money
    yield Setting("unit", "unit", f"{shop.unit}, of a bare number and in which sizes are shown")
    yield Setting("people", "works here", ", ".join(shop.people) or "nobody named")
    yield Setting("reading_errors", "reading errors", _errors(shop))
    yield Setting("currency", "currency", money.currency or "none: bare numbers")
    rate = "not set; a quote needs it" if money.rate is None else f"{_sum(money.rate, money)} an hour"
    yield Setting("rate", "hourly rate", rate)
    yield Setting("minimum", "least charge", _sum(money.minimum, money) if money.minimum else "none")
    yield Setting("tax", "tax", f"{money.tax:g} percent on top")
    looking = "not charged" if money.looking is None else f"{_sum(money.looking, money)}, comes off the bill"
    yield Setting("looking", "looking", looking)
    yield Setting("contingency", "contingency", f"{money.contingency:g} percent for what cleaning may show")
    yield Setting("chance", "chance", f"{money.chance:g} percent of jobs end within the range that is told")
    hours = "/".join(f"{part:g}" for part in money.once) + " hours" if money.once else "not charged"
    yield Setting("once", "once an instrument", f"{hours}: keys off, on, regulate, play test")
    yield Setting("prices", "price list", _count(len(money.prices), "flat price") or "none")
    rules = rules_of(desk.library)
    taken = sum(1 for rule in rules if rule.id in desk.accepted)
    yield Setting("shop_rules", "shop rules", f"{taken} of {len(rules)} accepted")
    usual = "" if shop.season_end else " (the usual day)"
    month, day = shop.season_end or SEASON_END
    yield Setting("season_end", "heating ends", f"{month:02d}-{day:02d}{usual}")
    over = sum(1 for glue in shop.glues if glue.over(desk.today))
    glues = _count(len(shop.glues), "glue") or "none listed"
    yield Setting("glues", "glues", glues + (f", {over} older than it keeps" if over else ""), minds=over > 0)
    shelves = _count(len(shop.drawer), "shelf", "shelves") or "not kept: the standard series"
    yield Setting("drawer", "drawer", shelves)


def _sum(amount: float, money: Money) -> str:
    return money_text(amount, money.currency)


def _count(count: int, one: str, more: str = "") -> str:
    return f"{count} {one if count == 1 else more or one + 's'}" if count else ""


def _errors(shop: Shop) -> str:
    own = [
        f"{tool.replace('_', ' ')} {error_text(error, shop.unit)}"
        for tool, error in shop.tools.items()
        if TOOL_ERRORS.get(tool) != error
    ]
    return "; ".join(own) or "the usual ones"


def tools_typed(desk: Desk) -> dict[str, str]:
    """Give the reading error of each tool as it may be typed; empty where the shop has none of its own."""
    said = desk.shop_file.written.get("reading_errors", {}) if desk.shop_file else {}
    return {tool: _typed(said.get(tool, "")) for tool in TOOLS}


def _typed(error: Text | Mapping) -> str:
    return f"{error['less']} less, {error['more']} more" if isinstance(error, Mapping) else str(error)


def tool_change(tool: str, typed: str) -> Change:
    """Give the change for a tool's error typed as ``0.03 mm`` or ``0.03 mm less, 0.1 mm more``."""
    words = " ".join(typed.split())
    less, parted, more = words.partition(" less")
    if not words:
        return (("reading_errors", tool), None)
    if not parted:
        return (("reading_errors", tool), words)
    if not more.endswith(" more"):
        name = tool.replace("_", " ")
        raise NotKept(f"{name}: {words!r} is no error: type 0.03 mm, or 0.03 mm less, 0.1 mm more")
    return (
        ("reading_errors", tool),
        {"less": less, "more": more.removesuffix(" more").strip(" ,")},
    )


def rules_of(library: Library) -> list[Caution]:
    """List the cautions that a shop may accept once as its rules."""
    found = {id: c for pack in library.packs.values() for id, c in pack.cautions.items() if c.shop_rule}
    return list(found.values())


def strategies_of(library: Library) -> dict[str, tuple[str, str]]:
    """Give the title of every strategy by id, after that of its family."""
    return {
        id: (pack.title, one.title) for pack in library.packs.values() for id, one in pack.strategies.items()
    }


def accepting(desk: Desk, *ids: str) -> list[Change]:
    """Give the changes that accept cautions as rules of the shop; those accepted already stay."""
    have = [str(id) for id in desk.shop.accepted] if desk.shop else []
    return listing(desk, ("shop_rules",), [*have, *(id for id in ids if id not in have)])


def withdrawing(desk: Desk, id: str) -> list[Change]:
    """Give the changes after which a caution is no rule of the shop: it is asked each time again."""
    have = [str(id) for id in desk.shop.accepted] if desk.shop else []
    return listing(desk, ("shop_rules",), [other for other in have if other != id])


def pricing(desk: Desk, place: int, strategies: Sequence[str]) -> list[Change]:
    """Give the changes that make a price of the list the price of these strategies."""
    return listing(desk, ("prices", place, "strategies"), strategies)


def listing(desk: Desk, path: Path, now: Sequence[str]) -> list[Change]:
    """Give the changes that turn a list of the file into another, one entry at a time."""
    node: Any = desk.shop_file.written if desk.shop_file else Mapping()
    try:
        for key in path:
            node = node[key]
    except (KeyError, IndexError, TypeError):
        node = None
    if not isinstance(node, list):
        return [(path, list(now) or None)]
    gone = [place for place, id in enumerate(node) if id not in now]
    new = [id for id in now if id not in node]
    added: list[Change] = [((*path, len(node) + n), id) for n, id in enumerate(new)]
    taken: list[Change] = [((*path, place), None) for place in reversed(gone)]
    return added + taken
