"""One setting changed in the shop's file: the shop changes so, and every other line stays as it was written."""

from __future__ import annotations

import re
import stat
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.desk import Desk
from casebook.bench.file_lines import changed, inline
from casebook.bench.library import Library
from casebook.bench.shop import Money, Price, Shop
from casebook.bench.shop_file import read_shop, write_shop
from casebook.bench.shop_keeping import Change, NotKept, ShopFile
from casebook.bench.shop_text import example
from casebook.records.book import Book
from casebook.strict_yaml import BrokenFile, parse
from tests.bench.test_shop_file import SHOPS

TODAY = date(2026, 11, 25)
LIBRARY = Library()


def read(text: str) -> Shop:
    """Read a shop's file."""
    return read_shop(text, "shop.yaml", TODAY)


def money(shop: Shop, **now: Any) -> Shop:
    """Give a shop with other money."""
    return replace(shop, money=replace(shop.money, **now))


_WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=12)
_SUMS = st.integers(0, 999_999).map(lambda cents: cents / 100)

# A change, and what it makes of a shop.
Expected = Callable[[Shop], Shop]
CHANGES: st.SearchStrategy[tuple[Change, Expected]] = st.one_of(
    _SUMS.map(lambda x: ((("rate",), f"{x:.2f}"), lambda shop: money(shop, rate=x))),
    st.just(((("rate",), None), lambda shop: money(shop, rate=None))),
    _WORDS.map(lambda x: ((("currency",), x), lambda shop: money(shop, currency=x))),
    st.tuples(_WORDS, _WORDS).map(
        lambda x: ((("people", x[0]), x[1]), lambda shop: replace(shop, people={**shop.people, x[0]: x[1]}))
    ),
    st.just((
        (("drawer", "cutters"), "3 mm, 1/4"),
        lambda shop: replace(shop, drawer={**shop.drawer, "cutters": "3 mm; 1/4"}),
    )),
    st.just((
        (("drawer", "taps"), None),
        lambda shop: replace(shop, drawer={k: v for k, v in shop.drawer.items() if k != "taps"}),
    )),
    st.just(((("season_end",), "03-31"), lambda shop: replace(shop, season_end=(3, 31)))),
    st.just(((("season_end",), None), lambda shop: replace(shop, season_end=None))),
    st.tuples(_WORDS, _SUMS).map(
        lambda x: (
            (("prices", 99), {"work": f"{x[0]} new", "price": f"{x[1]:.2f}"}),
            lambda shop: money(shop, prices=(*shop.money.prices, Price(f"{x[0]} new", x[1]))),
        )
    ),
    _SUMS.map(
        lambda x: (
            (("prices", 0, "price"), f"{x:.2f}"),
            lambda shop: money(shop, prices=tuple(
                replace(one, price=x) if place == 0 else one for place, one in enumerate(shop.money.prices)
            )),
        )
    ),
    st.just(((("prices", 0), None), lambda shop: money(shop, prices=shop.money.prices[1:]))),
    st.just(((("glues", 0), None), lambda shop: replace(shop, glues=shop.glues[1:]))),
)  # fmt: skip


@st.composite
def files(draw: st.DrawFn) -> str:
    """A shop's file with remarks above, beside and below its lines, in one of two spellings."""
    text = draw(SHOPS.map(write_shop) | st.just(example()))
    rows: list[str] = []
    for row in text.splitlines():
        for word in draw(st.lists(st.sampled_from(["# - it is: so", "#", "  # further in"]), max_size=1)):
            rows.append(word)
        beside = draw(st.booleans()) and "#" not in row
        rows.append(f"{row}  # beside" if beside else row)
    ends = draw(st.sampled_from(["\n", "\r\n"]))
    return ends.join(rows) + draw(st.sampled_from(["", ends, f"{ends}{ends}# the end{ends}"]))


def others(text: str, key: str) -> list[str]:
    """Give the lines of a file that say something, without those of one setting."""
    parts = re.split("^(?=[a-z_]+:)", text, flags=re.MULTILINE)
    rows = "".join(part for part in parts if not part.startswith(f"{key}:")).splitlines()
    return [row for row in rows if row.strip() and not row.strip().startswith("#")]


def in_order(some: list[str], whole: list[str]) -> bool:
    """Whether some lines stand in a file, in that order."""
    rest = iter(whole)
    return all(row in rest for row in some)


@given(files(), CHANGES)
def test_a_change_is_what_the_file_says_then_and_nothing_else_moves(
    text: str, change: tuple[Change, Expected]
) -> None:
    """The shop is the one before with that one value; other settings are byte for byte the same."""
    (path, value), expected = change
    if path == ("prices", 0, "price") and not read(text).money.prices:
        return
    place = (*path[:1], len(read(text).money.prices)) if path == ("prices", 99) else path
    after = changed(text, place, value)
    assert read(after) == expected(read(text))
    key = str(path[0])
    assert others(after, key) == others(text, key)
    if value is None:
        assert in_order(after.splitlines(), text.splitlines())
    else:
        said = "# [^\r\n]*"
        assert re.findall(said, after) == re.findall(said, text)
    assert after.count("\r\n") in (0, after.count("\n"))


@given(
    st.recursive(
        _WORDS | st.sampled_from(["", "null", "a: b", "a #b", "#4", "1/4, 2 mm", "~"]),
        lambda x: st.lists(x, min_size=1, max_size=3),
        max_leaves=4,
    )
)
def test_what_is_written_on_one_line_reads_as_it_was(value: Any) -> None:
    """Quotes stand where they are needed, inside brackets and outside."""
    assert parse(f"a: {inline(value)}", "file") == {"a": value}
    assert parse(f"[{inline(value, bracketed=True)}]", "file") == [value]


@pytest.mark.parametrize(
    ("text", "path", "value", "after"),
    [
        ("rate: 65  # an hour\n", ("rate",), "70", "rate: 70  # an hour\n"),
        ("people:  # who\nunit: mm", ("people", "AB"), "x", "people: {AB: x}  # who\nunit: mm"),
        ("drawer: {taps: 3-48}", ("drawer", "taps"), "3-48, 4-40", 'drawer: {taps: "3-48, 4-40"}'),
        ("drawer:\n  taps:  # mine\n  - 3-48\n  - 4-40\n# end\n", ("drawer", "taps"), "6BA", "drawer:\n  taps: 6BA  # mine\n# end\n"),
        ("prices:\n- strategies: [a]\n  work: b\n  price: 3\n", ("prices", 0, "strategies"), None, "prices:\n- work: b\n  price: 3\n"),
        ("shop_rules: [a, b]\n", ("shop_rules", 2), "c", "shop_rules: [a, b, c]\n"),
        ("shop_rules: [a]\nunit: mm\n", ("shop_rules", 0), None, "unit: mm\n"),
        ("unit: mm\n...\n", ("rate",), "2", "unit: mm\nrate: 2\n...\n"),
    ],
)  # fmt: skip
def test_the_line_is_changed_as_a_hand_would(
    text: str, path: tuple[Any, ...], value: Any, after: str
) -> None:
    """The remark beside it stays, brackets stay brackets, and what is emptied goes."""
    assert changed(text, path, value) == after


def kept(folder: Path, text: str | None) -> ShopFile:
    """A shop's file in a folder."""
    if text is not None:
        (folder / "shop.yaml").write_bytes(text.encode("utf-8"))
    return ShopFile(folder / "shop.yaml", LIBRARY, TODAY)


def test_the_file_is_made_where_there_is_none(tmp_path: Path) -> None:
    """With its folder, and with a remark that says what it is."""
    file = ShopFile(tmp_path / "new" / "shop.yaml", LIBRARY, TODAY)
    assert (file.is_there, file.shop) == (False, Shop())
    file.change(TODAY, (("unit",), "in"), (("people", "AB"), "bench"))
    text = file.path.read_text(encoding="utf-8")
    assert text.startswith("# ")
    assert read(text) == file.shop == Shop(unit="in", people={"AB": "bench"})
    assert list(file.path.parent.iterdir()) == [file.path]


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        (("rate",), "much", "rate: 'much' is no plain number, as 65 or 12.50"),
        (("tax",), "140", "sensible: 0 to 100"),
        (("drawer", "cutters"), "5 mm, 900 mm", "drawer: cutters: '900 mm' makes no sense here (sensible:"),
        (("shop_rules",), ["caution_wood_dusk"], "did you mean caution_wood_dust"),
        (("glues", 0), {"name": "epoxy", "opened": "2027-01-01"}, "has not come yet"),
        (("people", "AB"), "x\x1b[31m", "U+001B"),
        (("people", "A\x1b"), "x", "U+001B"),
        (("prices", 0, "price"), "5", "work is missing"),
        (("unit", "a"), "5", "does not stand among named values"),
    ],
)
def test_nonsense_is_refused_and_nothing_written(
    tmp_path: Path, path: tuple[Any, ...], value: Any, says: str
) -> None:
    """One line that says what is sensible; the file is as it was, to the second."""
    file = kept(tmp_path, "unit: mm  # mine\n")
    before = file.path.stat().st_mtime_ns
    with pytest.raises(NotKept, match=re.escape(says)) as refused:
        file.change(TODAY, (path, value))
    assert "\n" not in str(refused.value)
    assert file.path.stat().st_mtime_ns == before
    assert file.shop == Shop()


def test_what_somebody_else_wrote_meanwhile_stays(tmp_path: Path) -> None:
    """Theirs is read, ours is asked for again; then it goes in beside theirs."""
    file = kept(tmp_path, "rate: 60\n")
    file.path.write_text("rate: 65\nunit: in\n", encoding="utf-8")
    with pytest.raises(NotKept, match="changed outside meanwhile"):
        file.change(TODAY, (("tax",), "19"))
    assert file.shop.money.rate == 65
    file.change(TODAY, (("tax",), "19"))
    assert file.path.read_text(encoding="utf-8") == "rate: 65\nunit: in\ntax: 19\n"


def test_a_mark_at_the_beginning_stays(tmp_path: Path) -> None:
    """Some editors write one that nobody sees."""
    file = kept(tmp_path, "\ufeffrate: 60\r\n")
    file.change(TODAY, (("tax",), "19"))
    assert file.path.read_bytes() == "\ufeffrate: 60\r\ntax: 19\r\n".encode()


def test_a_file_broken_by_somebody_else_is_left_alone(tmp_path: Path) -> None:
    """The line says where; the shop as read last still counts."""
    file = kept(tmp_path, "rate: 60\n")
    file.path.write_text("unit: mm\nrate: dear\n", encoding="utf-8")
    with pytest.raises(BrokenFile, match="line 2"):
        file.change(TODAY, (("tax",), "19"))
    assert file.path.read_text(encoding="utf-8") == "unit: mm\nrate: dear\n"
    assert file.shop.money.rate == 60


def test_settings_in_one_pair_of_brackets_are_left_to_the_hand(tmp_path: Path) -> None:
    """Nothing is guessed about a file that has all on one line."""
    file = kept(tmp_path, "{rate: 60}\n")
    with pytest.raises(NotKept, match="each on a line of its own"):
        file.change(TODAY, (("rate",), "61"))


def test_an_id_that_was_unknown_before_does_not_bar_other_changes(tmp_path: Path) -> None:
    """It is told, and the shop can still change its rate."""
    file = kept(tmp_path, "shop_rules: [caution_of_old]\n")
    assert "caution_of_old" in file.unknown
    file.change(TODAY, (("rate",), "61"))
    assert file.shop.money.rate == 61


def test_a_place_that_cannot_be_written_is_one_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing half written is left."""
    (tmp_path / "stand").write_text("a file, no folder", encoding="utf-8")
    with pytest.raises(BrokenFile, match="cannot be read"):
        ShopFile(tmp_path / "stand" / "shop.yaml", LIBRARY, TODAY)
    file = kept(tmp_path, "rate: 60\n")

    def full(*_: object) -> None:
        raise OSError(28, "no room left")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(NotKept, match="no room left"):
        file.change(TODAY, (("rate",), "61"))
    assert file.path.read_text(encoding="utf-8") == "rate: 60\n"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["shop.yaml", "stand"]


def test_the_file_keeps_its_rights_and_its_link(tmp_path: Path) -> None:
    """A shop that keeps the file elsewhere and links to it finds it there."""
    real = tmp_path / "elsewhere.yaml"
    real.write_text("rate: 60\n", encoding="utf-8")
    real.chmod(0o640)
    (tmp_path / "shop.yaml").symlink_to(real)
    kept(tmp_path, None).change(TODAY, (("rate",), "61"))
    assert (tmp_path / "shop.yaml").is_symlink()
    assert real.read_text(encoding="utf-8") == "rate: 61\n"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


def test_the_desk_works_with_the_change_at_once(tmp_path: Path) -> None:
    """Unit, rules, season, drawer and prices; a unit asked for at the start stays while the shop's does."""
    file = kept(tmp_path, "unit: mm\n")
    with Book.open(tmp_path / "book.db") as book:
        desk = Desk(book, LIBRARY, TODAY, "thou", accepted=["caution_key_lead"], shop_file=file)
        desk.change_shop((("shop_rules",), ["caution_wood_dust"]), (("season_end",), "03-31"))
        assert desk.accepted == {"caution_wood_dust", "caution_key_lead"}
        assert (desk.season_end, desk.unit) == ((3, 31), "thou")
        desk.change_shop((("unit",), "in"), (("drawer", "cutters"), "1/4"), (("rate",), "50"))
        assert desk.unit == "in"
        assert desk.shop is not None
        assert (desk.shop.drawer, desk.shop.money) == ({"cutters": "1/4"}, Money(rate=50))
        desk.change_shop((("season_end",), None))
        assert desk.season_end == (4, 15)


def test_a_desk_without_a_file_says_so(tmp_path: Path) -> None:
    """Nothing is changed that would be gone with the program."""
    with Book.open(tmp_path / "book.db") as book, pytest.raises(NotKept, match="no file"):
        Desk(book, LIBRARY, TODAY).change_shop((("rate",), "50"))
