"""The second look: what ends a look, what stays true, and what the later look says otherwise."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from casebook.bench.at_desk import AtDesk
from casebook.bench.case_text import answer_text, question_of
from casebook.guide.guide import Guide, questions_behind
from casebook.records.case import Answer
from casebook.strict_yaml import BrokenFile


@dataclass(frozen=True, slots=True)
class Changed:
    """An answer that a later look gives otherwise than the one before, in words."""

    question: str
    name: str
    before: str
    now: str


class LookingAgain(AtDesk):
    """Acts between looks."""

    def second_look(self, number: str, damage: int, ended_by: str, keep: Mapping[str, Answer]) -> int:
        """End the present look by an act; the next begins with `keep`, the answers that are still true."""
        return self.book.new_look(number, damage, ended_by=ended_by, taken=self.today, answers=dict(keep))

    def still_true(self, number: str, damage: int, strategy: str) -> dict[str, Answer]:
        """Give the answers that stay true when `strategy` has ended the look: what the next starts from.

        Gone is what the strategy took away and what was judged under it, what called for the strategy, and
        after a rest every size.
        """
        found = self.book.case(number).damage(damage)
        guide = self.library.guide(found.family)
        ruled = guide.strategies[strategy]
        gone = set(questions_behind(guide, ruled.wanted[0].condition.vars)) if ruled.wanted else set()
        for doubt, condition in guide.doubts.values():
            if strategy in doubt.lifted_by:
                gone |= {*doubt.questions, *questions_behind(guide, condition.vars)}
        if ruled.strategy.ends_look == "resting":
            gone |= {id for id, question in guide.questions.items() if question.kind == "length"}
        return {q: answer for q, answer in found.looks[-1].answers.items() if q not in gone}

    def changed(self, number: str, damage: int) -> list[Changed]:
        """List what the present look says otherwise than the latest look before it that answered the same.

        Raises:
            NotPossible: no such damage.
        """
        found = self._damage(self.book.case(number), damage)
        before: dict[str, Answer] = {}
        for look in found.looks[:-1]:
            before |= look.answers
        guide: Guide | None
        try:
            guide = self.library.guide(found.family)
        except (KeyError, BrokenFile):
            guide = None
        changes = []
        for id, answer in found.looks[-1].answers.items():
            if id in before and before[id] != answer:
                question = question_of(guide, id)
                then, now = (answer_text(guide, id, one) for one in (before[id], answer))
                changes.append(Changed(id, question.name if question else id, then, now))
        return changes
