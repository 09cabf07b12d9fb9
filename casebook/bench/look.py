"""One look at one damage, as it is answered: the pure session that screens and plain lines drive.

It holds the answers as typed, keeps each one through `keep` before it counts, and knows at any moment what
is known, what follows, what moved, and what to ask next.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from casebook.bench.card import NoCard, card, read_line
from casebook.guide.advice import Advice, Proposal, Standing, advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge, read_answer, read_answers, shown
from casebook.guide.next_question import Asked, next_questions
from casebook.guide.pack import CROSS_CUTTING, DOES_NOT_APPLY, Question
from casebook.guide.reasons import in_bench_order
from casebook.quantity import Reading, ToolError, Unit
from casebook.records.case import Answer
from casebook.strict_yaml import BrokenFile

Keep = Callable[[Question, Answer | None], None]


class NotTaken(ValueError):
    """An answer that cannot be taken; the message says why and what to type."""


@dataclass(frozen=True, slots=True)
class Moved:
    """A strategy that the last answer moved.

    Attributes:
        before, after: its standing; the same where its place alone changed.
        up: by how many places it rose (below 0: fell) among those that kept their standing and are not
            ruled out; 0 where its standing changed.
    """

    strategy: str
    before: Standing
    after: Standing
    up: int = 0

    @property
    def turned(self) -> bool:
        """Whether its standing changed, not its place alone."""
        return self.before != self.after


@dataclass(frozen=True, slots=True)
class Option:
    """One answer a question offers, with whether it is still possible as answered so far."""

    id: str
    label: str
    possible: bool


@dataclass(slots=True)
class LookSession:
    """A look in progress.

    Attributes:
        guide: the family's guide.
        answers: question -> answer as typed; intake answers among them.
        keep: stores one answer; called before the answer counts, so that nothing shown is ever lost.
        unit: the unit of a bare number typed at the bench.
        tools: the shop's reading errors by tool.
        left_out: stored answers the packs no longer know, and why.
        moved: what the last answer moved, in the order of proposal.
    """

    guide: Guide
    answers: dict[str, Answer]
    keep: Keep
    unit: Unit = "mm"
    tools: Mapping[str, ToolError] | None = None
    left_out: dict[str, str] = field(default_factory=dict)
    moved: tuple[Moved, ...] = ()
    _advice: Advice | None = None
    _asked: tuple[Asked, ...] | None = None
    _undo: list[tuple[str, Answer | None]] = field(default_factory=list)

    def in_shop(self, unit: Unit, tools: Mapping[str, ToolError] | None) -> None:
        """Go on in a shop with another unit or other reading errors: what is known is worked out anew."""
        self.unit, self.tools = unit, tools
        self._advice = self._asked = None

    @property
    def knowledge(self) -> Knowledge:
        """What the answers tell."""
        return self.advice.state.knowledge

    @property
    def advice(self) -> Advice:
        """Where every strategy stands."""
        if self._advice is None:
            knowledge, self.left_out = read_answers(
                self.guide, self.answers, "the record", strict=False, errors=self.tools
            )
            self._advice = advise(self.guide, knowledge)
        return self._advice

    @property
    def asked(self) -> tuple[Asked, ...]:
        """The questions worth asking, the most worth asking first."""
        if self._asked is None:
            self._asked = next_questions(self.advice)
        return self._asked

    @property
    def is_asked_known(self) -> bool:
        """Whether `asked` is worked out for the answers as they are; else it may take some milliseconds."""
        return self._asked is not None

    def questions(self) -> list[str]:
        """List every question whose fact may exist, in the order the bench allows."""
        box = self.advice.state.box
        by_name = self.guide.space.by_name
        return [
            id for id in in_bench_order(self.guide, self.guide.questions)
            if box[by_name[id].index] != by_name[id].does_not_apply or id in self.answers
        ]  # fmt: skip

    def options(self, id: str) -> list[Option]:
        """List the answers of a choice, in the order of the pack."""
        question = self.guide.questions[id]
        variable = self.guide.space.by_name[id]
        left = self.advice.state.box[variable.index]
        return [
            Option(answer, label, bool(left & variable.having([answer])))
            for answer, label in question.answers.items()
        ]

    def shown(self, id: str) -> str:
        """Word the present answer to a question."""
        if id not in self.answers:
            variable = self.guide.space.by_name[id]
            gone = self.advice.state.box[variable.index] == variable.does_not_apply
            return "does not apply" if gone and variable.does_not_apply else "not known yet"
        return shown(self.guide, id, self.knowledge)

    def read(self, id: str, typed: str) -> Reading:
        """Read a size or count as it would be taken, without taking it.

        Raises:
            NotTaken: it is not understood or makes no sense.
        """
        try:
            question = self.guide.questions[id]
            got = read_answer(self.guide, question, typed.strip(), "", bare=self.unit, errors=self.tools)
        except BrokenFile as error:
            raise NotTaken(error.problem.removeprefix(f"{id}: ")) from None
        if not isinstance(got, Reading):
            raise NotTaken(f"{typed.strip()!r}: no number")
        return got

    def answer(self, id: str, answer: Answer | None) -> None:
        """Take an answer (None: not known yet), keep it, and see what moves.

        A size is text as typed; a bare number gets the shop's unit.

        Raises:
            NotTaken: it is not understood or makes no sense; nothing changed.
        """
        question = self.guide.questions[id]
        if answer is not None:
            answer = self._checked(question, answer)
        self._set(question, answer)
        self._undo.append((id, self._before))

    def answer_card(self, line: str) -> tuple[str, ...]:
        """Take a line of letters from the measuring card: ``A 7.5 B 5.2 C 27``; all of it or nothing.

        Returns:
            The questions that were answered.

        Raises:
            NotTaken: the line does not fit the card, or one of its sizes makes no sense or cannot be there.
        """
        try:
            answers = read_line(self.guide, line)
        except NoCard as problem:
            raise NotTaken(str(problem)) from None
        letters = {one.question: one.letter for one in card(self.guide)}
        for id, typed in answers.items():
            variable = self.guide.space.by_name[id]
            name = f"{letters[id]} ({self.guide.questions[id].name})"
            if self.advice.state.box[variable.index] == variable.does_not_apply:
                raise NotTaken(f"{name}: does not apply by what was answered; leave it out")
            try:
                self.read(id, typed)
            except NotTaken as problem:
                raise NotTaken(f"{name}: {problem}") from None
        for id, typed in answers.items():
            self.answer(id, typed)
        return tuple(answers)

    def undo(self) -> str | None:
        """Take the last answer back; gives the question it was, or None when there is none."""
        if not self._undo:
            return None
        id, before = self._undo.pop()
        self._set(self.guide.questions[id], before)
        return id

    _before: Answer | None = None

    def _set(self, question: Question, answer: Answer | None) -> None:
        before = self.advice.proposals
        self._before = self.answers.get(question.id)
        self.keep(question, answer)
        if answer is None:
            self.answers.pop(question.id, None)
        else:
            self.answers[question.id] = answer
        self._advice = self._asked = None
        self.moved = _moved(before, self.advice.proposals)

    def _checked(self, question: Question, answer: Answer) -> Answer:
        typed = answer.strip() if isinstance(answer, str) else answer
        try:
            got = read_answer(self.guide, question, typed, "", bare=self.unit)
        except BrokenFile as error:
            raise NotTaken(error.problem.removeprefix(f"{question.id}: ")) from None
        if isinstance(got, Reading) and isinstance(typed, str) and question.kind == "length":
            return typed if _has_unit(self.guide, question, typed) else with_unit(typed, self.unit)
        return typed


def _moved(before: Sequence[Proposal], after: Sequence[Proposal]) -> tuple[Moved, ...]:
    """Name what turned, and what changed its place among those that stand as they stood."""
    standing = {p.id: p.standing for p in before}
    keep = {p.id for p in after if p.standing == standing[p.id] != "ruled_out"}
    place = {id: place for place, id in enumerate(p.id for p in before if p.id in keep)}
    now = {id: place for place, id in enumerate(p.id for p in after if p.id in keep)}
    moved = (
        Moved(p.id, standing[p.id], p.standing, place[p.id] - now[p.id] if p.id in keep else 0) for p in after
    )
    return tuple(one for one in moved if one.turned or one.up)


def with_unit(typed: str, unit: Unit) -> str:
    """Add the shop's unit to a bare number, before the tool it names: ``5.2 by jaws`` in mm."""
    number, by, tool = typed.partition(" by ")
    return f"{number.rstrip()} {unit}{by}{tool}"


def _has_unit(guide: Guide, question: Question, typed: str) -> bool:
    try:
        read_answer(guide, question, typed, "")
    except BrokenFile:
        return False
    return True


def is_intake(question: Question, cross_questions: Mapping[str, Question]) -> bool:
    """Whether a question belongs to the instrument as a whole."""
    return question.id in cross_questions


__all__ = ["CROSS_CUTTING", "DOES_NOT_APPLY", "LookSession", "Moved", "NotTaken", "Option", "is_intake"]
