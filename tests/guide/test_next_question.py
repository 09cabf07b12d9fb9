"""The next question: exactly those that can matter, in the order the bench allows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.next_question import next_questions
from casebook.guide.pack import STAGES
from casebook.guide.state import state_of
from casebook.strict_yaml import BrokenFile
from tests.guide.drawn import completions
from tests.guide.looks import Answers, looks
from tests.guide.shipped import Case, guide_of, panel
from tests.guide.tiny import guide_from, known, pack, question, random_packs, some_answers, strategy


def _worlds(
    guide: Guide, box: Sequence[int]
) -> Iterator[tuple[dict[str, int], tuple[str | None, list[str], list[str]]]]:
    """Give every full set of answers in a box that the pack allows, with what it comes to."""
    names = list(guide.questions)
    for world in completions([box[guide.space.by_name[name].index] for name in names]):
        settled = dict(zip(names, world, strict=True))
        answers = {n: m for n, m in settled.items() if m != guide.space.by_name[n].does_not_apply}
        state = state_of(guide, Knowledge(answers))
        if state.contradictions or any(
            state.box[guide.space.by_name[n].index] != m for n, m in settled.items()
        ):
            continue
        advice = advise(guide, Knowledge(answers))
        first = advice.first.id if advice.proposals and advice.first.standing == "fits" else None
        dangers = [w.id for w in (*advice.cautions, *advice.more_cautions) if w.level == "danger"]
        yield settled, (first, dangers, [stop.id for stop in advice.stops])


def _matter(guide: Guide, box: Sequence[int]) -> set[str]:
    """Name by trying everything the questions in which two worlds differ alone, but not in what they come to."""
    comes_to = {tuple(world.values()): said for world, said in _worlds(guide, box)}
    names = list(guide.questions)
    matter: set[str] = set()
    for one, said in comes_to.items():
        for other, said_there in comes_to.items():
            apart = [n for n, a, b in zip(names, one, other, strict=True) if a != b]
            if len(apart) == 1 and said != said_there:
                matter.add(apart[0])
    return matter


def _to_ask(guide: Guide, box: Sequence[int], names: set[str]) -> set[str]:
    """Put, for a question whose fact may not exist, the ones that its existence hangs on."""
    asked: set[str] = set()
    for name in names:
        applies = guide.applies.get(name)
        if applies is not None and applies.truth(box) is None:
            on = {guide.space.variables[v].name for v in applies.vars}
            asked |= _to_ask(guide, box, {n for n in on if box[guide.space.by_name[n].index].bit_count() > 1})
        else:
            asked.add(name)
    return asked


@settings(max_examples=400, deadline=None)
@given(random_packs(), st.data())
def test_exactly_what_matters_is_asked(body: str, data: st.DataObject) -> None:
    """On small packs they are those found by trying every pair of worlds, and those a leader still waits on."""
    try:
        guide = guide_from(body)
    except BrokenFile:
        assume(False)
    knowledge = data.draw(some_answers(guide))
    advice = advise(guide, knowledge)
    assume(not advice.contradictions)
    box = advice.trusted.box
    leading = {said[0] for _, said in _worlds(guide, box)}
    waited = {q for p in advice.proposals if p.id in leading and p.standing == "open" for q in p.waiting_on}
    asked = {one.question for one in next_questions(advice)}
    assert asked == _to_ask(guide, box, _matter(guide, box) | waited)


def _afresh(guide: Guide, knowledge: Knowledge) -> object:
    """What is asked by a guide that remembers nothing."""
    remembered, guide.remembered = guide.remembered, None
    try:
        return next_questions(advise(guide, knowledge))
    finally:
        guide.remembered = remembered


@settings(max_examples=200, deadline=None)
@given(random_packs(), st.data())
def test_what_is_remembered_changes_no_question(body: str, data: st.DataObject) -> None:
    """After any looks in any order, a guide asks what one would that remembers nothing of them."""
    try:
        guide = guide_from(body)
    except BrokenFile:
        assume(False)
    for _ in range(data.draw(st.integers(2, 6))):
        knowledge = data.draw(some_answers(guide))
        assert next_questions(advise(guide, knowledge)) == _afresh(guide, knowledge)


@settings(max_examples=60, deadline=None)
@given(looks())
def test_what_is_remembered_changes_no_question_of_a_shipped_pack(look: tuple[str, Answers]) -> None:
    """Answer by answer along a look, contradictions included, on a guide used by many looks before."""
    family, answers = look
    guide, knowledge = guide_of(family), Knowledge()
    for name, answer in answers.items():
        knowledge = knowledge.with_answer(name, answer)
        assert next_questions(advise(guide, knowledge)) == _afresh(guide, knowledge)


@pytest.mark.parametrize("case", [pytest.param(c, id=f"{c.family}: {c.name}") for c in panel()])
def test_stages_of_the_bench_come_in_order(case: Case) -> None:
    """Nothing is asked before what belongs to an earlier stage, unless answers disagree about it."""
    asked = next_questions(advise(guide_of(case.family), case.knowledge()))
    questions = guide_of(case.family).questions
    stages = [STAGES.index(questions[one.question].stage) for one in asked if not one.disputed]
    assert stages == sorted(stages)


CHOICE = pack(
    questions=[
        question("hole", ["sound", "worn"], stage="wood"),
        question("solder", ["none", "some"], stage="earlier_repair"),
        question("where", ["shank", "plate"], "asked_when: {solder: some}", stage="earlier_repair"),
        question("colour", ["black", "brown"], "for_the_record: yes", stage="intake"),
    ],
    strategies=[
        strategy("refit", "fits_when: [{hole: sound}]"),
        strategy("clean", "ends_look: cleaning\nfits_when: [{where: shank}]"),
        strategy("bush", "fits_when: [{hole: worn}]"),
    ],
)


def test_nothing_is_asked_that_would_change_nothing() -> None:
    """With the first proposal settled and no warning open there is no question, though not all is known."""
    guide = guide_from(CHOICE)
    assert next_questions(advise(guide, known(guide, hole="worn", solder="none"))) == ()


def test_what_tells_whether_a_fact_exists_is_asked_first() -> None:
    """Where the solder is, is asked only when it is known that there is some."""
    guide = guide_from(CHOICE)
    assert [q.question for q in next_questions(advise(guide, Knowledge()))] == ["solder", "hole"]
    some = advise(guide, known(guide, solder="some"))
    assert [q.question for q in next_questions(some)] == ["where", "hole"]


def test_a_question_says_what_it_settles() -> None:
    """Its reason counts the open strategies that an answer settles, of all that are open."""
    guide = guide_from(CHOICE)
    asked = {q.question: q for q in next_questions(advise(guide, known(guide, solder="none")))}
    assert (asked["hole"].settles, asked["hole"].at_best, asked["hole"].open) == (2.0, 2, 2)


def test_priors_weigh_what_a_question_settles() -> None:
    """With 'worn' called certain, only what that answer settles counts."""
    guide = guide_from(pack(
        questions=[question("hole", ["sound", "worn"]), question("mate", ["here", "gone"])],
        strategies=[
            strategy("refit", "fits_when: [{hole: sound, mate: here}]"),
            strategy("bush", "fits_when: [{hole: worn}, {mate: here}]"),
        ],
    ))  # fmt: skip
    advice = advise(guide, Knowledge())
    even = {q.question: q.settles for q in next_questions(advice)}
    sure = {q.question: q.settles for q in next_questions(advice, {"hole": [0.0, 1.0], "mate": [0.0, 1.0]})}
    assert even == {"hole": 1.0, "mate": 1.0}
    assert sure == {"hole": 1.0, "mate": 2.0}


def test_a_danger_that_hangs_on_not_knowing_is_asked_about() -> None:
    """A danger that is shown only while something is not known asks for it."""
    guide = guide_from(
        pack(
            questions=[question("cadmium", ["ruled_out", "there"], stage="hazards")],
            strategies=[strategy("braze", "fits_when: [{cadmium: [ruled_out, there]}]")],
            cautions="fume:\n  level: danger\n  text: Fume.\n  when: {not_known: cadmium}\n",
        )
    )
    assert [q.question for q in next_questions(advise(guide, Knowledge()))] == ["cadmium"]


def test_what_a_leader_waits_on_is_asked_though_it_can_only_be_one() -> None:
    """A hole called round must measure straight, or the answers disagree; it is measured before it is packed."""
    guide = guide_from(
        pack(
            questions=[
                question("hole", ["round", "coned"]),
                question("straight", ["yes_it_is", "no_it_is_not"]),
            ],
            contradictions="clash:\n  when: {hole: round, straight: no_it_is_not}\n  questions: [hole, straight]\n  because: so\n",
            strategies=[
                strategy("pack", "fits_when: [{hole: round, straight: yes_it_is}]"),
                strategy("leave", "on_call: yes\nfits_when: [{hole: [round, coned]}]"),
            ],
            ranking="- {scales: [original, hours], because: least lost first}\n",
        )
    )
    assert [q.question for q in next_questions(advise(guide, known(guide, hole="round")))] == ["straight"]


def test_findings_that_go_together_are_asked_about() -> None:
    """A size behind two findings that can only turn together still matters, though neither can turn alone."""
    sheet = "  worksheet: compare\n  check: at_most\n  inputs: {this: width}\n  settings: {other: 2 mm}\n"
    guide = guide_from(
        pack(
            questions=[question("width", [], "least: 1 mm\nmost: 9 mm", kind="length")],
            findings="".join(
                f"{id}:\n  name: {id}\n  'yes': little\n  'no': much\n{sheet}" for id in ("one", "two")
            ),
            never_together="- {one: 'yes', two: 'no'}\n- {one: 'no', two: 'yes'}\n",
            strategies=[
                strategy("pack", "fits_when: [{one: 'yes', two: 'yes'}]"),
                strategy("bush", "fits_when: [{one: 'no', two: 'no'}]"),
            ],
        )
    )
    (asked,) = next_questions(advise(guide, Knowledge()))
    assert (asked.question, asked.group) == ("width", "one")
    assert next_questions(advise(guide, known(guide, width="1.5 mm"))) == ()
