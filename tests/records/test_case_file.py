"""Case files: what is written reads back equal, and what is wrong is named with its line."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from casebook.records.case import Case, Damage, FollowUp, Look
from casebook.records.case_file import read, write
from casebook.strict_yaml import BrokenFile, Text
from tests.records.cases import PICCOLO, cases

FILE = """cases:
  - number: "B-0142"
    title: Low E post torn out
    taken_in: 2026-03-02
    finished: no
    instrument: {kind: clarinet, description: "B flat, modern"}
    answers: {owner_aim: play_daily}
    damages:
      - family: posts
        place: low E key, upper post
        answers: {post_shank: threaded_good, spring_in_post: no, left_open: }
        chosen: post_hidden_bushing
        hours: 2,5
        repaired_on: 2026-03-09
        outcome: {held: yes, looked: 2026-09-14}
"""


def _problem(text: str) -> str:
    with pytest.raises(BrokenFile) as caught:
        read(text, "book.yaml")
    return str(caught.value)


@settings(max_examples=120, deadline=None)
@given(cases)
def test_what_is_written_reads_back_equal(case: Case) -> None:
    assert read(write([case]), "again.yaml") == [case]


def test_a_case_told_in_full_reads_back_equal() -> None:
    assert read(write([PICCOLO]), "again.yaml") == [PICCOLO]


def test_short_forms_stand_for_one_look_and_one_follow_up() -> None:
    [case] = read(FILE, "book.yaml")
    damage = case.damages[0]
    assert damage.looks == (Look({"post_shank": "threaded_good", "spring_in_post": "no"}),)
    assert [f.held for f in damage.followups] == ["yes"]
    assert damage.hours == 2.5
    assert not case.finished


def test_an_answer_left_empty_counts_as_left_out() -> None:
    assert "left_open" not in read(FILE, "book.yaml")[0].damages[0].looks[0].answers


def test_texts_know_the_line_they_stand_on() -> None:
    damage = read(FILE, "book.yaml")[0].damages[0]
    answer = damage.looks[0].answers["post_shank"]
    assert isinstance(answer, Text)
    assert answer.line == 11
    assert damage.choice is not None
    assert isinstance(damage.choice.strategy, Text)
    assert damage.choice.strategy.line == 12


def test_damages_without_a_number_count_on_from_the_highest() -> None:
    text = "cases: [{damages: [{family: posts}, {family: posts, number: 4}, {family: cracks}]}]"
    assert [d.number for d in read(text, "f")[0].damages] == [1, 4, 5]


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("damages:", "damagse:", "book.yaml, line 8: unknown key damagse in a case; did you mean damages?"),
        ("place:", "colour:", "line 10: unknown key colour in a damage; known are: number, family, place"),
        ("2026-03-02", "2026-13-02", "line 4: taken_in: 2026-13-02 is no date: write it as 2026-03-09"),
        ("2026-03-02", "02.03.2026", "line 4: taken_in: 02.03.2026 is no date"),
        ("held: yes", "held: surely", "line 15: held: surely: write one of yes, no, not_known"),
        ("held: yes, ", "", "line 15: a follow-up needs the key held"),
        ("held: yes", "kind: fell_off", "line 15: kind: 'fell_off': write one of holding, let_go"),
        ("held: yes", "held: no, kind: holding", "damage 1: holding goes with held: yes, not no"),
        ("held: yes", "held: yes, what: glue", "what let go, and since when, goes with kind: let_go only"),
        ("held: yes", "held: no, what: bad luck", "line 15: what: 'bad luck': write one of glue, wood"),
        ("held: yes", "held: no, redo_hours: -1", "line 15: redo_hours: -1 is no number of hours"),
        ("hours: 2,5", "consents: [{said: perhaps}]", "line 13: said: 'perhaps': write one of yes, no, later"),
        ("hours: 2,5", "consents: [{who: her}]", "line 13: a consent needs the key said"),
        ("hours: 2,5", "consents: [{said: yes, up_to: -80}]", "line 13: up_to: '-80' is less than nothing"),
        ("hours: 2,5", "departures: [{why: x}]", "line 13: a departure needs the key planned"),
        ("finished: no", "pays: nobody", "line 5: pays: 'nobody': write one of owner, insurer"),
        ("finished: no", "paid: much", "line 5: paid: 'much' is no amount: type one number"),
        ("finished: no", "waits: [{for: luck}]", "line 5: for: 'luck': write one of owner, part, wood"),
        ("finished: no", "waits: [{for: glue, at: noon}]", "line 5: at: 'noon' is no time of day"),
        ("finished: no", "wood_readings: [{widths: 5 mm}]", "line 5: widths must be a list"),
        ("finished: no", "needed_by: soon", "line 5: needed_by: soon is no date"),
        ("Low E post torn out", "[a]", "line 3: title must be text"),
        ('"B-0142"', '"B 0142"', "line 2: number: 'B 0142' is no case number"),
        ("hours: 2,5", "hours: two", "line 13: hours: two is no number of hours: write 1.5"),
        ("hours: 2,5", "hours: -1", "line 13: hours: -1 is no number of hours"),
        ("hours: 2,5", "hours: 1e999", "line 13: hours: 1e999 is no number of hours"),
        ("chosen: post_hidden_bushing", "reason: because", "line 12: reason without chosen"),
        ("family: posts", "number: 1", "line 9: a damage needs the key family"),
        ("hours: 2,5", "looks: [{note: x}]", "line 13: give either answers or looks, not both"),
        ("hours: 2,5", "followups: [{held: no}]", "line 13: give either outcome or followups, not both"),
        ("hours: 2,5", "advice: '{\"a\": NaN}'", "line 13: advice holds no JSON"),
        ("hours: 2,5", "advice: '{'", "line 13: advice is not readable as JSON"),
        ("hours: 2,5", "number: 0", "line 13: number: 0 is no number from 1 up"),
        ("hours: 2,5", "steps: 7", "line 13: steps must be a list"),
        ("hours: 2,5", "steps: [{by: hk}]", "line 13: a step needs the key text"),
        ("hours: 2,5", "story: \"\\e[31m\"", "line 13: control character U+001B is not allowed"),
        ("{owner_aim: play_daily}", "[owner_aim]", "line 7: answers must be a mapping"),
        ("cases:", "case:", "line 1: unknown key case in the file; did you mean cases?"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_named_with_its_line(old: str, new: str, says: str) -> None:
    assert old in FILE
    assert says in _problem(FILE.replace(old, new))


def test_a_number_given_twice_is_refused_whatever_its_case() -> None:
    text = "cases:\n- number: a-1\n- number: A-1\n"
    assert _problem(text) == "book.yaml, line 3: number A-1 stands here twice (first on line 2)"


def test_an_empty_file_is_refused_with_the_key_it_lacks() -> None:
    assert _problem("") == "book.yaml: the file must be a mapping of: cases"


def test_the_latest_follow_up_is_the_outcome_whatever_the_order_written() -> None:
    early, late = PICCOLO.damages[0].followups
    damage = replace(PICCOLO.damages[0], followups=(late, early))
    assert damage.outcome == late
    assert replace(damage, followups=(late, FollowUp("yes"))).outcome == FollowUp("yes")
    assert Damage("posts").outcome is None
