"""Reasons in bench words: why a condition holds, why it does not, and what it still waits for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from casebook.guide.guide import Guide, RuledClause
from casebook.guide.knowledge import shown, worded
from casebook.guide.logic import AllOf, AnyOf, Condition, Expr, Literal, Not, variables
from casebook.guide.pack import STAGES
from casebook.guide.state import State


def truth(expr: Expr, box: Sequence[int]) -> bool | None:
    """Give Kleene's truth of an expression, part by part."""
    match expr:
        case Literal(var, mask):
            if not box[var] & mask:
                return False
            return None if box[var] & ~mask else True
        case Not(part):
            inner = truth(part, box)
            return None if inner is None else not inner
        case AllOf(parts):
            values = [truth(part, box) for part in parts]
            return False if False in values else None if None in values else True
        case AnyOf(parts):
            values = [truth(part, box) for part in parts]
            return True if True in values else None if None in values else False


def explain(guide: Guide, state: State, expr: Expr, holds: bool) -> list[str]:
    """Say in words why `expr` holds (or does not); empty when there is nothing to say."""
    match expr:
        case Literal(var, _):
            return [fact(guide, state, guide.space.variables[var].name)]
        case Not(part):
            return explain(guide, state, part, not holds)
        case AllOf(parts) | AnyOf(parts):
            wanted = [part for part in parts if truth(part, state.box) is holds]
            # One false part is enough to make 'all' false, one true part to make 'any' true.
            if isinstance(expr, AllOf) != holds:
                wanted = wanted[:1]
            return list(dict.fromkeys(line for part in wanted for line in explain(guide, state, part, holds)))


def fact(guide: Guide, state: State, name: str) -> str:
    """Say what is known of a question or finding."""
    name = name.removeprefix("?")
    if name in guide.questions:
        mask = state.box[guide.space.by_name[name].index]
        known = name in state.knowledge.readings or not guide.questions[name].answers
        words = shown(guide, name, state.knowledge) if known else worded(guide, name, mask)
        return f"{guide.questions[name].name}: {words}"
    if name in guide.findings:
        finding = guide.findings[name]
        found = state.found[name]
        says = {"yes": finding.says_yes, "no": finding.says_no}.get(
            found.holds, f"{finding.name}: not settled yet"
        )
        figure = found.figure
        if figure is not None and figure.value is not None and figure.unit == "mm":
            return f"{says} ({figure.value:.2f} mm)"
        return says
    return "some answers do not agree"


def because(guide: Guide, state: State, clause: RuledClause) -> list[str]:
    """Say why a clause that holds does: its own reason, or the reasons read off its condition."""
    if clause.clause.because is not None:
        return [clause.clause.because]
    return explain(guide, state, clause.condition.expr, holds=True)


def waiting_on(guide: Guide, state: State, conditions: Iterable[Condition]) -> tuple[str, ...]:
    """Name the questions that undecided conditions wait for, in the order the bench allows."""
    names: set[str] = set()
    for condition in conditions:
        if condition.truth(state.box) is None:
            open_vars = _undecided(condition.expr, state.box) or set(condition.vars)
            for var in open_vars:
                names |= questions_of(guide, state, guide.space.variables[var].name)
    return in_bench_order(guide, names)


def questions_of(guide: Guide, state: State, name: str) -> set[str]:
    """Name the questions that would settle a variable: itself, or what its finding waits for."""
    name = name.removeprefix("?")
    if name in guide.questions:
        return {name}
    if name in state.found:
        return set(state.found[name].waits_on)
    # Whether answers disagree hangs on whatever a contradiction that is still possible waits for.
    return set(waiting_on(guide, state, [condition for _, condition in guide.contradictions.values()]))


def in_bench_order(guide: Guide, names: Iterable[str]) -> tuple[str, ...]:
    """Sort questions by the stage of the bench, then as the packs have them."""
    order = {name: place for place, name in enumerate(guide.questions)}
    return tuple(sorted(names, key=lambda q: (STAGES.index(guide.questions[q].stage), order[q])))


def _undecided(expr: Expr, box: Sequence[int]) -> set[int]:
    """Name the variables of the undecided parts of an undecided expression."""
    match expr:
        case Literal(var, _):
            return {var} if truth(expr, box) is None else set()
        case Not(part):
            return _undecided(part, box)
        case AllOf(parts) | AnyOf(parts):
            if truth(expr, box) is not None:
                return set()
            return {var for part in parts for var in _undecided(part, box)}


__all__ = ["because", "explain", "fact", "in_bench_order", "questions_of", "truth", "variables", "waiting_on"]
