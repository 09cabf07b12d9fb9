"""A guide: one family's pack and the cross-cutting pack, checked against each other and compiled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from casebook import figures
from casebook.figures.inputs import BadInput, take
from casebook.figures.worksheet import Worksheet
from casebook.guide.logic import FALSE, AllOf, AnyOf, Condition, Literal, Not
from casebook.guide.pack import (
    CROSS_CUTTING,
    DOES_NOT_APPLY,
    Caution,
    Clause,
    Disagreement,
    Finding,
    Pack,
    Place,
    Profile,
    Question,
    Stop,
    Strategy,
)  # fmt: skip
from casebook.guide.space import ANSWERS_DISAGREE, Space, question_values
from casebook.quantity import Reading, Thread
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile

# A wall, mm, to try a worksheet with that gets one from another finding.
_USUAL_FIGURE = Fraction(6)
_YES_NO = (frozenset(["yes"]), frozenset(["no"]))


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
        needs: per finding: the questions behind it, through other findings too.
        taken: per finding: the sizes that its worksheet takes at a default of the bench until they are
            measured, question -> default as typed. Measuring one corrects what was taken, and may turn the
            finding round.
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

    @property
    def pack(self) -> Pack:
        """The family's own pack."""
        return self.packs[-1]

    def renamed(self) -> dict[str, str]:
        """Map the ids that questions had in earlier packs to those they have now."""
        return {old: question.id for question in self.questions.values() for old in question.was}


def build(cross: Pack | None, pack: Pack) -> Guide:
    """Put a family's pack and the cross-cutting one together.

    Raises:
        BrokenFile: an id that clashes or is unknown, a worksheet or check that does not exist, a circle.
    """
    packs = (pack,) if cross is None or cross.id == pack.id else (cross, pack)
    guide = Guide(packs, pack.id)
    _no_clash(packs)
    _questions(guide)
    _findings(guide)
    guide.space.add(ANSWERS_DISAGREE, _YES_NO)
    for one in packs:
        for name, clause in one.terms.items():
            expr = guide.space.expression(clause.when, one.file, f"term {name}")
            guide.space.terms[name] = expr
    _applicability(guide)
    for one in packs:
        _rules(guide, one)
    _strategies(guide)
    return guide


def _no_clash(packs: tuple[Pack, ...]) -> None:
    seen: dict[str, str] = {ANSWERS_DISAGREE: "the guide itself"}
    for pack in packs:
        for kind in (
            "questions",
            "findings",
            "terms",
            "contradictions",
            "doubts",
            "strategies",
            "cautions",
            "stops",
        ):
            for id, body in getattr(pack, kind).items():
                if id in seen:
                    raise BrokenFile(
                        pack.file, body.at.line, f"{id} is taken already, by {seen[id]}: rename it"
                    )
                seen[id] = f"{kind} of pack {pack.id}"


def _questions(guide: Guide) -> None:
    for pack in guide.packs:
        for question in pack.questions.values():
            try:
                values = question_values(question)
            except ValueError as error:
                raise BrokenFile(pack.file, question.at.line, f"{question.id}: {error}") from None
            guide.space.add(question.id, values, measured=question.measured)
            guide.questions[question.id] = question


def _findings(guide: Guide) -> None:
    for pack in guide.packs:
        guide.findings |= pack.findings
    order: list[str] = []
    for id in guide.findings:
        _order_finding(guide, id, order, ())
    guide.finding_order = tuple(order)
    for id in order:
        finding = guide.findings[id]
        needs: set[str] = set()
        may_not_apply = False
        for source in finding.inputs.values():
            behind = guide.needs[source.question] if source.figure else frozenset([source.question])
            needs |= behind
            if not source.optional:
                may_not_apply |= any(guide.questions[q].asked_when is not None for q in behind)
                may_not_apply |= bool(source.words) and len(source.words) < len(
                    guide.questions[source.question].answers
                )
        guide.needs[id] = frozenset(needs)
        extra = (frozenset([DOES_NOT_APPLY]),) if may_not_apply else ()
        guide.space.add(id, _YES_NO + extra)


def _order_finding(guide: Guide, id: str, order: list[str], above: tuple[str, ...]) -> None:
    if id in order:
        return
    finding = guide.findings[id]
    at = finding.at
    if id in above:
        raise BrokenFile(
            at.file, at.line, f"{id}: findings go round in a circle: {' -> '.join([*above, id])}"
        )
    sheet = _worksheet(finding)
    known = {item.name: item for item in sheet.inputs}
    for name, source in finding.inputs.items():
        where = f"{id}: input {name}"
        if name not in known:
            raise BrokenFile(
                at.file, at.line, f"{where}: worksheet {sheet.id} has none{nearest(name, known)}"
            )
        if source.figure:
            other = guide.findings.get(source.question)
            if other is None or other.figure is None:
                hint = nearest(source.question, guide.findings)
                raise BrokenFile(
                    at.file, at.line, f"{where}: no finding {source.question} with a figure{hint}"
                )
            _order_finding(guide, source.question, order, (*above, id))
        else:
            _check_source(guide, finding, name, known[name].kind, where)
    for name, typed in finding.settings.items():
        if name not in known:
            raise BrokenFile(
                at.file, at.line, f"{id}: setting {name}: worksheet {sheet.id} has none{nearest(name, known)}"
            )
        try:
            known[name].read(typed)
        except ValueError as error:
            raise BrokenFile(at.file, at.line, f"{id}: setting {error}") from None
    _check_exists(guide, finding, sheet)
    guide.taken[id] = {
        source.question: default
        for name, source in finding.inputs.items()
        if (default := known[name].default) is not None and not source.figure and not source.words
    }
    order.append(id)


def _check_exists(guide: Guide, finding: Finding, sheet: Worksheet) -> None:
    """Refuse a check or figure that the worksheet does not make even when everything it gets is known."""
    known = {item.name: item for item in sheet.inputs}
    values: dict[str, Reading | Thread | str] = {
        n: known[n].read(typed) for n, typed in finding.settings.items()
    }
    for name, source in finding.inputs.items():
        if source.words:
            values[name] = next(iter(source.words.values()))
        elif source.figure:
            values[name] = Reading.exact(_USUAL_FIGURE)
        else:
            values[name] = _usual(guide.questions[source.question])
    try:
        result = sheet.run(take(sheet.inputs, values))
    except BadInput:
        return  # the usual sizes do not go together here; the first real ones will tell
    wanted = [("check", name, list(result.checks)) for name in finding.checks]
    wanted += [("figure", finding.figure, list(result.figures))] if finding.figure else []
    for what, wished, made in wanted:
        if wished not in made:
            hint = nearest(wished, made) or f" (it makes: {', '.join(made)})"
            problem = f"{finding.id}: worksheet {sheet.id} makes no {what} {wished}{hint}"
            raise BrokenFile(finding.at.file, finding.at.line, problem)


def _usual(question: Question) -> Reading:
    """Give some size within a question's range, to try a worksheet with."""
    low = question.low.value if question.low else Fraction(1)
    high = question.high.value if question.high else low
    if question.kind == "count":
        return Reading.exact(int(low + 2), unit="count")
    return Reading.exact(low + (high - low) / 4)


def _worksheet(finding: Finding) -> Worksheet:
    try:
        return figures.worksheet(finding.worksheet)
    except KeyError:
        hint = nearest(finding.worksheet, figures.IDS)
        raise BrokenFile(
            finding.at.file, finding.at.line, f"{finding.id}: no worksheet {finding.worksheet}{hint}"
        ) from None


def _check_source(guide: Guide, finding: Finding, name: str, kind: str, where: str) -> None:
    at = finding.at
    source = finding.inputs[name]
    question = guide.questions.get(source.question)
    if question is None:
        hint = nearest(source.question, guide.questions)
        raise BrokenFile(at.file, at.line, f"{where}: unknown question {source.question}{hint}")
    wanted = {
        "length": ("length",), "pitch": ("length",), "count": ("count",), "any_size": ("length", "count"),
        "number": ("count",), "choice": ("choice", "several", "yes_no"),
    }.get(kind, ())  # fmt: skip
    if question.kind not in wanted:
        raise BrokenFile(at.file, at.line, f"{where} wants a {kind}; {question.id} is a {question.kind}")
    for answer in source.words:
        if answer not in question.answers:
            hint = nearest(answer, question.answers)
            raise BrokenFile(at.file, at.line, f"{where}: {question.id} has no answer {answer}{hint}")
    if kind == "any_size":
        kinds = {
            guide.questions[other.question].kind for other in finding.inputs.values()
            if not other.figure and other.question in guide.questions
        }  # fmt: skip
        if len(kinds) > 1:
            raise BrokenFile(at.file, at.line, f"{finding.id}: a length cannot be compared with a count")


def _applicability(guide: Guide) -> None:
    for question in guide.questions.values():
        if question.asked_when is not None:
            what = f"{question.id}: asked_when"
            condition = guide.space.condition(question.asked_when, question.at.file, what)
            for var in condition.vars:
                if guide.space.variables[var].name not in guide.questions:
                    problem = f"{what} may name questions only, not {guide.space.variables[var].name}"
                    raise BrokenFile(question.at.file, question.at.line, problem)
            guide.applies[question.id] = condition
    order: list[str] = []
    for id in guide.questions:
        _order_question(guide, id, order, ())
    guide.question_order = tuple(order)


def _order_question(guide: Guide, id: str, order: list[str], above: tuple[str, ...]) -> None:
    if id in order:
        return
    at = guide.questions[id].at
    if id in above:
        raise BrokenFile(
            at.file, at.line, f"{id}: asked_when goes round in a circle: {' -> '.join([*above, id])}"
        )
    if id in guide.applies:
        for var in sorted(guide.applies[id].vars):
            _order_question(guide, guide.space.variables[var].name, order, (*above, id))
    order.append(id)


def _rules(guide: Guide, pack: Pack) -> None:
    space = guide.space
    guide.never_together += tuple(
        RuledClause(clause, space.condition(clause.when, pack.file, "never_together"))
        for clause in pack.never_together
    )
    for kind in ("contradictions", "doubts"):
        for id, body in getattr(pack, kind).items():
            for question in body.questions:
                if question not in guide.questions:
                    hint = nearest(question, guide.questions)
                    raise BrokenFile(pack.file, body.at.line, f"{id}: unknown question {question}{hint}")
            getattr(guide, kind)[id] = (body, space.condition(body.when, pack.file, id))
    for caution in pack.cautions.values():
        guide.cautions[caution.id] = (caution, _optional(guide, caution.when, pack.file, caution.id))
    for stop in pack.stops.values():
        guide.stops[stop.id] = (stop, _optional(guide, stop.when, pack.file, stop.id))
    for id, clause in pack.stops_when.items():
        if id not in guide.stops:
            hint = nearest(id, guide.stops)
            raise BrokenFile(pack.file, clause.at.line, f"stops_when: unknown stop {id}{hint}")
        _also_stops(guide, id, clause)
    guide.profiles += tuple(
        (profile, _optional(guide, profile.when, pack.file, "ranking")) for profile in pack.ranking
    )


def _also_stops(guide: Guide, id: str, clause: Clause) -> None:
    stop, before = guide.stops[id]
    expr = guide.space.expression(clause.when, clause.at.file, f"stops_when: {id}", unknowing=True)
    if before is not None:
        expr = AnyOf((before.expr, expr))
    guide.stops[id] = (stop, guide.space.compiled(expr, clause.at.file, clause.at.line, id))


def _optional(guide: Guide, node: Any, file: str, what: str) -> Condition | None:
    return None if node is None else guide.space.condition(node, file, what, unknowing=True)


def _strategies(guide: Guide) -> None:
    every = {id: strategy for pack in guide.packs for id, strategy in pack.strategies.items()}
    for strategy in every.values():
        _names_known(strategy, every)
    # A family's own form of a cross-cutting strategy stands where that one would.
    in_place_of = {s.instead_of: s for s in every.values() if s.instead_of}
    for id, strategy in every.items():
        shown = in_place_of.get(id, strategy)
        if not shown.only_in or guide.family in shown.only_in:
            guide.strategies.setdefault(shown.id, _ruled(guide, shown))


def _names_known(strategy: Strategy, every: Mapping[str, Strategy]) -> None:
    at = strategy.at
    if strategy.instead_of and strategy.instead_of not in every:
        hint = nearest(strategy.instead_of, every)
        raise BrokenFile(at.file, at.line, f"{strategy.id}: unknown strategy {strategy.instead_of}{hint}")
    for sheet in strategy.worksheets:
        if sheet not in figures.IDS:
            hint = nearest(sheet, figures.IDS)
            raise BrokenFile(at.file, at.line, f"{strategy.id}: no worksheet {sheet}{hint}")


def _ruled(guide: Guide, strategy: Strategy) -> RuledStrategy:
    space = guide.space
    file = strategy.at.file

    def ruled(clauses: tuple[Clause, ...], which: str) -> tuple[RuledClause, ...]:
        what = f"{strategy.id}: {which}"
        return tuple(RuledClause(clause, space.condition(clause.when, file, what)) for clause in clauses)

    wanted = ruled(strategy.fits_when, "fits_when")
    unwanted = ruled(strategy.not_when, "not_when")
    parts = [clause.condition.expr for clause in wanted] + [Not(clause.condition.expr) for clause in unwanted]
    expr = AllOf(tuple(parts)) if parts else AnyOf((FALSE,))
    fits = space.compiled(expr, file, strategy.at.line, strategy.id)
    questions = questions_behind(guide, fits.vars)
    doubts = tuple(
        id
        for id, (doubt, _) in guide.doubts.items()
        if questions.intersection(doubt.questions)
        and not strategy.on_call
        and strategy.id not in doubt.lifted_by
    )
    return RuledStrategy(strategy, fits, wanted, unwanted, doubts, questions)


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


__all__ = [
    "CROSS_CUTTING",
    "Guide",
    "Place",
    "RuledClause",
    "RuledStrategy",
    "build",
    "literal",
    "questions_behind",
]
