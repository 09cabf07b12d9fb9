"""Like damages come first, with shares that add up and say what agrees and what differs."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casebook.recall.evidence import OneOf, Size, known
from casebook.recall.similar import similar
from casebook.records.book import Book
from casebook.records.case import Answer, Case, Choice, Damage, FollowUp, Look

PATIENT = settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def _damage(story: str = "", /, **answers: Answer) -> Case:
    return Case(damages=(Damage("posts", story=story, looks=(Look(answers),)),))


def _fill(book: Book, *cases: Case) -> None:
    for at, case in enumerate(cases, 1):
        book.add(replace(case, number=f"A-{at}", title=f"case {at}"))


@pytest.fixture
def shop(book: Book) -> Book:
    _fill(
        book,
        _damage("knocked off the stand", post_hole="coned_out", post_shank="smooth", hole="5.2 mm"),
        _damage("pulled out in the case", post_hole="coned_out", post_shank="threaded_good", hole="4.0 mm"),
        _damage("loose for years", post_hole="sound", post_shank="threaded_good", hole="150 thou"),
        _damage("loose since summer", post_hole="sound", post_shank="threaded_good", hole="3.7 mm"),
    )
    return book


def test_the_damage_with_the_same_answers_comes_first(shop: Book) -> None:
    hits = similar(shop, "posts", {"post_hole": "coned_out", "post_shank": "smooth", "hole": ".205 in"})
    assert [hit.case for hit in hits] == ["A-1", "A-2"]
    assert [share.what for share in hits[0].agrees] == ["hole", "post_shank", "post_hole"]
    assert [(share.what, share.here, share.there) for share in hits[1].differs] == [
        ("hole", ".205 in", "4.0 mm"),
        ("post_shank", "smooth", "threaded_good"),
    ]


def test_an_agreement_weighs_log_of_three_quarters_over_its_chance(shop: Book) -> None:
    """Fellegi and Sunter (1969), m = 0.75; by hand: 2 of 4 are coned, 2 kinds seen, so u = (2+1)/(4+3)."""
    hit = next(h for h in similar(shop, "posts", {"post_hole": "coned_out"}) if h.case == "A-1")
    assert hit.score == pytest.approx(math.log(0.75 / (3 / 7)))


def test_a_disagreement_weighs_log_of_a_quarter_over_the_rest(shop: Book) -> None:
    """Fellegi and Sunter (1969); by hand: 1 of 4 is smooth, 2 kinds seen, so u = (1+1)/(4+3)."""
    hits = similar(shop, "posts", {"post_shank": "smooth", "post_hole": "coned_out"})
    differs = next(hit for hit in hits if hit.case == "A-2").differs
    assert [share.weight for share in differs] == [pytest.approx(math.log(0.25 / (1 - 2 / 7)))]


def test_what_everybody_has_never_speaks_against(book: Book) -> None:
    _fill(book, *[_damage(body_wood="grenadilla", post_hole=hole) for hole in ("a", "a", "b", "a", "a", "a")])
    hits = similar(book, "posts", {"body_wood": "grenadilla", "post_hole": "b"})
    assert hits[0].case == "A-3"
    assert all(share.weight > 0 for hit in hits for share in hit.agrees)
    assert all(share.what != "body_wood" for hit in hits for share in hit.differs)


def test_the_unit_a_size_was_typed_in_changes_nothing(shop: Book) -> None:
    one, other = (similar(shop, "posts", {"hole": typed}) for typed in ("3.81 mm", "150 thou"))
    assert [(hit.case, hit.score) for hit in one] == [(hit.case, hit.score) for hit in other]
    assert similar(shop, "posts", {}, measures={"hole": 3.81})[0].case == "A-3"


def test_what_is_not_known_weighs_nothing(shop: Book) -> None:
    answers: dict[str, Answer] = {"post_hole": "coned_out"}
    more: dict[str, Answer] = {"post_shank": "not_known", "hole": "", "asked_of_none": "x", **answers}
    assert similar(shop, "posts", more) == similar(shop, "posts", answers)


def test_an_answer_still_open_weighs_only_where_it_is_excluded(shop: Book) -> None:
    open_ended = similar(shop, "posts", {"post_hole": ["coned_out", "enlarged"], "post_shank": "smooth"})
    assert [hit.case for hit in open_ended] == ["A-1"]
    assert [share.what for share in open_ended[0].agrees] == ["post_shank"]
    not_sound = similar(shop, "posts", {"post_hole": {"not": ["sound"]}, "post_shank": "threaded_good"})
    assert [(hit.case, len(hit.differs)) for hit in not_sound] == [("A-2", 0), ("A-3", 1), ("A-4", 1)]


def test_a_later_look_speaks_before_an_earlier_one(book: Book) -> None:
    looks = (
        Look({"post_hole": "filled", "prior_solder": "soft_solder"}, ended_by="cleaned"),
        Look({"post_hole": "sound"}),
    )
    book.add(Case(number="A-1", damages=(Damage("posts", looks=looks),)))
    [hit] = similar(book, "posts", {"prior_solder": "soft_solder"})
    assert hit.agrees[0].there == "soft_solder"
    [hit] = similar(book, "posts", {"post_hole": "sound", "prior_solder": "soft_solder"})
    assert hit.differs == ()


def test_a_question_that_was_renamed_since_still_agrees(shop: Book) -> None:
    """What an old case calls hole is compared with what is called hole_diameter now, on both sides."""
    renamed = {"hole": "hole_diameter"}
    now = similar(shop, "posts", {"hole_diameter": "5.2 mm"}, renamed=renamed)
    assert [(hit.case, hit.agrees[0].what) for hit in now] == [("A-1", "hole_diameter")]
    assert similar(shop, "posts", {"hole": "5.2 mm"}, renamed=renamed) == now
    assert similar(shop, "posts", {"hole_diameter": "5.2 mm"}) == []


def test_the_story_counts_by_its_telling_words(shop: Book) -> None:
    [hit] = similar(shop, "posts", {}, story="It was knocked off a stand by the cat")
    assert hit.case == "A-1"
    [share] = hit.agrees
    assert (share.what, share.there) == ("story", "knocked off stand")
    assert 0 < share.weight < 2


def test_intake_answers_count_with_those_of_the_damage(book: Book) -> None:
    _fill(book, replace(_damage(a="x"), answers={"instrument_kind": "oboe"}), _damage(a="x"), _damage(a="y"))
    hits = similar(book, "posts", {"a": "x"}, intake={"instrument_kind": "oboe"})
    assert [hit.case for hit in hits] == ["A-1", "A-2"]


def test_the_case_on_the_bench_and_other_families_are_left_out(shop: Book) -> None:
    shop.add(Case(number="A-9", damages=(Damage("cracks", looks=(Look({"post_hole": "coned_out"}),)),)))
    hits = similar(shop, "posts", {"post_hole": "coned_out"}, leave_out="a-1")
    assert [hit.case for hit in hits] == ["A-2"]


def test_a_hit_tells_what_was_chosen_and_how_it_turned_out(book: Book) -> None:
    followups = (FollowUp("yes", date(2026, 2, 1)), FollowUp("no", date(2026, 5, 1), "wood"))
    damage = Damage(
        "posts", looks=(Look({"a": "x"}),), choice=Choice("post_plug_rebore"), followups=followups
    )
    book.add(Case(number="A-1", damages=(Damage("cracks"), damage)))
    book.add(_damage(a="y"))
    [hit] = similar(book, "posts", {"a": "x"})
    assert (hit.case, hit.damage, hit.chosen, hit.outcome) == ("A-1", 2, "post_plug_rebore", followups[1])


def test_an_empty_book_has_nothing_like_it(book: Book) -> None:
    assert similar(book, "posts", {"a": "x"}, story="anything") == []


_ANSWERS = st.fixed_dictionaries(
    {},
    optional={
        "a": st.sampled_from(["x", "y", "z", "not_known"]),
        "b": st.sampled_from([["x", "y"], {"not": ["x"]}, {"all": ["x", "y"]}, "x"]),
        "c": st.integers(1, 400).map(lambda n: f"{n / 10} mm"),
        "d": st.integers(0, 9).map(str),
    },
)


@PATIENT
@given(all_answers=st.lists(_ANSWERS, min_size=1, max_size=7), limit=st.integers(1, 9))
def test_shares_add_up_and_nothing_is_liker_than_the_same(
    tmp_path_factory: pytest.TempPathFactory, all_answers: list[dict[str, Answer]], limit: int
) -> None:
    with Book.open(tmp_path_factory.mktemp("like") / "book.sqlite3") as book:
        _fill(book, *[Case(damages=(Damage("posts", looks=(Look(answers),)),)) for answers in all_answers])
        here = all_answers[-1]
        hits = similar(book, "posts", here, limit=limit)
        assert len(hits) <= limit
        for hit in hits:
            assert hit.score == pytest.approx(sum(share.weight for share in (*hit.agrees, *hit.differs)))
            assert all(share.weight > 0 for share in hit.agrees)
            assert all(share.weight < 0 for share in hit.differs)
        assert [hit.score for hit in hits] == sorted((hit.score for hit in hits), reverse=True)
        same = [hit for hit in similar(book, "posts", here, limit=99) if hit.case == f"A-{len(all_answers)}"]
        if same:
            assert same[0].score == pytest.approx(hits[0].score)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("smooth", OneOf(frozenset({"smooth"}))),
        (["a", "b"], OneOf(frozenset({"a", "b"}))),
        ({"not": "a"}, OneOf(frozenset({"a"}), but=True)),
        ({"all": ["b", "a"]}, OneOf(frozenset({"a+b"}))),
        ("2", Size(2.0, count=True)),
        ("4.57mm", Size(4.57)),
        ({"value": "180", "unit": "thou"}, Size(4.572)),
        ("50 tpi", Size(0.508)),
        ("not_known", None),
        ("", None),
        ([], None),
        (["a", "not_known"], None),
        ({"value": "wide"}, None),
        ({"odd": "a"}, None),
    ],
)  # fmt: skip
def test_an_answer_as_typed_says_what_can_be_compared(typed: Answer, says: object) -> None:
    assert known(typed) == says
