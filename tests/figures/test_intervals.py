"""Reading error through the formulas of threads and comparisons: bounds that hold, and are not too wide."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures.compare import AT_LEAST, AT_MOST
from casebook.figures.formula import Formula
from casebook.figures.inputs import Span
from casebook.figures.thread import (
    FULL_THREADS,
    LENGTH_NEEDED,
    PITCH_OVER_SPAN,
    THREADS_SPARE,
    TURNS_SPARE,
)

FORMULAS = {
    "at_most": AT_MOST,
    "at_least": AT_LEAST,
    "full_threads": FULL_THREADS,
    "length_needed": LENGTH_NEEDED,
    "pitch_over_span": PITCH_OVER_SPAN,
    "threads_spare": THREADS_SPARE,
    "turns_spare": TURNS_SPARE,
}
SPANS = st.tuples(st.floats(2, 30), st.floats(0, 0.5), st.floats(0, 1))


@pytest.mark.parametrize("name", FORMULAS)
@given(data=st.data())
def test_the_interval_holds_every_true_result_and_is_no_wider_than_they_need(
    name: str, data: st.DataObject
) -> None:
    """True values anywhere within the readings; the true range is found by a dense grid, corners included."""
    formula: Formula = FORMULAS[name]
    drawn = {n: data.draw(SPANS) for n in formula.names}
    spans = {n: Span(v - e, v, v + e) for n, (v, e, _) in drawn.items()}
    true = {n: v - e + 2 * e * part for n, (v, e, part) in drawn.items()}
    result = formula(spans)
    assert result is not None
    noise = 1e-9 * max(1.0, abs(result.value))
    assert result.low - noise <= formula.compute(**true) <= result.high + noise

    steps = [[s.low + (s.high - s.low) * k / 4 for k in range(5)] for s in spans.values()]
    seen = [formula.compute(**dict(zip(spans, point, strict=True))) for point in product(*steps)]
    assert result.high - result.low <= 1.05 * (max(seen) - min(seen)) + noise
