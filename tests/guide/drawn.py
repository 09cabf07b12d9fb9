"""Small spaces of values, expressions, cubes and boxes drawn at random, and brute force over them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from hypothesis import strategies as st

from casebook.guide.logic import AllOf, AnyOf, Cube, Expr, Literal, Not

# A space: for each variable the mask of all its values.
Full = list[int]


def spaces(most_variables: int = 4, most_values: int = 4) -> st.SearchStrategy[Full]:
    """Draw a space of a few variables with two values or more each."""
    values = st.integers(2, most_values)
    return st.lists(values, min_size=1, max_size=most_variables).map(lambda ns: [(1 << n) - 1 for n in ns])


def expressions(full: Full) -> st.SearchStrategy[Expr]:
    """Draw an expression over a space; variables repeat, and a mask may allow all or nothing."""
    literals: st.SearchStrategy[Expr] = st.integers(0, len(full) - 1).flatmap(
        lambda var: st.integers(0, full[var]).map(lambda mask: Literal(var, mask))
    )

    def joined(inner: st.SearchStrategy[Expr]) -> st.SearchStrategy[Expr]:
        parts = st.lists(inner, max_size=3).map(tuple)
        return st.one_of(inner.map(Not), parts.map(AllOf), parts.map(AnyOf))

    return st.recursive(literals, joined, max_leaves=8)


def boxes(full: Full) -> st.SearchStrategy[list[int]]:
    """Draw a box: for each variable at least one value still possible."""
    return st.tuples(*(st.integers(1, mask) for mask in full)).map(list)


def inside(box: Sequence[int]) -> st.SearchStrategy[list[int]]:
    """Draw a box within another one."""
    return st.tuples(*(st.sampled_from([m for m in range(1, b + 1) if m & ~b == 0]) for b in box)).map(list)


def demands(full: Full) -> st.SearchStrategy[list[list[Cube]]]:
    """Draw a few demands of a few cubes each."""
    pair = st.integers(0, len(full) - 1).flatmap(lambda v: st.tuples(st.just(v), st.integers(1, full[v])))
    cube = st.lists(pair, min_size=1, max_size=3, unique_by=lambda p: p[0]).map(lambda ps: tuple(sorted(ps)))
    return st.lists(st.lists(cube, max_size=4), max_size=5)


def bits(mask: int) -> Iterator[int]:
    """Give the single values of a mask."""
    return (1 << place for place in range(mask.bit_length()) if mask >> place & 1)


def completions(box: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Give every way of settling each variable of a box on one value."""
    return product(*(tuple(bits(mask)) for mask in box))


def holds(expr: Expr, world: Sequence[int]) -> bool:
    """Evaluate an expression in a world where every variable has one value: plain two-valued logic."""
    if isinstance(expr, Literal):
        return bool(world[expr.var] & expr.mask)
    if isinstance(expr, Not):
        return not holds(expr.part, world)
    values = [holds(part, world) for part in expr.parts]
    return all(values) if isinstance(expr, AllOf) else any(values)


def meets_all(world: Sequence[int], wanted: Sequence[Sequence[Cube]]) -> bool:
    """Whether a world meets every demand."""
    return all(any(all(world[v] & m for v, m in cube) for cube in demand) for demand in wanted)
