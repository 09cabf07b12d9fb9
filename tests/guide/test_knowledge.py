"""Answers in every form an answers file allows, and what is still possible after them."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import read_answers
from casebook.guide.state import state_of, trusted_state
from casebook.strict_yaml import BrokenFile, parse
from tests.guide.tiny import guide_from, known, pack, question, strategy

GUIDE = guide_from(
    pack(
        questions=[
            question("solder", ["none", "soft", "hard"], "was: [old_solder]\nanswers_were: {lead: soft}"),
            question(
                "where", ["shank", "wood", "hinge"], "asked_when: {solder: {not: none}}", kind="several"
            ),
            question("glue", ["no_glue", "shellac", "epoxy"], "alone: [no_glue]", kind="several"),
            question("spring", [], kind="yes_no"),
            question("threads", [], "least: 0\nmost: 20", kind="count"),
            question("hole", [], "least: 0.5 mm\nmost: 20 mm", kind="length"),
            question("depth", [], "least: 1 mm\nmost: 20 mm\nasked_when: {solder: none}", kind="length"),
        ],
        strategies=[
            strategy("refit", "fits_when: [{solder: none}]"),
            strategy("clean", "fits_when: [{where: shank}]"),
        ],
    )
)


def _left(guide: Guide, name: str, **answers: Any) -> set[str]:
    """Name what is still possible for a question, combinations joined by a plus."""
    variable = guide.space.by_name[name]
    box = state_of(guide, known(guide, **answers)).box
    return {"+".join(sorted(value)) for value in variable.among(box[variable.index])}


def _read(text: str) -> Any:
    return read_answers(GUIDE, parse(text, "answers.yaml"), "answers.yaml")[0]


FORMS = {
    "a choice": ("solder", "soft", {"soft"}),
    "anything but one": ("solder", {"not": "none"}, {"soft", "hard"}),
    "anything but these": ("solder", {"not": ["none", "soft"]}, {"hard"}),
    "one of these": ("solder", ["soft", "hard"], {"soft", "hard"}),
    "both and no other": ("glue", {"all": ["shellac", "epoxy"]}, {"epoxy+shellac"}),
    "one of several alone": ("glue", "epoxy", {"epoxy"}),
    "none of several": ("glue", {"not": ["no_glue", "shellac"]}, {"epoxy"}),
    "some of several": ("glue", ["shellac", "epoxy"], {"shellac", "epoxy", "epoxy+shellac"}),
    "not known": ("solder", "not_known", {"none", "soft", "hard"}),
    "an answer under its former name": ("solder", "lead", {"soft"}),
}


@pytest.mark.parametrize(("name", "answer", "left"), FORMS.values(), ids=FORMS.keys())
def test_every_form_of_a_choice_is_read(name: str, answer: object, left: set[str]) -> None:
    """A choice may be given whole, in part, by what it is not, or as several that hold together."""
    assert _left(GUIDE, name, **{name: answer}) == left


@pytest.mark.parametrize("written", ["yes", "'yes'", '"yes"'])
def test_yes_is_yes_quoted_or_not(written: str) -> None:
    """YAML's own idea of yes and no plays no part."""
    assert _read(f"spring: {written}").masks == {"spring": 0b01}


SIZES = {
    "0.190 in": Fraction("4.826"), '.190"': Fraction("4.826"), "190 thou": Fraction("4.826"),
    "4.83 mm": Fraction("4.83"), "4,83 mm": Fraction("4.83"), "3/16": Fraction("4.7625"),
    "{value: 5.2, unit: mm, error: 0.05}": Fraction("5.2"), "{value: 150, unit: thou}": Fraction("3.81"),
}  # fmt: skip


@pytest.mark.parametrize(("written", "mm"), SIZES.items())
def test_every_form_of_a_length_is_read(written: str, mm: Fraction) -> None:
    """Lengths in inches, thousandths, fractions and millimetres become exact millimetres (1 in = 25.4 mm)."""
    quoted = written if written.startswith("{") else f"'{written}'"
    assert _read(f"hole: {quoted}").readings["hole"].value == mm


@pytest.mark.parametrize(
    ("typed", "doubt"),
    [("48 tpi", "0"), ("3-48", "0"), ("M2.5", "0"), ("0.53 mm", "0.02"), ("7 crests over 3.2 mm", "0.02/6")],
)
def test_a_pitch_by_its_name_is_exact(typed: str, doubt: str) -> None:
    """A designation carries no reading error; a pitch that was measured does, shared among the crests."""
    guide = guide_from(
        pack(
            questions=[
                question("pitch", [], "of: thread_pitch\nleast: 0.2 mm\nmost: 2 mm", kind="length"),
                question("hole", ["sound", "worn"]),
            ],
            strategies=[strategy("refit", "fits_when: [{hole: sound}]")],
        )
    )
    reading = known(guide, pitch=typed).readings["pitch"]
    error, _, parts = doubt.partition("/")
    assert reading.high - reading.value == Fraction(error) / int(parts or 1)


def test_a_stated_error_takes_the_place_of_the_usual_one() -> None:
    """With error 0.05 the true size lies within 0.05 mm; without one, within 0.02 mm (common practice)."""
    stated = _read("hole: {value: 5.2, unit: mm, error: 0.05}").readings["hole"]
    usual = _read("hole: 5.2 mm").readings["hole"]
    assert (stated.low, stated.high) == (Fraction("5.15"), Fraction("5.25"))
    assert (usual.low, usual.high) == (Fraction("5.18"), Fraction("5.22"))


def test_a_question_under_its_former_name_is_read() -> None:
    """Old cases still read: `was` maps an id when it is read."""
    assert _read("old_solder: soft") == _read("solder: soft")


REFUSED = {
    "an unknown question": ("soldr: soft", "did you mean solder?"),
    "an unknown answer": ("solder: softt", "did you mean soft?"),
    "anything but all": ("solder: {not: [none, soft, hard]}", "no answer is left"),
    "an empty list": ("solder: []", "no answer is left"),
    "two of a choice": ("solder: {all: [soft, hard]}", "soft and hard cannot hold together"),
    "what excludes each other": ("glue: {all: [no_glue, epoxy]}", "no_glue and epoxy cannot hold together"),
    "a length without unit": ("hole: 5.2", "hole"),
    "a length out of sense": ("hole: 52 mm", "makes no sense here (sensible: 0.5 mm to 20 mm)"),
    "a count with a unit": ("threads: 2 mm", "threads"),
    "a count out of sense": ("threads: 21", "sensible: 0 to 20"),
    "a word as a length": ("hole: wide", "hole"),
    "a length as a choice": ("solder: 3 mm", "unknown answer '3 mm'"),
    "a wrong form": ("solder: {only: soft}", "an answer id, a list of them, not: or all: is wanted"),
    "the same question twice": ("old_solder: soft\nsolder: hard", "old_solder is called solder now"),
    "a list": ("- solder", "a mapping of question ids to answers is wanted"),
}  # fmt: skip


@pytest.mark.parametrize(("text", "said"), REFUSED.values(), ids=REFUSED.keys())
def test_senseless_answers_are_refused_in_one_line(text: str, said: str) -> None:
    """The line names file, line and what to do."""
    with pytest.raises(BrokenFile) as refused:
        _read(text)
    message = str(refused.value)
    assert said in message
    assert message.startswith("answers.yaml, line 1: ")
    assert "\n" not in message


def test_what_is_unknown_can_be_kept_aside() -> None:
    """Taken over from elsewhere, unknown ids and answers are left out and named, and the rest is read."""
    node = parse("soldr: soft\nsolder: softt\nspring: yes", "answers.yaml")
    knowledge, left_out = read_answers(GUIDE, node, "answers.yaml", strict=False)
    assert knowledge.masks == {"spring": 0b01}
    assert set(left_out) == {"soldr", "solder"}


def test_what_cannot_exist_does_not_apply() -> None:
    """Where there is no solder, where it is does not apply; where there is some, it does."""
    assert _left(GUIDE, "where", solder="none") == {"does_not_apply"}
    assert "does_not_apply" not in _left(GUIDE, "where", solder="soft")
    assert "does_not_apply" in _left(GUIDE, "where")


def test_an_answer_that_cannot_be_is_a_contradiction_and_counts_as_not_known() -> None:
    """No solder, but on the shank: both are doubted, neither decides, and the words name both."""
    state = state_of(GUIDE, known(GUIDE, solder="none", where="shank"))
    assert [set(one.questions) for one in state.contradictions] == [{"solder", "where"}]
    assert "does not go with" in state.contradictions[0].because
    trusted = trusted_state(GUIDE, state)
    assert trusted.box == state_of(GUIDE, known(GUIDE)).box
    standings = {
        p.id: p.standing for p in advise(GUIDE, known(GUIDE, solder="none", where="shank")).proposals
    }
    assert standings == {"refit": "open", "clean": "open"}


def test_a_size_of_what_cannot_exist_is_a_contradiction() -> None:
    """A depth measured where the question of it does not arise disagrees with the answer that says so."""
    state = state_of(GUIDE, known(GUIDE, solder="hard", depth="5 mm"))
    assert [set(one.questions) for one in state.contradictions] == [{"solder", "depth"}]


@given(st.sets(st.sampled_from(["none", "soft", "hard"]), min_size=1), st.data())
def test_answers_only_ever_narrow(first: set[str], data: st.DataObject) -> None:
    """Of a vague answer and a finer one within it, the finer leaves a part of what the vague one leaves."""
    finer = data.draw(st.sets(st.sampled_from(sorted(first)), min_size=1))
    assert _left(GUIDE, "where", solder=sorted(finer)) <= _left(GUIDE, "where", solder=sorted(first))
    assert _left(GUIDE, "solder", solder=sorted(finer)) == finer
