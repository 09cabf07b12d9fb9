"""The search for a state of the world: never a wrong answer, and honest when its budget ends."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.guide.logic import Cube
from casebook.guide.search import Budget, Demand, NotSettled, find_box
from tests.guide.drawn import Full, boxes, completions, demands, meets_all, spaces
from tests.guide.solver import solvable

PLENTY = 100_000


@st.composite
def _problems(draw: st.DrawFn) -> tuple[Full, list[list[Cube]]]:
    full = draw(spaces(5, 3))
    return draw(boxes(full)), draw(demands(full))


@given(_problems())
def test_search_agrees_with_trying_everything(problem: tuple[Full, list[list[Cube]]]) -> None:
    """A box is found exactly when some completion meets all demands, and then all in it do."""
    box, wanted = problem
    found = find_box(box, wanted, Budget(PLENTY))
    assert (found is not None) == any(meets_all(world, wanted) for world in completions(box))
    if found is not None:
        assert all(not part & ~whole and part for part, whole in zip(found, box, strict=True))
        assert all(meets_all(world, wanted) for world in completions(found))


@given(_problems(), st.integers(0, 6))
def test_a_small_budget_gives_the_right_answer_or_none(
    problem: tuple[Full, list[list[Cube]]], steps: int
) -> None:
    """When the budget ends it says so; what it says before is what it would have said with plenty."""
    box, wanted = problem
    try:
        found = find_box(box, wanted, Budget(steps))
    except NotSettled:
        return
    assert (found is None) == (find_box(box, wanted, Budget(PLENTY)) is None)


def test_no_budget_settles_nothing() -> None:
    """Without a step to spend nothing is claimed."""
    with pytest.raises(NotSettled):
        find_box([0b11], [], Budget(0))


@given(_problems())
def test_what_is_given_is_left_alone(problem: tuple[Full, list[list[Cube]]]) -> None:
    """The search narrows a box of its own and neither the one given nor the demands."""
    box, wanted = problem
    before = list(box), [list(demand) for demand in wanted]
    find_box(box, wanted, Budget(PLENTY))
    assert (box, wanted) == before


def _pack_like(random: Random) -> tuple[Full, list[Demand]]:
    """Draw a problem like those a pack makes: rules that must each fail, some of them exactly covering."""
    full = [(1 << random.randint(2, 5)) - 1 for _ in range(random.randint(6, 14))]
    wanted: list[Demand] = []
    for _ in range(random.randint(15, 70)):
        named = random.sample(range(len(full)), random.randint(2, 4))
        # A rule is a conjunction; that it fails is a demand with one cube for each of its conditions.
        wanted.append([((var, random.randint(1, full[var] - 1)),) for var in named])
    for _ in range(random.randint(0, 4)):
        wanted.append([_cube(full, random) for _ in range(random.randint(1, 5))])
    return full, wanted


def _cube(full: Full, random: Random) -> Cube:
    named = sorted(random.sample(range(len(full)), random.randint(1, 3)))
    return tuple((var, random.randint(1, full[var])) for var in named)


def test_search_agrees_with_an_independent_solver() -> None:
    """On 400 random problems like those of packs it says what the solver CaDiCaL (python-sat) says."""
    verdicts = []
    for seed in range(400):
        full, wanted = _pack_like(Random(seed))
        expected = solvable(full, wanted)
        assert (find_box(full, wanted, Budget(PLENTY)) is not None) is expected, f"seed {seed}"
        verdicts.append(expected)
    # Both verdicts must be well represented, or the agreement would say little.
    assert 80 <= sum(verdicts) <= 320
