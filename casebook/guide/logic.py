"""Exact logic over what is still possible.

Each thing that can be answered or found is a variable with a few values, one bit each. A *box* holds for
every variable the values still possible. A condition is compiled, together with its negation, to *cubes*
(variable -> allowed values): it is false when no cube of it meets the box, true when no cube of its
negation does, and unknown otherwise. On distinct variables that is Kleene's strong three-valued logic
(S. C. Kleene, Introduction to Metamathematics, 1952, section 64); on repeated ones it is still exact.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

# variable index -> bit mask, as sorted pairs; a variable not named is free.
Cube = tuple[tuple[int, int], ...]
Box = list[int]

# What a condition may need: cubes when compiled, and literals and levels as written, terms written out.
MAX_CUBES = 800
MAX_LITERALS = 400
MAX_LEVELS = 100


class Tangled(ValueError):
    """A condition whose compiled form would be too large to prove anything about."""


@dataclass(frozen=True, slots=True)
class Literal:
    """Variable `var` has one of the values in `mask`."""

    var: int
    mask: int


@dataclass(frozen=True, slots=True)
class AllOf:
    """Every part holds; with no part it is true."""

    parts: tuple[Expr, ...]


@dataclass(frozen=True, slots=True)
class AnyOf:
    """At least one part holds; with no part it is false."""

    parts: tuple[Expr, ...]


@dataclass(frozen=True, slots=True)
class Not:
    """The part does not hold."""

    part: Expr


Expr = Literal | AllOf | AnyOf | Not
TRUE: Expr = AllOf(())
FALSE: Expr = AnyOf(())


@dataclass(frozen=True, slots=True)
class Condition:
    """An expression compiled both ways.

    Attributes:
        expr: the expression as written.
        yes: cubes of the expression.
        no: cubes of its negation.
        vars: the variables it names.
    """

    expr: Expr
    yes: tuple[Cube, ...]
    no: tuple[Cube, ...]
    vars: frozenset[int]

    def truth(self, box: Sequence[int]) -> bool | None:
        """Give True, False, or None for unknown."""
        if not meets_any(self.yes, box):
            return False
        return None if meets_any(self.no, box) else True


def compile_condition(expr: Expr, full: Sequence[int]) -> Condition:
    """Compile an expression; `full` holds for each variable the mask of all its values.

    Raises:
        Tangled: it is longer or deeper, or would need more cubes, than anything can be proved about.
    """
    if _levels(expr) > MAX_LEVELS or sum(1 for _ in islice(variables(expr), MAX_LITERALS + 1)) > MAX_LITERALS:
        raise Tangled("is too long or too deep: split it into simpler parts")
    yes = _cubes(expr, full, positive=True)
    no = _cubes(expr, full, positive=False)
    return Condition(expr, yes, no, frozenset(variables(expr)))


def variables(expr: Expr) -> Iterator[int]:
    """Name the variables of an expression, with repetition."""
    match expr:
        case Literal(var, _):
            yield var
        case Not(part):
            yield from variables(part)
        case AllOf(parts) | AnyOf(parts):
            for part in parts:
                yield from variables(part)


def _levels(expr: Expr) -> int:
    """Count how deep an expression goes, as far as one level beyond what is allowed."""
    levels = 0
    here: list[Expr] = [expr]
    while here and levels <= MAX_LEVELS:
        levels += 1
        inner: dict[int, Expr] = {}
        for one in here:
            parts = () if isinstance(one, Literal) else (one.part,) if isinstance(one, Not) else one.parts
            # A part that stands in many places (a term) is looked at once.
            inner.update((id(part), part) for part in parts)
        here = list(inner.values())
    return levels


def _cubes(expr: Expr, full: Sequence[int], *, positive: bool) -> tuple[Cube, ...]:
    match expr:
        case Literal(var, mask):
            allowed = (mask if positive else ~mask) & full[var]
            if allowed == full[var]:
                return ((),)
            return (((var, allowed),),) if allowed else ()
        case Not(part):
            return _cubes(part, full, positive=not positive)
        case AllOf(parts) | AnyOf(parts):
            cubes = [_cubes(part, full, positive=positive) for part in parts]
            if isinstance(expr, AllOf) == positive:
                return product(cubes)
            return _absorb(_few([cube for some in cubes for cube in some]))


def product(choices: Iterable[Sequence[Cube]]) -> tuple[Cube, ...]:
    """Give the cubes of 'one cube of each choice', without those that allow nothing."""
    result: tuple[Cube, ...] = ((),)
    for choice in sorted(choices, key=len):
        met = []
        for left in result:
            for right in choice:
                cube = intersect(left, right)
                if cube is not None:
                    met.append(cube)
            _few(met)
        result = _absorb(met)
    return result


def _few(cubes: list[Cube]) -> list[Cube]:
    if len(cubes) > 2 * MAX_CUBES:
        raise Tangled(f"needs more than {MAX_CUBES} cases: split it into simpler parts")
    return cubes


def intersect(left: Cube, right: Cube) -> Cube | None:
    """Give the cube that both allow, or None when there is none."""
    if not left:
        return right
    masks = dict(left)
    for var, mask in right:
        both = masks.get(var, -1) & mask
        if not both:
            return None
        masks[var] = both
    return tuple(sorted(masks.items()))


def _absorb(cubes: list[Cube]) -> tuple[Cube, ...]:
    """Drop every cube that lies within another one."""
    kept: list[dict[int, int]] = []
    for cube in sorted(set(cubes), key=len):
        masks = dict(cube)
        if not any(all(var in masks and not masks[var] & ~m for var, m in big.items()) for big in kept):
            kept.append(masks)
    if len(kept) > MAX_CUBES:
        raise Tangled(f"needs more than {MAX_CUBES} cases: split it into simpler parts")
    return tuple(tuple(sorted(masks.items())) for masks in kept)


def meets(cube: Cube, box: Sequence[int]) -> bool:
    """Whether the cube allows something that is still possible."""
    return all(box[var] & mask for var, mask in cube)


def meets_any(cubes: Iterable[Cube], box: Sequence[int]) -> bool:
    """Whether one of the cubes allows something that is still possible."""
    for cube in cubes:
        for var, mask in cube:
            if not box[var] & mask:
                break
        else:
            return True
    return False


def narrowed(box: Sequence[int], cube: Cube) -> Box | None:
    """Give the part of the box inside the cube, or None when it is empty."""
    inside = list(box)
    for var, mask in cube:
        inside[var] &= mask
        if not inside[var]:
            return None
    return inside
