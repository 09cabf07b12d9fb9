"""What would change it: with the answers or the dimension told, the strategy does fit, and not with less."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from casebook.guide.advice import Advice, advise
from casebook.guide.change import Change, Dimension, what_would_change
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.quantity import Reading
from casebook.strict_yaml import BrokenFile
from tests.guide.looks import Answers, knowing, looks
from tests.guide.shipped import guide_of, panel
from tests.guide.test_invariants import several
from tests.guide.tiny import guide_from, known, pack, question, random_packs, some_answers, strategy

GUIDE = guide_from(
    pack(
        questions=[
            question("hole", ["sound", "worn", "gone"]),
            question("shank", ["good", "bad"]),
            question("cover", [], "least: 1 mm\nmost: 9 mm", kind="length"),
            question("width", [], "least: 1 mm\nmost: 9 mm", kind="length"),
        ],
        findings=(
            "hidden:\n  name: hidden\n  'yes': the bushing is hidden\n  'no': the bushing shows\n"
            "  worksheet: compare\n  check: at_most\n  inputs: {this: width, other: cover}\n"
        ),
        strategies=[
            strategy("bush", "fits_when: [{hole: [worn, gone]}, {shank: good}, {hidden: 'yes'}]"),
            strategy("refit", "fits_when: [{hole: sound}]"),
            strategy("leave", "on_call: yes\nfits_when: [{hole: [sound, worn, gone]}]"),
        ],
    )
)


def _asked(guide: Guide, id: str, **answers: object) -> Change:
    change = what_would_change(advise(guide, known(guide, **answers)), id)
    assert change is not None
    return change


def test_the_fewest_answers_are_told() -> None:
    """One answer that is wrong is told alone, with the values that would do."""
    change = _asked(GUIDE, "bush", hole="sound", shank="good", cover="5 mm", width="4 mm")
    assert change.answers == {"hole": 0b110}
    assert change.says == "To bush: would fit with hole: worn or gone"


def test_what_is_only_not_known_yet_is_told_too() -> None:
    """For an open strategy the answers still wanted are told beside those that would have to be otherwise."""
    change = _asked(GUIDE, "bush", hole="worn", cover="5 mm", width="4 mm")
    assert change.says == "To bush: would fit with shank: good"


def test_a_dimension_is_told_from_the_worksheets_margin() -> None:
    """Cover 5 mm and a hole of 6 mm, each to 0.02 mm: hidden for certain at 4.96 mm, or under 6.04 mm of cover."""
    change = _asked(GUIDE, "bush", hole="worn", shank="good", cover="5 mm", width="6 mm")
    assert set(change.answers) == {"hidden"}
    assert change.dimensions == (
        Dimension("cover", Fraction("6.04"), "or more"),
        Dimension("width", Fraction("4.96"), "or less"),
    )
    assert change.says == "To bush: would fit with cover: 6.04 mm or more, or width: 4.96 mm or less"


def test_a_size_not_taken_yet_is_told_as_well() -> None:
    """Where only the hole is still to be measured, the size up to which the bushing is hidden is told."""
    change = _asked(GUIDE, "bush", hole="worn", shank="good", cover="5 mm")
    assert change.dimensions == (Dimension("width", Fraction("4.96"), "or less"),)


def test_what_fits_wants_no_change() -> None:
    """A strategy that fits is told nothing."""
    advice = advise(GUIDE, known(GUIDE, hole="sound"))
    assert what_would_change(advice, "refit") is None
    assert what_would_change(advice, "leave") is None


def test_the_hidden_bushing_of_the_shipped_pack_names_its_hole() -> None:
    """Of the panel's hidden bushings that would show, one is told the width of hole that would do, and it does."""
    guide = guide_of("posts")
    told = 0
    for case in panel():
        if case.family != "posts":
            continue
        advice = advise(guide, case.knowledge())
        change = what_would_change(advice, "post_hidden_bushing")
        for dimension in change.dimensions if change and set(change.answers) <= guide.findings.keys() else ():
            told += 1
            assert _standing(advice, "post_hidden_bushing", dimension, Fraction(0)) in ("fits", "disagree")
            outside = Fraction(1, 100) if dimension.side == "or less" else Fraction(-1, 100)
            assert _standing(advice, "post_hidden_bushing", dimension, outside) != "fits"
    assert told >= 3


def _standing(advice: Advice, id: str, dimension: Dimension, beyond: Fraction) -> str:
    """Give the standing with the size at its limit, or a little beyond."""
    knowledge = advice.trusted.knowledge
    value = dimension.limit + beyond
    before = knowledge.readings.get(
        dimension.question, Reading(Fraction(-2, 100), Fraction(0), Fraction(2, 100))
    )
    low, high = value - (before.value - before.low), value + (before.high - before.value)
    moved = before._replace(low=low, value=value, high=high)
    later = advise(advice.guide, knowledge.with_answer(dimension.question, moved))
    return "disagree" if later.contradictions else later.proposal(id).standing


def _told(guide: Guide, knowledge: Knowledge, change: Change, without: str | None = None) -> Advice:
    """Give the advice with the answers of a change given; what then cannot be is not known any more."""
    changed = [name for name in change.answers if name != without]
    hanging = set(changed)
    for name in guide.question_order:
        applies = guide.applies.get(name)
        if applies and any(guide.space.variables[var].name in hanging for var in applies.vars):
            hanging.add(name)
    later = knowledge.without(changed)
    for name in changed:
        absent = guide.space.by_name[name].does_not_apply
        later = later.with_answer(name, change.answers[name] & ~absent or absent)
    advice = advise(guide, later)
    clashing = {question for one in advice.contradictions for question in one.questions}
    return advise(guide, later.without(clashing & hanging - set(changed))) if clashing else advice


@settings(parent=several)
@given(looks(), st.data())
def test_answers_told_do_make_it_fit(drawn: tuple[str, Answers], data: st.DataObject) -> None:
    """On shipped packs, giving the answers told makes the strategy fit, unless they clash with others."""
    guide = guide_of(drawn[0])
    advice = advise(guide, knowing(drawn[1]))
    waiting = [p.id for p in advice.proposals if p.standing != "fits"]
    assume(waiting)
    id = data.draw(st.sampled_from(waiting))
    change = what_would_change(advice, id)
    assume(change is not None and set(change.answers) <= guide.questions.keys())
    assert change is not None
    later = _told(guide, advice.trusted.knowledge, change)
    assume(not later.contradictions)
    assert later.proposal(id).standing == "fits"


@settings(max_examples=200, deadline=None)
@given(random_packs(), st.data())
def test_answers_told_are_enough_and_none_is_spare(body: str, data: st.DataObject) -> None:
    """On random packs: all together the answers do, and with any one of them left out they do not."""
    try:
        guide = guide_from(body)
    except BrokenFile:
        assume(False)
    knowledge = data.draw(some_answers(guide))
    advice = advise(guide, knowledge)
    assume(not advice.contradictions)
    for proposal in advice.proposals:
        change = what_would_change(advice, proposal.id)
        if change is None or not set(change.answers) <= guide.questions.keys():
            continue
        later = _told(guide, knowledge, change)
        if later.contradictions:
            continue
        fits = later.proposal(proposal.id).standing == "fits"
        # What cuts waits until answers can no longer disagree, which is not among its own answers.
        assert fits or later.state.box[guide.space.by_name["answers_disagree"].index] != 0b10
        for name in change.answers:
            less = _told(guide, knowledge, change, without=name)
            assert less.proposal(proposal.id).standing != "fits" or less.contradictions, (proposal.id, name)
