"""Putting a family's pack and the cross-cutting one together: every id known, every condition compiled."""

from __future__ import annotations

from collections.abc import Mapping
from graphlib import CycleError, TopologicalSorter
from typing import Any

from casebook import figures
from casebook.guide.finding_check import check_findings, taken_at_default
from casebook.guide.guide import Guide, RuledClause, RuledStrategy, questions_behind
from casebook.guide.logic import FALSE, AllOf, AnyOf, Condition, Not
from casebook.guide.pack import (
    DOES_NOT_APPLY,
    NOT_KNOWN,
    Clause,
    Pack,
    Question,
    Strategy,
)  # fmt: skip
from casebook.guide.space import ANSWERS_DISAGREE, question_values
from casebook.guide.truths import Truths
from casebook.shape import in_a_row, nearest
from casebook.strict_yaml import BrokenFile

_KINDS_WITH_IDS = (
    "questions", "findings", "terms", "contradictions", "doubts", "strategies", "cautions", "stops",
)  # fmt: skip
# What conditions say themselves; no id may be called so.
_WORDS_OF_CONDITIONS = (ANSWERS_DISAGREE, NOT_KNOWN, "all", "any", "not")
_YES_NO = (frozenset(["yes"]), frozenset(["no"]))


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
            # Compiled only to refuse one that is too long: terms within terms grow very fast.
            guide.space.terms[name] = guide.space.condition(clause.when, one.file, f"term {name}").expr
    _applicability(guide)
    for one in packs:
        _rules(guide, one)
    _strategies(guide)
    deciding = [ruled.fits for ruled in guide.strategies.values()]
    deciding += [condition for _, condition in guide.doubts.values()]
    guide.settling = Truths(deciding, guide.space.full_box())
    return guide


def _no_clash(packs: tuple[Pack, ...]) -> None:
    seen: dict[str, str] = dict.fromkeys(_WORDS_OF_CONDITIONS, "the guide itself")

    def take(id: str, pack: Pack, line: int | None, owner: str) -> None:
        if id in seen:
            raise BrokenFile(pack.file, line, f"{id} is taken already, by {seen[id]}: rename it")
        seen[id] = f"{owner} of pack {pack.id}"

    for pack in packs:
        for kind in _KINDS_WITH_IDS:
            for id, body in getattr(pack, kind).items():
                take(id, pack, body.at.line, kind)
    for pack in packs:
        for question in pack.questions.values():
            for old in question.was:
                take(old, pack, question.at.line, f"was of {question.id}")


def _questions(guide: Guide) -> None:
    for pack in guide.packs:
        for question in pack.questions.values():
            try:
                _check_answers(question)
                values = question_values(question)
            except ValueError as error:
                raise BrokenFile(pack.file, question.at.line, f"{question.id}: {error}") from None
            guide.space.add(question.id, values, measured=question.measured)
            guide.questions[question.id] = question


def _check_answers(question: Question) -> None:
    for id in (DOES_NOT_APPLY, NOT_KNOWN):
        if id in question.answers:
            raise ValueError(f"{id} is no answer of its own: leave it out, it is always there")
    for old, new in question.answers_were.items():
        if new not in question.answers or old in question.answers:
            hint = nearest(new, question.answers)
            raise ValueError(f"answers_were: {old}: {new}: from an answer it had to one it has{hint}")


def _findings(guide: Guide) -> None:
    for pack in guide.packs:
        guide.findings |= pack.findings
    guide.finding_order = check_findings(guide)
    for id in guide.finding_order:
        finding = guide.findings[id]
        needs: set[str] = set()
        may_not_apply = False
        for source in finding.inputs.values():
            needs |= guide.needs[source.question] if source.figure else {source.question}
            may_not_apply |= bool(guide.absent(source))
        guide.needs[id] = frozenset(needs)
        guide.taken[id] = taken_at_default(finding)
        extra = (frozenset([DOES_NOT_APPLY]),) if may_not_apply else ()
        guide.space.add(id, _YES_NO + extra)


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
    names = {
        id: [guide.space.variables[var].name for var in sorted(c.vars)] for id, c in guide.applies.items()
    }
    try:
        guide.question_order = tuple(
            TopologicalSorter({q: names.get(q, ()) for q in guide.questions}).static_order()
        )
    except CycleError as error:
        circle = error.args[1]
        at = guide.questions[circle[0]].at
        problem = f"{circle[0]}: asked_when goes round in a circle: {in_a_row(circle[::-1])}"
        raise BrokenFile(at.file, at.line, problem) from None


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
            condition = space.condition(body.when, pack.file, id)
            if space.by_name[ANSWERS_DISAGREE].index in condition.vars:
                problem = f"{id}: {ANSWERS_DISAGREE} is what contradictions make: it cannot decide here"
                raise BrokenFile(pack.file, body.at.line, problem)
            getattr(guide, kind)[id] = (body, condition)
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
    for doubt, _ in guide.doubts.values():
        for id in doubt.lifted_by:
            if id not in every:
                problem = f"{doubt.id}: lifted_by: unknown strategy {id}{nearest(id, every)}"
                raise BrokenFile(doubt.at.file, doubt.at.line, problem)
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
