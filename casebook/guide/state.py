"""Where a look stands: what is possible for every question and finding, and what does not agree."""

from __future__ import annotations

from dataclasses import dataclass

from casebook.guide.findings import Found, find_all
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Clash, Knowledge, possible, shown
from casebook.guide.space import ANSWERS_DISAGREE

_YES, _NO = 0b01, 0b10


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Answers that cannot all be right; `id` names the pack's rule, or the guide's own check."""

    id: str
    questions: tuple[str, ...]
    because: str


@dataclass(frozen=True, slots=True)
class State:
    """What follows from one look's knowledge.

    Attributes:
        knowledge: the answers it was made from.
        box: what is possible, per variable.
        found: the findings.
        contradictions: what does not agree.
    """

    knowledge: Knowledge
    box: list[int]
    found: dict[str, Found]
    contradictions: tuple[Contradiction, ...]


def state_of(guide: Guide, knowledge: Knowledge) -> State:
    """Work out the state of a look."""
    box, clashes = possible(guide, knowledge)
    found, more = find_all(guide, knowledge, box)
    contradictions = [_of_clash(clash) for clash in [*clashes, *more]]
    settled = True
    for id, (rule, condition) in guide.contradictions.items():
        truth = condition.truth(box)
        settled &= truth is not None
        if truth:
            words = "; ".join(
                f"{guide.questions[q].name}: {shown(guide, q, knowledge)}"
                for q in rule.questions
                if q in knowledge.masks or q in knowledge.readings
            )
            contradictions.append(Contradiction(id, rule.questions, f"{rule.because} ({words})"))
    disagree = _YES if contradictions else _NO if settled else _YES | _NO
    box[guide.space.by_name[ANSWERS_DISAGREE].index] = disagree
    guide.space.settle_knowing(box, knowledge.readings.keys())
    return State(knowledge, box, found, tuple(contradictions))


def trusted_state(guide: Guide, state: State) -> State:
    """Give the state in which every question that a contradiction touches counts as not known."""
    if not state.contradictions:
        return state
    doubted = {question for one in state.contradictions for question in one.questions}
    return state_of(guide, state.knowledge.without(doubted))


def _of_clash(clash: Clash) -> Contradiction:
    return Contradiction("readings_disagree", clash.questions, clash.because)
