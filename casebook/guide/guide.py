"""A guide: one family's pack and the cross-cutting pack, checked against each other and compiled."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from casebook.guide.logic import Condition, Literal
from casebook.guide.pack import (
    Caution,
    Clause,
    Disagreement,
    Finding,
    Pack,
    Profile,
    Question,
    Source,
    Stop,
    Strategy,
)  # fmt: skip
from casebook.guide.space import Space
from casebook.guide.truths import Truths

if TYPE_CHECKING:
    from casebook.guide.remembered import Remembered


@dataclass(frozen=True, slots=True)
class RuledClause:
    """A clause with its condition compiled."""

    clause: Clause
    condition: Condition


@dataclass(frozen=True, slots=True)
class RuledStrategy:
    """A strategy with its conditions compiled.

    Attributes:
        fits: all of fits_when and none of not_when, as one exact condition.
        wanted: the clauses of fits_when.
        unwanted: the clauses of not_when.
        doubts: the doubts that touch a question it stands on.
        questions: every question it stands on, those behind its findings included.
    """

    strategy: Strategy
    fits: Condition
    wanted: tuple[RuledClause, ...]
    unwanted: tuple[RuledClause, ...]
    doubts: tuple[str, ...]
    questions: frozenset[str]


@dataclass(slots=True)
class Guide:
    """Everything the packs say about one family of damages, ready to be asked.

    Attributes:
        packs: the packs it is made of, cross-cutting first.
        space: the variables.
        applies: per question with an asked_when: the condition under which the fact exists.
        finding_order: the findings, each after those it draws a figure from.
        settling: `fits` of every strategy and every doubt, in this order, to be judged together.
        needs: per finding: the questions behind it, through other findings too.
        taken: per finding: the sizes that its worksheet takes at a default of the bench until they are
            measured, question -> default as typed. Measuring one corrects what was taken, and may turn the
            finding round.
        remembered: what searches have shown so far.
    """

    packs: tuple[Pack, ...]
    family: str
    space: Space = field(default_factory=Space)
    questions: dict[str, Question] = field(default_factory=dict)
    findings: dict[str, Finding] = field(default_factory=dict)
    applies: dict[str, Condition] = field(default_factory=dict)
    question_order: tuple[str, ...] = ()
    finding_order: tuple[str, ...] = ()
    needs: dict[str, frozenset[str]] = field(default_factory=dict)
    taken: dict[str, dict[str, str]] = field(default_factory=dict)
    never_together: tuple[RuledClause, ...] = ()
    contradictions: dict[str, tuple[Disagreement, Condition]] = field(default_factory=dict)
    doubts: dict[str, tuple[Disagreement, Condition]] = field(default_factory=dict)
    strategies: dict[str, RuledStrategy] = field(default_factory=dict)
    cautions: dict[str, tuple[Caution, Condition | None]] = field(default_factory=dict)
    stops: dict[str, tuple[Stop, Condition | None]] = field(default_factory=dict)
    profiles: tuple[tuple[Profile, Condition | None], ...] = ()
    settling: Truths = field(default_factory=lambda: Truths((), ()))
    remembered: Remembered | None = None

    @property
    def pack(self) -> Pack:
        """The family's own pack."""
        return self.packs[-1]

    @property
    def alarms(self) -> list[tuple[frozenset[str], Condition]]:
        """What a person must not miss: conditions of stops and dangers, with the work a danger goes with."""
        stops = [(frozenset[str](), c) for _, c in self.stops.values() if c is not None]
        cautions = self.cautions.values()
        return stops + [(d.involves, c) for d, c in cautions if d.level == "danger" and c is not None]

    def absent(self, source: Source) -> int:
        """Give the values of a finding's source with which the finding does not apply; 0 for none."""
        if source.optional:
            return 0
        variable = self.space.by_name[source.question]
        without_word = variable.full & ~variable.having(source.words) if source.words else 0
        return variable.does_not_apply | without_word

    def renamed(self) -> dict[str, str]:
        """Map the ids that questions had in earlier packs to those they have now."""
        return {old: question.id for question in self.questions.values() for old in question.was}


def questions_behind(guide: Guide, variables: frozenset[int]) -> frozenset[str]:
    """Name the questions that decide `variables`, those behind findings included."""
    names: set[str] = set()
    for var in variables:
        name = guide.space.variables[var].name.removeprefix("?")
        names |= guide.needs.get(name, frozenset([name]))
    return frozenset(names) & guide.questions.keys()


def literal(guide: Guide, name: str, *words: str) -> Literal:
    """Give the literal 'the variable `name` has one of `words`'."""
    variable = guide.space.by_name[name]
    return Literal(variable.index, variable.having(words))
