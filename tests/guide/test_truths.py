"""Many conditions judged at once are judged as each is alone."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from casebook.guide.logic import Condition, compile_condition
from casebook.guide.truths import Truths
from tests.guide.drawn import Full, bits, boxes, expressions, spaces


@st.composite
def _several(draw: st.DrawFn) -> tuple[Full, list[Condition], list[int]]:
    full = draw(spaces())
    exprs = draw(st.lists(expressions(full), max_size=5))
    return full, [compile_condition(expr, full) for expr in exprs], draw(boxes(full))


def _truths(truths: Truths, may_hold: int, may_fail: int) -> list[bool | None]:
    told = [(bool(may_hold & bit), bool(may_fail & bit)) for bit in truths.bits]
    return [None if holds and fails else holds for holds, fails in told]


@given(_several())
def test_together_as_alone(drawn: tuple[Full, list[Condition], list[int]]) -> None:
    """For every condition the two bits say what the condition says of the box itself."""
    full, conditions, box = drawn
    truths = Truths(conditions, full)
    assert _truths(truths, *truths.judge(box)) == [condition.truth(box) for condition in conditions]


@given(_several())
def test_every_answer_to_every_question_at_once(drawn: tuple[Full, list[Condition], list[int]]) -> None:
    """Settling each variable on each value left gives what judging that box gives; only settled ones are left out."""
    full, conditions, box = drawn
    truths = Truths(conditions, full)
    named = {var for condition in conditions for var in condition.vars}
    seen = {}
    for var, values in truths.if_settled(box):
        for value, may_hold, may_fail in values:
            inside = [*box]
            inside[var] = 1 << value
            seen[var, 1 << value] = _truths(truths, may_hold, may_fail)
            assert seen[var, 1 << value] == [condition.truth(inside) for condition in conditions]
    open_now = {var for var in named if box[var].bit_count() > 1}
    assert set(seen) == {(var, bit) for var in open_now for bit in bits(box[var])}
