"""A quote over one instrument: hours, flat prices, once an instrument, the shop's own past."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.case_text import case_text
from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.bench.past_hours import PastHours, past_hours
from casebook.bench.quote import Part, alone, quote
from casebook.bench.quoting import over_agreed, parts_of, quote_answers, quote_case, say_urgency
from casebook.bench.shop import Money, Price, Shop
from casebook.records.book import Book
from casebook.records.case import Case, Choice, Damage, FollowUp, Instrument, Look
from casebook.records.errors import NoSuchCase

LIBRARY = Library()
TODAY = date(2026, 11, 25)
MONEY = Money(currency="EUR", rate=60.0, once=(1.0, 1.0, 1.0), looking=25.0)


def a_part(number: int = 1, hours: tuple[float, float, float] = (1, 2, 3), flat: float | None = None) -> Part:
    """Make a part that should be done."""
    price = None if flat is None else Price("work", flat, ("s",))
    return Part(number, "", "work", "s", False, "fits", hours, price, PastHours(), "should", "")


def price(money: Money, *parts: Part, materials: float = 0.0) -> dict[str, float]:
    """Give the prices of a quote."""
    made = quote(parts, money, materials)
    got = {name: made.price(f"price_{name}") for name in ("low", "likely", "high", "most")}
    return {name: value for name, value in got.items() if value is not None}


def test_taking_down_is_charged_once_however_many_damages() -> None:
    """Two damages of 2 h expected (PERT: (1 + 4 x 2 + 3) / 6) and one hour once: 5 h at 60."""
    assert price(MONEY, a_part(1), a_part(2))["likely"] == pytest.approx(300)
    assert price(MONEY, a_part(1))["likely"] == pytest.approx(180)


def test_a_flat_price_counts_instead_of_the_hours() -> None:
    """25 flat and the hour once: 85; the spread of hours that are not charged plays no part."""
    prices = price(MONEY, a_part(flat=25))
    assert prices["low"] == prices["likely"] == prices["high"] == pytest.approx(85)


def test_a_shop_of_flat_prices_needs_no_rate() -> None:
    """With nothing charged by the hour the flat prices are the price, tax on top."""
    assert price(Money(tax=19), a_part(1, flat=25), a_part(2, flat=40))["likely"] == pytest.approx(65 * 1.19)


def test_minimum_materials_and_tax() -> None:
    """The minimum holds for work and materials together, before tax."""
    money = Money(rate=60, minimum=100, tax=10)
    assert price(money, a_part(hours=(1, 1, 1)), materials=12)["likely"] == pytest.approx(110)
    assert price(money, a_part(hours=(2, 2, 2)), materials=12)["likely"] == pytest.approx(132 * 1.1)


def test_without_a_rate_the_line_says_where_to_set_it() -> None:
    """No price is guessed."""
    made = quote([a_part()], Money())
    assert made.result is None
    assert "rate:" in made.phone_line()


def test_the_line_is_ready_to_read_out() -> None:
    """Rounded outwards to what one says; the last sum is the one before which the owner is rung."""
    made = quote([a_part(hours=(2, 2, 2))], Money(currency="EUR", rate=61, looking=25, contingency=20))
    assert made.phone_line() == (
        "Unseen, between 120 EUR and 150 EUR; most like it ended near 120 EUR."
        " Looking costs 25 EUR and comes off the bill. I ring you before I pass 150 EUR."
    )


@given(
    st.lists(st.tuples(*[st.integers(0, 400)] * 3).map(sorted).filter(lambda h: h[2] > 0), min_size=1),
    st.integers(1, 200),
)
def test_what_is_told_never_promises_less_than_what_was_reckoned(hours: list[list[int]], rate: int) -> None:
    """Told low is no higher than the low price, told high no lower than the most, likely between them."""
    parts = [a_part(n, (h[0] / 100, h[1] / 100, h[2] / 100)) for n, h in enumerate(hours, 1)]
    made = quote(parts, Money(rate=float(rate)))
    words = made.phone_line().replace(";", "").rstrip(".").split()
    under, over, near = (float(words[words.index(w) + 1].rstrip(".")) for w in ("between", "and", "near"))
    low, most = made.price("price_low"), made.price("price_most")
    assert low is not None
    assert most is not None
    assert under <= low + 1e-4
    assert over >= most - 1e-4
    assert under <= near <= over


def test_what_can_wait_is_left_out_of_the_sum() -> None:
    """The third damage is listed, not charged."""
    text = "damages:\n" + "".join(f"- {{family: {f}, answers: {{}}}}\n" for f in ("springs", "posts"))
    both = quote_answers(LIBRARY, text, "a.yaml", money=MONEY)
    one = quote_answers(LIBRARY, text, "a.yaml", money=MONEY, urgency={2: "can_wait"})
    assert [p.urgency for p in one.parts] == ["should", "can_wait"]
    sums = [made.price("price_likely") for made in (both, one)]
    assert sums[0] is not None
    assert sums[1] is not None
    assert sums[1] < sums[0]


def _done(number: str, hours: float | None, redo: float | None = None) -> Case:
    followups = (FollowUp("no", date(2026, 5, 1), redo_hours=redo),) if redo else ()
    damage = Damage(
        "posts", looks=(Look(taken=date(2026, 3, 1)),), choice=Choice("post_realign_pair", date(2026, 3, 2)),
        hours=hours, repaired_on=date(2026, 3, 9), followups=followups,
    )  # fmt: skip
    return Case(number, f"done {number}", date(2026, 3, 1), Instrument("clarinet"), damages=(damage,))


def test_the_shops_own_past_counts_redos_and_says_the_counts_first(tmp_path: Path) -> None:
    """Four done, three with hours; a free redo of one hour makes two of one: the middle one is 2."""
    with Book.open(tmp_path / "book.db") as book:
        for case in (_done("B-1", 1, redo=1), _done("B-2", 3), _done("B-3", 0.5), _done("B-4", None)):
            book.add(case)
        past = past_hours(book, "posts", "post_realign_pair")
        assert past.words() == "4 done here, 3 with hours: middle one 2 h, 0.5 to 3 h"
        assert past_hours(book, "posts", "post_hidden_bushing").words() == "none done here yet"


def test_only_what_let_go_by_itself_speaks_against_a_repair(tmp_path: Path) -> None:
    """Six done: one unseen, one holding, one holding and then not seen, one knocked, one that let go and held again."""
    day = date(2026, 5, 1)
    seen: list[tuple[FollowUp, ...]] = [
        (),
        (FollowUp("yes", day),),
        (FollowUp("yes", day), FollowUp("not_known", TODAY)),
        (FollowUp("yes", day, kind="knocked_again"),),
        (FollowUp("no", day), FollowUp("yes", TODAY)),
        (FollowUp("not_known", day),),
    ]
    with Book.open(tmp_path / "book.db") as book:
        for number, followups in enumerate(seen):
            case = _done(f"B-{number}", 1)
            book.add(replace(case, damages=(replace(case.damages[0], followups=followups),)))
        past = past_hours(book, "posts", "post_realign_pair")
    assert past.held() == "6 done, 4 seen, 2 holding, 1 let go by itself"
    assert past.took() == "6 with hours: middle one 1 h, 1 to 1 h"
    assert PastHours().held() == "none done here yet"
    assert PastHours(2).held() == "2 done, none seen again"


def test_more_than_was_agreed_is_said_with_both_sums(tmp_path: Path) -> None:
    """The likely price of the damage alone, tax with it, against what was agreed for it; what was put off can wait."""
    shop = Shop(money=replace(MONEY, tax=10, minimum=500))
    with Book.open(tmp_path / "book.db") as book:
        desk = Desk(book, LIBRARY, TODAY, shop=shop)
        desk.take_in("Three posts", Instrument(kind="clarinet"), number="B-0001")
        for place in ("low E", "low F", "low G"):
            desk.add_damage("B-0001", "posts", place)
        desk.agree("B-0001", 1, "yes", up_to="1 EUR")
        desk.agree("B-0001", 2, "yes", up_to="5000 EUR")
        desk.agree("B-0001", 3, "later", who="the owner")
        parts = parts_of(desk, book.case("B-0001"))
        over = over_agreed(desk, "B-0001", parts)
    low, likely, high = parts[0].hours
    expected = (low + 4 * likely + high) / 6 * 60 * 1.1
    assert over == {1: f"{expected:.2f} is more than was agreed (1 EUR): ring before you pass it"}
    assert [one.urgency for one in parts] == ["should", "should", "can_wait"]
    assert parts[2].because == "put off by the owner on 2026-11-25"


def test_a_damage_without_rules_is_left_out_and_named(tmp_path: Path) -> None:
    """As is a declined one; the rest has its price."""
    with Book.open(tmp_path / "book.db") as book:
        desk = Desk(book, LIBRARY, TODAY, shop=Shop(money=MONEY))
        places = [("posts", "low E"), ("magic", "low F"), ("posts", "low G")]
        number = book.add(Case(damages=tuple(Damage(family, place=place) for family, place in places))).number
        desk.agree(number, 3, "no", who="the owner", on=TODAY)
        made = quote_case(desk, number)
    assert [one.number for one in made.parts] == [1]
    assert made.price("price_likely") is not None
    assert made.left_out == (
        "damage 3, low G: advised repair, declined by the owner on 2026-11-25",
        "damage 2, low F: no rules for magic any more, no price",
    )


def test_what_was_said_of_urgency_and_materials_is_kept_with_the_case(tmp_path: Path) -> None:
    """It counts in every later quote, before what was put off, until it is taken back or another is given."""
    with Book.open(tmp_path / "book.db") as book:
        desk = Desk(book, LIBRARY, TODAY, shop=Shop(money=MONEY))
        desk.take_in("Post", Instrument(kind="clarinet"), number="B-0001")
        desk.add_damage("B-0001", "posts", "low E")
        bare = quote_case(desk, "B-0001").price("price_likely")
        desk.visit("B-0001", materials_price="12,50 EUR")
        with_parts = quote_case(desk, "B-0001").price("price_likely")
        assert bare is not None
        assert with_parts == pytest.approx(bare + 12.5)
        assert quote_case(desk, "B-0001", materials=0.0).price("price_likely") == pytest.approx(bare)
        desk.agree("B-0001", 1, "later")
        say_urgency(desk, "B-0001", 1, "must")
        [one] = quote_case(desk, "B-0001").parts
        assert (one.urgency, one.because) == ("must", "as you said")
        say_urgency(desk, "B-0001", 1, "")
        assert quote_case(desk, "B-0001").parts[0].urgency == "can_wait"
        with pytest.raises(NoSuchCase, match="no damage 2"):
            say_urgency(desk, "B-0001", 2, "must")
        told = "\n".join(case_text(LIBRARY, book.case("B-0001")))
        assert "materials reckoned at: 12,50 EUR" in told


def test_without_a_rate_no_damage_has_a_price_of_its_own_unless_it_is_flat() -> None:
    """A flat price needs no rate."""
    assert alone(a_part(), Money()) is None
    assert alone(a_part(flat=25), Money(tax=10)) == pytest.approx(27.5)


def test_a_case_is_quoted_by_what_was_chosen(tmp_path: Path) -> None:
    """The chosen strategy gives the hours; a declined damage is not quoted."""
    shop = Shop(money=MONEY)
    with Book.open(tmp_path / "book.db") as book:
        desk = Desk(book, LIBRARY, TODAY, shop=shop)
        desk.take_in("Two posts", Instrument(kind="clarinet"), number="B-0001")
        for place in ("low E", "low F"):
            desk.add_damage("B-0001", "posts", place)
        look = desk.look("B-0001", 1)
        look.answer("post_problem", "misaligned_only")
        desk.choose("B-0001", 1, look.advice, "post_realign_pair")
        desk.agree("B-0001", 2, "no", who="owner")
        made = quote_case(desk, "B-0001")
    assert [(p.number, p.strategy, p.decided) for p in made.parts] == [(1, "post_realign_pair", True)]
    low, likely, high = made.parts[0].hours
    assert made.price("price_likely") == pytest.approx(60 * (1 + (low + 4 * likely + high) / 6))


def test_what_somebody_says_comes_before_what_the_answers_show() -> None:
    """Without a danger it should be done; whoever has the owner on the line knows better."""
    text = "family: cracks\nanswers: {}\n"
    (one,) = quote_answers(LIBRARY, text, "a.yaml", money=MONEY).parts
    assert one.urgency == "should"
    (said,) = quote_answers(LIBRARY, text, "a.yaml", money=MONEY, urgency={1: "must"}).parts
    assert (said.urgency, said.because) == ("must", "as you said")
