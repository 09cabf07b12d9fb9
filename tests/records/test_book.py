"""A book gives back what was put in, piece by piece or whole, and refuses what it cannot keep."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casebook.records.book import Book
from casebook.records.case import (
    Answer,
    Case,
    Choice,
    Damage,
    FiguresUsed,
    FollowUp,
    Instrument,
    Look,
    Measured,
    StepDone,
)
from casebook.records.case_file import read
from casebook.records.check import BadCase
from casebook.records.errors import ChangedElsewhere, NoSuchCase, NumberTaken
from casebook.records.workshop import Visit
from casebook.safe_text import unsafe_character
from tests.records.cases import PICCOLO, cases, texts

SAME_BOOK = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def _as_given(stored: Case, given: Case) -> Case:
    """The given case with what the book adds."""
    instrument = replace(given.instrument, uid=given.instrument.uid or stored.instrument.uid)
    return replace(given, number=given.number or stored.number, uid=stored.uid, instrument=instrument)


@SAME_BOOK
@given(case=cases)
def test_any_case_is_given_back_equal(book: Book, case: Case) -> None:
    stored = book.add(case)
    assert stored == _as_given(stored, case)
    assert book.case(stored.number) == stored


@SAME_BOOK
@given(before=cases, after=cases)
def test_any_case_can_become_any_other(book: Book, before: Case, after: Case) -> None:
    stored = book.add(replace(before, damages=()))
    changed = book.update(replace(after, number=stored.number, version=stored.version))
    assert changed == replace(_as_given(changed, after), number=stored.number)
    assert changed.uid == stored.uid
    assert changed.instrument.uid == stored.instrument.uid


@SAME_BOOK
@given(question=texts.filter(str.strip), answer=texts)
def test_any_answer_is_kept_as_typed(book: Book, question: str, answer: str) -> None:
    number = book.add(PICCOLO_UNNUMBERED).number
    book.save_answer(number, 1, 2, question, answer)
    book.save_intake_answer(number, question, [answer])
    case = book.case(number)
    assert case.damage(1).looks[1].answers[question] == answer
    assert case.answers[question] == [answer]


PICCOLO_UNNUMBERED = replace(PICCOLO, number="")


def test_a_case_read_from_a_file_is_stored_as_it_reads(book: Book) -> None:
    [case] = read(
        "cases: [{number: B-7, title: x, damages: [{family: posts, answers: {a: {not: [b]}}}]}]", "f"
    )
    stored = book.add(case)
    assert stored == _as_given(stored, case)


def test_the_book_numbers_cases_and_passes_over_numbers_given_by_hand(book: Book) -> None:
    assert book.add(Case()).number == "C-0001"
    assert book.add(Case(number="c-0002")).number == "c-0002"
    assert book.add(Case()).number == "C-0003"


def test_the_number_of_a_removed_case_is_never_given_again(book: Book) -> None:
    first = book.add(Case(number="C-0001"))
    book.remove("C-0001")
    assert book.add(Case()).number == "C-0002"
    with pytest.raises(NumberTaken, match="C-0001 has been given to another case"):
        book.add(Case(number="C-0001"))
    assert book.add(first) == first, "the same case may come back under its own number"


def test_a_number_differs_by_more_than_capitals(book: Book) -> None:
    book.add(Case(number="B-1", title="first"))
    with pytest.raises(NumberTaken):
        book.add(Case(number="b-1"))
    assert book.case("b-1").title == "first"


def test_a_case_cannot_be_added_twice(book: Book) -> None:
    stored = book.add(Case(number="B-1"))
    with pytest.raises(NumberTaken, match="in the book already, as B-1"):
        book.add(replace(stored, number="B-2"))
    assert book.number_of(stored.uid) == "B-1"
    assert book.number_of("0" * 32) is None


def test_the_number_of_a_damage_taken_out_is_never_given_again(book: Book) -> None:
    stored = book.add(replace(PICCOLO, damages=(*PICCOLO.damages, Damage("cracks"))))
    assert [d.number for d in stored.damages] == [1, 2, 3]
    fewer = book.update(replace(stored, damages=stored.damages[:1]))
    assert book.add_damage(fewer.number, Damage("springs", number=2)) == 4
    again = book.case(fewer.number)
    with pytest.raises(NumberTaken, match="damage 2 was taken out"):
        book.update(replace(again, damages=(*again.damages, Damage("posts", number=2))))
    assert book.case(fewer.number) == again


def test_an_older_copy_of_a_case_does_not_overwrite_a_newer_one(book: Book) -> None:
    mine = book.add(PICCOLO)
    book.save_answer(mine.number, 1, 2, "post_leaks", "no")
    with pytest.raises(ChangedElsewhere, match="open it again"):
        book.update(replace(mine, title="mine"))
    assert book.case(mine.number).title == PICCOLO.title
    assert book.update(replace(mine, title="from a file", version=None)).title == "from a file"


def test_every_change_counts_the_version_up(book: Book) -> None:
    number = book.add(PICCOLO).number
    versions = [
        book.save_intake_answer(number, "age_class", "before_1850"),
        book.save_answer(number, 1, 1, "post_hole", None),
        book.choose(number, 2, Choice("pad_new")),
        book.record_work(number, 2, done="New pad."),
        book.follow_up(number, 2, FollowUp("yes")),
        book.finish(number),
    ]
    assert versions == [2, 3, 4, 5, 6, 7]
    assert book.case(number).version == 7


def test_an_answer_replaces_the_one_before_and_none_takes_it_away(book: Book) -> None:
    number = book.add(PICCOLO).number
    book.save_answer(number, 1, 1, "post_hole", {"not": ["coned_out"]})
    book.save_intake_answer(number, "owner_aim", None)
    book.save_intake_answer(number, "never_asked", None)
    case = book.case(number)
    assert case.damage(1).looks[0].answers["post_hole"] == {"not": ["coned_out"]}
    assert case.answers == {"owner_consent": "yes"}


def test_a_new_look_ends_the_one_before_and_begins_with_what_is_still_true(book: Book) -> None:
    number = book.add(PICCOLO).number
    kept = {"spring_in_post": "yes"}
    look = book.new_look(number, 1, ended_by="rested", taken=date(2025, 11, 20), note="dry", answers=kept)
    assert look == 3
    second, third = book.case(number).damage(1).looks[1:]
    assert second.ended_by == "rested"
    assert third == Look(kept, date(2025, 11, 20), "", "dry")


def test_a_choice_is_kept_with_the_advice_as_it_stood(book: Book) -> None:
    number = book.add(PICCOLO).number
    advice = {
        "version": "0.1.0",
        "packs": {"posts": "ab12"},
        "first": [{"id": "post_plug_rebore", "place": 1}],
    }
    figures = (FiguresUsed("plug", {"hole": "5.2mm+-0.05"}, {"figures": {"diameter": 5.4}}),)
    book.choose(number, 1, Choice("post_plug_rebore", date(2026, 1, 2), "no room", advice), figures)
    damage = book.case(number).damage(1)
    assert damage.choice == Choice("post_plug_rebore", date(2026, 1, 2), "no room", advice)
    assert damage.figures == figures
    book.choose(number, 1, None)
    assert book.case(number).damage(1).choice is None
    assert book.case(number).damage(1).figures == figures


def test_work_keeps_what_it_does_not_name(book: Book) -> None:
    number = book.add(PICCOLO).number
    steps = (StepDone("reamed", date(2026, 1, 3), "ab", 0.5), StepDone("glued"))
    book.record_work(number, 1, steps=steps, measured=(Measured("hole", "5.3 mm"),), hours=3.25)
    damage = book.case(number).damage(1)
    assert damage == replace(
        PICCOLO.damages[0], steps=steps, measured=(Measured("hole", "5.3 mm"),), hours=3.25
    )


def test_a_follow_up_comes_after_those_before(book: Book) -> None:
    number = book.add(PICCOLO).number
    book.follow_up(number, 1, FollowUp("yes", date(2026, 9, 1), note="holds since the redo"))
    assert [f.held for f in book.case(number).damage(1).followups] == ["yes", "no", "yes"]


def test_the_list_has_the_latest_first_and_tells_open_from_finished(book: Book) -> None:
    for number, day, finished in (("A-1", 3, True), ("A-2", 9, False), ("A-3", 6, False)):
        book.add(replace(PICCOLO, number=number, uid="", taken_in=date(2026, 1, day), finished=finished))
    book.add(Case(number="A-4"))
    assert [row.number for row in book.cases()] == ["A-2", "A-3", "A-1", "A-4"]
    assert [row.number for row in book.cases(1, finished=False)] == ["A-2"]
    [row] = book.cases(finished=True)
    assert (row.number, row.instrument, row.state) == ("A-1", "piccolo, conical, B♭ band size", "finished")
    assert (book.count(), book.count(finished=True)) == (4, 1)


def test_the_visits_of_one_instrument_are_given_in_order(book: Book) -> None:
    thing = Instrument("flute", uid="ab" * 16)
    for title, day in (("third", None), ("second", date(2026, 5, 1)), ("first", date(2025, 5, 1))):
        book.add(Case(title=title, taken_in=day, instrument=thing))
    book.add(Case(title="another"))
    assert [case.title for case in book.visits(thing.uid)] == ["first", "second", "third"]
    assert book.visits("00" * 16) == []


def test_the_instruments_are_listed_by_their_last_visit(book: Book) -> None:
    """Each once, with the owner who brought it last and what it came for; one without a day stands last."""
    flute, oboe = Instrument("flute", "conical", uid="ab" * 16), Instrument("oboe", uid="cd" * 16)
    for number, thing, day, owner in (
        ("A-1", flute, date(2026, 5, 1), "card 2"),
        ("A-2", oboe, date(2026, 3, 1), ""),
        ("A-3", flute, None, "card 1"),
        ("A-4", flute, date(2025, 5, 1), "card 1"),
        ("A-5", Instrument("bassoon"), None, ""),
    ):
        book.add(Case(number=number, title=f"for {number}", instrument=thing, taken_in=day, owner=owner))
    rows = book.instruments()
    assert [(row.instrument.kind, row.owner, row.last) for row in rows] == [
        ("flute", "card 2", date(2026, 5, 1)), ("oboe", "", date(2026, 3, 1)), ("bassoon", "", None)
    ]  # fmt: skip
    assert rows[0].cases == ("A-3", "A-4", "A-1")
    assert rows[0].titles == ("for A-3", "for A-4", "for A-1")
    assert rows[0].instrument == flute


def test_a_change_is_made_whole_or_not_at_all(book: Book) -> None:
    """Nobody's edit comes in between, and what cannot be kept leaves the case as it was."""
    stored = book.add(PICCOLO)
    with pytest.raises(BadCase, match="no amount"):
        book.change(stored.number, lambda case: replace(case, visit=Visit(paid="much")))
    assert book.case(stored.number) == stored
    changed = book.change(stored.number, lambda case: replace(case, waits=(), number="X-1", uid="0" * 32))
    assert changed == replace(stored, waits=())
    assert book.case(stored.number) == changed


def test_how_urgent_it_is_is_one_of_three_words(book: Book) -> None:
    """And the price of the materials an amount; anything else is refused, and nothing is kept."""
    with pytest.raises(BadCase, match="urgency 'soon': write one of must, should, can_wait"):
        book.add(Case(damages=(Damage("posts", urgency="soon"),)))
    with pytest.raises(BadCase, match="'some' is no amount"):
        book.add(Case(visit=Visit(materials_price="some")))
    assert book.count() == 0
    kept = book.add(Case(damages=(Damage("posts", urgency="can_wait"),), visit=Visit(materials_price="9,50")))
    assert (kept.damages[0].urgency, kept.visit.materials_price) == ("can_wait", "9,50")
    assert book.case(kept.number) == kept


def test_cases_are_given_by_family(book: Book) -> None:
    book.add(PICCOLO)
    book.add(Case(number="A-1", damages=(Damage("cracks"),)))
    assert [case.number for case in book.every_case()] == ["B-0207", "A-1"]
    assert [case.number for case in book.every_case(family="cracks")] == ["A-1"]


def test_an_instrument_is_known_across_visits(book: Book) -> None:
    first = book.add(PICCOLO)
    told = replace(first.instrument, marks="three stars")
    second = book.add(Case(instrument=told))
    assert second.instrument.uid == first.instrument.uid
    assert book.case(first.number).instrument.marks == "three stars"


def test_a_pack_is_kept_once_and_shown_as_it_was(book: Book) -> None:
    book.keep_pack("ab12", "posts", "1", "id: posts\n")
    book.keep_pack("ab12", "posts", "1", "id: posts\n")
    assert book.pack_text("ab12") == "id: posts\n"
    assert book.pack_text("none") is None


@pytest.mark.parametrize(
    ("question", "answer"), [("\x1b", "a"), (" ", "a"), ("a", "\x00"), ("a", ["b", "\ud800"])]
)
def test_an_answer_that_cannot_be_kept_is_refused(book: Book, question: str, answer: Answer) -> None:
    number = book.add(PICCOLO).number
    with pytest.raises(BadCase):
        book.save_answer(number, 1, 1, question, answer)
    with pytest.raises(BadCase):
        book.save_intake_answer(number, question, answer)
    assert book.case(number).version == 1


def test_a_number_nobody_can_have_is_in_no_book(book: Book) -> None:
    for number in ("", "\x00", "\ud800", "x" * 10_000, "' OR 1=1 --"):
        with pytest.raises(NoSuchCase):
            book.case(number)


def test_what_is_not_there_is_named(book: Book) -> None:
    number = book.add(PICCOLO).number
    asked: dict[str, Callable[[], object]] = {
        "there is no case X-1 in this book": lambda: book.case("X-1"),
        "case B-0207 has no damage 7": lambda: book.save_answer(number, 7, 1, "a", "b"),
        "case B-0207, damage 1 has no look 9": lambda: book.save_answer(number, 1, 9, "a", "b"),
        "there is no case B-9 in this book": lambda: book.update(Case(number="B-9")),
        "there is no case  in this book": lambda: book.update(Case()),
        "there is no case B-8 in this book": lambda: book.remove("B-8"),
        "case B-0207 has no damage 8": lambda: book.record_work(number, 8, done="x"),
    }
    for says, ask in asked.items():
        with pytest.raises(NoSuchCase) as caught:
            ask()
        assert says in str(caught.value)


@pytest.mark.parametrize(
    ("case", "says"),
    [
        (Case(title="\x1b[31m"), "title: control character U+001B"),
        (Case(title="a\x00b"), "title: control character U+0000"),
        (Case(owner_words="\u202e"), "owner words: control character U+202E"),
        (Case(number="no spaces"), "number: 'no spaces' is no case number"),
        (Case(uid="7"), "uid: must be 32"),
        (Case(answers={"a": 7}),  # type: ignore[dict-item]
         "answers: a: an answer is text, a list or a mapping, not int"),
        (Case(answers={"a": ["\x07"]}), "answers: a: control character U+0007"),
        (Case(answers={" ": "x"}), "answers: a question id is empty"),
        (Case(damages=(Damage(""),)), "damage 1: family is missing"),
        (Case(damages=(Damage("a", 2), Damage("a", 2))), "damage 2: this number is given twice"),
        (Case(damages=(Damage("a", looks=()),)), "damage 1: at least one look is needed"),
        (Case(damages=(Damage("a", hours=-1),)), "hours: -1 is no number of hours"),
        (Case(damages=(Damage("a", hours=float("nan")),)), "hours: nan is no number of hours"),
        (Case(damages=(Damage("a", choice=Choice("")),)), "damage 1: chosen is empty"),
        (Case(damages=(Damage("a", choice=Choice("b", advice={1: 2})),)), "advice: key 1 is no text"),
        (Case(damages=(Damage("a", choice=Choice("b", advice={"x": ["\x1b"]})),)), "advice: control"),
        (Case(damages=(Damage("a", followups=(FollowUp("surely"),)),)), "held is yes, no or not_known"),  # type: ignore[arg-type]
        (Case(damages=(Damage("a", steps=(StepDone(""),)),)), "damage 1: a step has no text"),
    ],
)  # fmt: skip
def test_what_cannot_be_kept_is_refused_and_nothing_is_stored(book: Book, case: Case, says: str) -> None:
    with pytest.raises(BadCase) as caught:
        book.add(case)
    assert says in str(caught.value)
    assert book.count() == 0


@SAME_BOOK
@given(text=st.text(max_size=30))
def test_any_text_at_all_is_kept_as_typed_or_refused(book: Book, text: str) -> None:
    if unsafe_character(text):
        with pytest.raises(BadCase, match="control character"):
            book.add(Case(title=text))
    else:
        assert book.case(book.add(Case(title=text)).number).title == text
