"""A case is found by what somebody remembers of it, however it is spelt; nothing typed does anything else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from casebook.recall import find as find_module
from casebook.recall.find import find
from casebook.recall.index import PlainIndex
from casebook.records.book import Book
from casebook.records.case import Case, Damage
from tests.recall.shop import CASES, fill

PATIENT = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@pytest.fixture
def shop(book: Book) -> Book:
    """The shop's book, on each kind of database."""
    fill(book)
    return book


@pytest.fixture(scope="module")
def filed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """The shop's book in a file, for many searches."""
    with Book.open(tmp_path_factory.mktemp("shop") / "book.sqlite3") as opened:
        fill(opened)
        yield opened


def _found(book: Book, words: str) -> list[tuple[str, int]]:
    return [(hit.case, hit.damage) for hit in find(book, words).hits]


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("post torn out", ("B-0301", 1)),
        ("POST, Torn; out!", ("B-0301", 1)),
        ("posts tearing outs maple", ("B-0301", 1)),
        ("psot tron out", ("B-0301", 1)),
        ("basoon", ("B-0301", 1)),
        ("splniter mapel", ("B-0301", 1)),
        ("nephew", ("B-0301", 1)),
        ("coned out", ("B-0301", 1)),
        ("hidden bushing", ("B-0301", 1)),
        ("bush", ("B-0301", 1)),
        ("E♭ key", ("B-0301", 1)),
        ("Eb key", ("B-0301", 1)),
        ("e flat key", ("B-0301", 1)),
        (".180", ("B-0301", 1)),
        ('.180"', ("B-0301", 1)),
        ("180 thou", ("B-0301", 1)),
        ("4.57mm", ("B-0301", 1)),
        ("4,57 mm flange", ("B-0301", 1)),
        ("4.57", ("B-0301", 1)),
        ("179 thou", ("B-0301", 1)),
        ("4.2 mm", ("B-0301", 1)),
        ("3-48", ("B-0301", 1)),
        ("b-0301", ("B-0301", 1)),
        ("B301", ("B-0301", 1)),
        ("301", ("B-0301", 1)),
        ("tight after the sumer", ("B-0301", 1)),
        ("capilary glue", ("B-0302", 1)),
        ("heating seasn crack", ("B-0302", 1)),
        ("closing by hand", ("B-0302", 1)),
        ("2.2 mm pins", ("B-0302", 1)),
        ("87 thou", ("B-0302", 1)),
        ("clarinet ring", ("B-0303", 2)),
        ("linen paper clarinet", ("B-0303", 2)),
        ("swollen pads", ("B-0303", 1)),
        ("glued paper", ("B-0303", 2)),
        ("G sharp spring", ("B-0304", 1)),
        ("G# sprng", ("B-0304", 1)),
        ("1.188 in", ("B-0304", 1)),
        ("30.16 mm", ("B-0304", 1)),
        ("rustystump", ("B-0304", 1)),
        ("oboe estimate", ("B-0305", 0)),
        ("oboe with something nobody wrote: estimate", ("B-0305", 0)),
    ],
)
def test_the_case_that_was_meant_comes_first(filed: Book, words: str, first: tuple[str, int]) -> None:
    assert _found(filed, words)[:1] == [first]


@pytest.mark.parametrize(
    "words", ["psot tron out", "180 thou", "ring paper glued", "E♭", "b-0303", "crack OR"]
)
def test_every_kind_of_book_finds_the_same(shop: Book, filed: Book, words: str) -> None:
    assert find(shop, words) == find(filed, words)


_SOME_WORDS = (
    "post", "psot", "torn", "ring", "rings", "clarinet", "glue", "paper", "hand", "hnd", ".180", "2.2mm",
    "B-0302", "G♯", "the", "zzz", "crack",
)  # fmt: skip


@PATIENT
@given(words=st.lists(st.sampled_from(_SOME_WORDS), max_size=4).map(" ".join))
def test_reading_through_finds_what_the_full_text_index_finds(filed: Book, words: str) -> None:
    indexed = find(filed, words)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(find_module, "index_of", PlainIndex)
        assert find(filed, words) == indexed


def test_what_was_mended_is_said(filed: Book) -> None:
    result = find(filed, "tron psot clarinte zzzzzz")
    assert result.corrected == {"tron": "torn", "psot": "post", "clarinte": "clarinet"}
    assert result.nowhere == ("zzzzzz",)


def test_another_ending_is_nothing_mended(filed: Book) -> None:
    assert find(filed, "cracking pins").corrected == {}


def test_a_hit_says_what_it_has_and_what_it_lacks(filed: Book) -> None:
    [hit] = [hit for hit in find(filed, "rattling ring zzzzzz").hits if hit.case == "B-0303"]
    assert [(share.what, share.there) for share in hit.agrees] == [("rattling", "rattles"), ("ring", "ring")]
    assert [share.what for share in hit.differs] == ["zzzzzz"]
    assert hit.title == "Sagging pads and a loose ring"
    assert hit.outcome is not None
    assert (hit.outcome.held, hit.outcome.cause) == ("no", "glue")


def test_what_is_in_no_case_finds_nothing(filed: Book) -> None:
    assert find(filed, "zzzzzz").hits == ()
    assert find(filed, "97 mm").hits == ()
    assert find(filed, "97 mm").nowhere == ("97 mm",)


def test_a_word_that_is_far_rarer_than_one_a_slip_away_is_taken_for_it_when_nothing_else_fits(
    book: Book,
) -> None:
    for at in range(12):
        book.add(Case(title=f"Tenon cork {at}"))
    book.add(Case(title="Tenor saxophone lesson"))
    result = find(book, "tenor cork")
    assert result.corrected == {"tenor": "tenon"}
    assert len(result.hits) == 10
    assert find(book, "tenor").corrected == {}


def test_no_more_are_given_than_asked_for(filed: Book) -> None:
    assert len(find(filed, "clarinet bassoon flute oboe", limit=2).hits) == 2
    assert find(filed, "clarinet", limit=0).hits == ()


def test_a_case_that_changed_is_found_by_what_it_says_now(shop: Book) -> None:
    shop.update(replace(shop.case("B-0305"), title="Octave vent reamed"))
    assert _found(shop, "estimate") == []
    assert _found(shop, "octave vent") == [("B-0305", 0)]
    shop.add_damage("B-0305", Damage("bore_and_liner", story="wax plug"))
    assert _found(shop, "wax") == [("B-0305", 1)]
    shop.remove("B-0305")
    assert _found(shop, "octave") == []


@PATIENT
@given(words=st.text(max_size=60))
@example(words='"')
@example(words="'")
@example(words='post"')
@example(words="NEAR(post torn)")
@example(words="head:post")
@example(words="post AND")
@example(words="* OR NOT")
@example(words="^post -torn +out")
@example(words="key-55 C#")
@example(words="{head body}: post")
@example(words="'; DROP TABLE cases; --")
@example(words="%_\\")
@example(words="\x00post")
@example(words="\ud800")
@example(words="1/0")
@example(words=".")
@example(words="9" * 500)
@example(words="a " * 500)
@example(words="½ ¾″ ♭♯")
@example(words="[red]post[/red]")
def test_nothing_that_is_typed_is_more_than_words(filed: Book, words: str) -> None:
    before = filed.count()
    for hit in find(filed, words).hits:
        assert hit.case in {case.number for case in CASES}
    assert filed.count() == before


@PATIENT
@given(
    words=st.sampled_from(["splinter", "heating", "capillary", "swollen", "rattles", "estimate", "bassoon"]),
    data=st.data(),
)
def test_one_slip_of_the_hand_in_a_long_word_is_mended(filed: Book, words: str, data: st.DataObject) -> None:
    """Of slips: a letter changed, left out, doubled, or two changed round (Damerau, 1964: 80 % of all)."""
    at = data.draw(st.integers(1, len(words) - 2))
    slip = data.draw(st.sampled_from(["change", "leave", "double", "swap"]))
    letter = data.draw(st.sampled_from("abcdefghijklmnopqrstuvwxyz"))
    wrong = {
        "change": words[:at] + letter + words[at + 1 :],
        "leave": words[:at] + words[at + 1 :],
        "double": words[:at] + words[at] + words[at:],
        "swap": words[:at] + words[at + 1] + words[at] + words[at + 2 :],
    }[slip]
    assume(wrong != words)
    assert _found(filed, words)[0] in _found(filed, wrong)


@PATIENT
@given(hundredths=st.integers(30, 9000))
def test_a_length_is_found_in_whatever_unit_it_is_asked_for(book: Book, hundredths: int) -> None:
    mm = hundredths / 100
    if not book.count():
        book.add(Case(number="A-1"))
    damage = Damage("posts", number=1, story=f"The hole is {mm} mm wide.")
    book.update(Case(number="A-1", damages=(damage,)))
    for asked in (f"{mm}mm", f"{mm / 25.4:.3f} in", f"{round(mm / 0.0254)} thou", f'{mm / 25.4:.3f}"'):
        assert _found(book, asked) == [("A-1", 1)], asked
