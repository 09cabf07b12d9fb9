"""Packs are proved: what is planted is found, with its place and nothing said too much; what is sound is clean."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings

from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.proof import STEPS, Verdict, prove
from casebook.guide.search import Budget, find_box
from casebook.guide.state import state_of
from casebook.guide.worlds import demands_of, fit_demands, unfit_demand
from casebook.strict_yaml import BrokenFile
from tests.guide.drawn import completions
from tests.guide.shipped import families, guide_of
from tests.guide.solver import solvable
from tests.guide.tiny import FILE, HEAD, guide_from, known, pack, question, random_packs, strategy

QUESTIONS = [question("hole", ["sound", "worn", "gone"]), question("shank", ["good", "bad"])]
SLACK = (
    "slack:\n  name: slack\n  'yes': little\n  'no': much\n  worksheet: compare\n  check: at_most\n"
    "  inputs: {this: width, other: shank_width}\n  settings: {by: 0.2 mm}\n"
    "looseness:\n  name: looseness\n  'yes': loose\n  'no': firm\n  worksheet: compare\n  check: at_least\n"
    "  inputs: {this: width, other: shank_width}\n  settings: {by: 0.1 mm}\n"
)
SIZES = [
    question("width", [], "least: 1 mm\nmost: 9 mm", kind="length"),
    question("shank_width", [], "least: 1 mm\nmost: 9 mm", kind="length"),
]


def _only(verdicts: list[Verdict]) -> Verdict:
    assert len(verdicts) == 1, verdicts
    return verdicts[0]


def _line(body: str, what: str) -> int:
    return (HEAD + body[: body.index(what)]).count("\n") + 1


def _sound(*more: str) -> list[str]:
    return [
        strategy("refit", "fits_when: [{hole: sound, shank: good}]"),
        strategy("bush", "fits_when: [{hole: worn, shank: good}]"),
        strategy("plug", "fits_when: [{hole: gone, shank: good}]"),
        strategy("turn", "fits_when: [{shank: bad}]"),
        *more,
    ]


def test_a_sound_pack_proves_clean() -> None:
    """Where every answer has a way and every way an answer, there is nothing to say."""
    assert prove(guide_from(pack(questions=QUESTIONS, strategies=_sound()))) == []


@pytest.mark.parametrize("family", families())
def test_every_shipped_pack_is_proved(family: str) -> None:
    """No dead end, nothing out of reach, nothing that cannot fire or matter, in any pack that ships."""
    assert [verdict for verdict in prove(guide_of(family)) if verdict.kind == "wrong"] == []


def test_a_dead_end_is_found_with_the_answers_that_lead_there() -> None:
    """A worn hole with a good shank has no way out, and just those two answers are named."""
    body = pack(questions=QUESTIONS, strategies=[one for one in _sound() if "bush" not in one])
    verdict = _only(prove(guide_from(body)))
    assert (verdict.kind, verdict.at.file) == ("wrong", FILE)
    assert "dead end" in verdict.says
    assert set(verdict.answers) == {"hole: worn", "shank: good"}


def test_a_dead_end_in_numbers_is_shown_by_numbers() -> None:
    """Where only a finding leads to the dead end, sizes that the worksheet confirms are given for it."""
    body = pack(
        questions=[*SIZES],
        findings=SLACK.split("looseness")[0],
        strategies=[strategy("pack", "fits_when: [{slack: 'yes'}]")],
    )
    (answer,) = _only(prove(guide_from(body))).answers
    assert answer.startswith("slack: much (for example ")


def test_numbers_that_cannot_be_are_no_dead_end() -> None:
    """Neither little slack nor loose would be a dead end in logic; no size is both over 0.2 and under 0.1 mm."""
    body = pack(
        questions=[*SIZES],
        findings=SLACK,
        strategies=[
            strategy("pack", "fits_when: [{slack: 'yes'}]"),
            strategy("bush", "fits_when: [{looseness: 'yes'}]"),
        ],
    )
    assert [verdict.kind for verdict in prove(guide_from(body))] == ["not_settled"]
    declared = body + "never_together:\n  - {slack: 'no', looseness: 'no'}\n"
    assert prove(guide_from(declared)) == []


def test_a_false_never_together_is_found() -> None:
    """Little slack and loose do come together, with 0.15 mm for one; the declaration is called untrue."""
    body = pack(
        questions=[*SIZES],
        findings=SLACK,
        strategies=[
            strategy("pack", "fits_when: [{slack: 'yes'}]"),
            strategy("bush", "fits_when: [{slack: 'no'}]"),
        ],
        never_together="- {slack: 'yes', looseness: 'yes'}\n",
    )
    wrong = [v for v in prove(guide_from(body)) if v.says.startswith("never_together is not true")]
    assert _only(wrong).at.line == _line(body, "- {slack: 'yes', looseness")
    assert "width" in wrong[0].says


PLANTED = {
    "a strategy out of reach": (
        "strategies", strategy("both", "fits_when: [{hole: sound}, {hole: worn}]"), "both:", "both can never fit: its conditions exclude each other"
    ),
    "a not_when that never holds": (
        "strategies", strategy("odd", "fits_when: [{shank: bad}]\nnot_when: [{all: [{hole: sound}, {hole: worn}]}]"),
        "not_when", "odd: this not_when can never apply",
    ),
    "a caution that never fires": (
        "cautions", "hot:\n  level: danger\n  text: Hot.\n  when: {all: [{hole: sound}, {hole: gone}]}\n", "hot:",
        "hot can never apply",
    ),
    "a caution of work nobody does": (
        "cautions", "fume:\n  level: danger\n  text: Fume.\n  involves: [brazing]\n", "fume:",
        "fume: no strategy involves brazing, it can never apply",
    ),
    "a stop that never holds": (
        "stops", "halt:\n  says: Halt.\n  do: Ask.\n  when: {all: [{hole: sound}, {hole: gone}]}\n", "halt:",
        "halt can never apply",
    ),
    "a contradiction that never is": (
        "contradictions",
        "clash:\n  when: {all: [{hole: sound}, {hole: gone}]}\n  questions: [hole]\n  because: so\n", "clash:",
        "clash can never apply",
    ),
    "a question that cannot matter": (
        "questions", question("colour", ["black", "brown"]), "colour:",
        "colour can never matter: give it a rule, or for_the_record: yes",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("kind", "planted", "where", "says"), PLANTED.values(), ids=PLANTED.keys())
def test_what_is_planted_is_found_at_its_line(kind: str, planted: str, where: str, says: str) -> None:
    """Each fault is called wrong, by its id and at its own line."""
    parts = {"questions": "".join(QUESTIONS), "strategies": "".join(_sound())}
    body = pack(**{**parts, kind: parts.get(kind, "") + planted})
    told = {verdict.says: verdict for verdict in prove(guide_from(body))}
    assert says in told, told
    assert told[says].kind == "wrong"
    assert told[says].at.line == _line(body, where)


def test_a_question_for_the_record_need_not_matter() -> None:
    """Marked so, a question that no rule asks for is no fault."""
    colour = question("colour", ["black", "brown"], "for_the_record: yes")
    assert prove(guide_from(pack(questions=[*QUESTIONS, colour], strategies=_sound()))) == []


def test_a_tiny_budget_settles_nothing_and_says_so() -> None:
    """With a single step for each search nothing is called wrong, and nothing is called proved."""
    body = pack(questions=QUESTIONS, strategies=[one for one in _sound() if "bush" not in one])
    verdicts = prove(guide_from(body), steps=0)
    assert verdicts
    assert {verdict.kind for verdict in verdicts} == {"not_settled"}


def _dead_worlds(guide: Guide) -> list[dict[str, int]]:
    """Try every full set of answers the pack allows; give those with which nothing fits."""
    names = list(guide.questions)
    dead = []
    for world in completions([guide.space.by_name[name].full for name in names]):
        settled = dict(zip(names, world, strict=True))
        answers = {n: m for n, m in settled.items() if m != guide.space.by_name[n].does_not_apply}
        state = state_of(guide, Knowledge(answers))
        if any(state.box[guide.space.by_name[n].index] != m for n, m in settled.items()):
            continue
        if state.contradictions:
            continue
        if all(p.standing != "fits" for p in advise(guide, Knowledge(answers)).proposals):
            dead.append(settled)
    return dead


@settings(max_examples=100, deadline=None)
@given(random_packs())
def test_dead_ends_and_reach_are_what_trying_everything_says(body: str) -> None:
    """On random packs: a dead end is told exactly when there is one, and its answers lead only to dead ends."""
    try:
        guide = guide_from(body)
    except BrokenFile:
        assume(False)
    told = [verdict for verdict in prove(guide) if verdict.says.startswith("a dead end: with")]
    dead = _dead_worlds(guide)
    assert bool(told) is bool(dead)
    if told:
        answers = dict(answer.split(": ") for answer in told[0].answers)
        labels = {n: answers[n].replace("does not apply", "does_not_apply").split(" or ") for n in answers}
        assert _all_dead(guide, labels)
        for dropped in labels:
            assert not _all_dead(guide, {n: words for n, words in labels.items() if n != dropped}), dropped


def _agrees_with_solver(guide: Guide) -> None:
    """Compare what proof rests on, reach of every strategy and a world in which nothing fits, with CaDiCaL."""
    full = guide.space.full_box()
    worlds = demands_of(guide)
    asked = [[*worlds, *fit_demands(guide, ruled)] for ruled in guide.strategies.values()]
    asked.append([*worlds, *(unfit_demand(guide, ruled) for ruled in guide.strategies.values())])
    for demands in asked:
        assert (find_box(full, demands, Budget(STEPS)) is not None) is solvable(full, demands)


@settings(max_examples=300, deadline=None)
@given(random_packs())
def test_an_independent_solver_agrees_on_random_packs(body: str) -> None:
    """python-sat comes to the same verdict on what a random pack can and cannot reach."""
    try:
        guide = guide_from(body)
    except BrokenFile:
        assume(False)
    _agrees_with_solver(guide)


@pytest.mark.parametrize("family", families())
def test_an_independent_solver_agrees_on_shipped_packs(family: str) -> None:
    """python-sat comes to the same verdict on what every shipped pack can and cannot reach."""
    _agrees_with_solver(guide_of(family))


def _all_dead(guide: Guide, answers: dict[str, list[str]]) -> bool:
    """Whether no state of the world with these answers, free of contradictions, has anything that fits."""
    masks = {n: guide.space.by_name[n].having(words) for n, words in answers.items()}
    names = list(guide.questions)
    for world in completions([masks.get(n, guide.space.by_name[n].full) for n in names]):
        settled = dict(zip(names, world, strict=True))
        given_answers = {n: m for n, m in settled.items() if m != guide.space.by_name[n].does_not_apply}
        state = state_of(guide, Knowledge(given_answers))
        if state.contradictions or any(
            state.box[guide.space.by_name[n].index] != m for n, m in settled.items()
        ):
            continue
        if any(p.standing == "fits" for p in advise(guide, Knowledge(given_answers)).proposals):
            return False
    return True


def test_a_dead_end_while_answers_disagree_is_found() -> None:
    """Where a contradiction leaves nothing that fits, it is named at its line; what is on call then lifts it."""
    clash = "clash:\n  when: {hole: gone, shank: bad}\n  questions: [hole, shank]\n  because: so\n"
    body = pack(questions=QUESTIONS, strategies=_sound(), contradictions=clash)
    verdict = _only(prove(guide_from(body)))
    assert verdict.says == "a dead end: while clash stands nothing fits"
    assert verdict.at.line == _line(body, "clash:")
    again = strategy("again", "on_call: yes\nends_look: measuring\nfits_when: [{answers_disagree: 'yes'}]")
    assert prove(guide_from(pack(questions=QUESTIONS, strategies=_sound(again), contradictions=clash))) == []


def test_known_answers_are_worded_by_their_labels() -> None:
    """The answers of a dead end are told in the pack's own words."""
    guide = guide_from(pack(questions=QUESTIONS, strategies=_sound()[:1]))
    verdict = _only([v for v in prove(guide) if "dead end" in v.says])
    assert len(verdict.answers) == 1
    assert advise(guide, known(guide, hole="worn")).proposal("refit").standing == "ruled_out"
