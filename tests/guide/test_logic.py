"""Conditions are exact: Kleene's tables where variables are apart, brute force where they repeat."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.guide.logic import AllOf, AnyOf, Expr, Literal, Not, Tangled, compile_condition
from tests.guide.drawn import Full, boxes, completions, expressions, holds, inside, spaces

# S. C. Kleene, Introduction to Metamathematics (1952), section 64: the strong tables. The rows are from
# memory; t, f and u stand for true, false and undefined.
NEGATION = {"t": "f", "f": "t", "u": "u"}
CONJUNCTION = {
    "tt": "t", "tf": "f", "tu": "u",
    "ft": "f", "ff": "f", "fu": "f",
    "ut": "u", "uf": "f", "uu": "u",
}  # fmt: skip
DISJUNCTION = {
    "tt": "t", "tf": "t", "tu": "t",
    "ft": "t", "ff": "f", "fu": "u",
    "ut": "t", "uf": "u", "uu": "u",
}  # fmt: skip
TRUTH = {"t": True, "f": False, "u": None}
# What is possible for a yes/no variable of which one asks whether it is yes.
POSSIBLE = {"t": 0b01, "f": 0b10, "u": 0b11}
FULL = [0b11, 0b11]
LEFT, RIGHT = Literal(0, 0b01), Literal(1, 0b01)


@pytest.mark.parametrize(("given_value", "expected"), NEGATION.items())
def test_negation_is_kleenes(given_value: str, expected: str) -> None:
    """Kleene 1952, section 64: the table of 'not'."""
    condition = compile_condition(Not(LEFT), FULL)
    assert condition.truth([POSSIBLE[given_value], 0b11]) is TRUTH[expected]


@pytest.mark.parametrize(("pair", "expected"), CONJUNCTION.items())
def test_conjunction_is_kleenes(pair: str, expected: str) -> None:
    """Kleene 1952, section 64: the strong table of 'and'."""
    condition = compile_condition(AllOf((LEFT, RIGHT)), FULL)
    assert condition.truth([POSSIBLE[value] for value in pair]) is TRUTH[expected]


@pytest.mark.parametrize(("pair", "expected"), DISJUNCTION.items())
def test_disjunction_is_kleenes(pair: str, expected: str) -> None:
    """Kleene 1952, section 64: the strong table of 'or'."""
    condition = compile_condition(AnyOf((LEFT, RIGHT)), FULL)
    assert condition.truth([POSSIBLE[value] for value in pair]) is TRUTH[expected]


@st.composite
def _questions(draw: st.DrawFn) -> tuple[Full, Expr, list[int]]:
    full = draw(spaces())
    return full, draw(expressions(full)), draw(boxes(full))


@given(_questions())
def test_truth_is_what_all_completions_say(drawn: tuple[Full, Expr, list[int]]) -> None:
    """True exactly when every completion of the box satisfies it, false exactly when none does."""
    full, expr, box = drawn
    values = {holds(expr, world) for world in completions(box)}
    expected = values.pop() if len(values) == 1 else None
    assert compile_condition(expr, full).truth(box) is expected


@given(_questions(), st.data())
def test_more_knowledge_never_takes_a_truth_back(
    drawn: tuple[Full, Expr, list[int]], data: st.DataObject
) -> None:
    """What is settled in a box stays settled in every box within it."""
    full, expr, box = drawn
    condition = compile_condition(expr, full)
    known = condition.truth(box)
    assert known is None or condition.truth(data.draw(inside(box))) is known


@given(_questions())
def test_negation_swaps_the_two_sides(drawn: tuple[Full, Expr, list[int]]) -> None:
    """A negated condition is true where the condition is false, unknown where it is unknown."""
    full, expr, box = drawn
    truth = compile_condition(expr, full).truth(box)
    assert compile_condition(Not(expr), full).truth(box) is (None if truth is None else not truth)


@given(_questions())
def test_cubes_part_the_worlds_in_two(drawn: tuple[Full, Expr, list[int]]) -> None:
    """Every world lies in a cube of the condition or in one of its negation, never in both."""
    full, expr, _ = drawn
    condition = compile_condition(expr, full)
    for world in completions(full):
        sides = [
            any(all(world[v] & m for v, m in c) for c in cubes) for cubes in (condition.yes, condition.no)
        ]
        assert sides == [holds(expr, world), not holds(expr, world)]


def test_one_question_asked_twice_is_still_exact() -> None:
    """'Sound or not sound' is true though nothing is known, where Kleene's logic would say unknown."""
    assert compile_condition(AnyOf((LEFT, Not(LEFT))), FULL).truth(FULL) is True


def test_a_condition_beyond_proof_is_refused() -> None:
    """A condition whose cases would run into many thousands is called tangled instead of taking for ever."""
    either = tuple(AnyOf((Literal(2 * n, 0b01), Literal(2 * n + 1, 0b01))) for n in range(16))
    with pytest.raises(Tangled, match="simpler parts"):
        compile_condition(AllOf(either), [0b11] * 32)
