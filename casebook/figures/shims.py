"""Papers and foils to pack with: one, or two together; a stack of many is soft."""

from __future__ import annotations

from functools import cache

from casebook.figures.cutters import outside
from casebook.figures.drawer import Chosen, Misfit, Piece, on_hand, pick, pieces
from casebook.figures.inputs import Input
from casebook.figures.worksheet import Result

SHIMS = Input(
    "shims", "sizes", "papers and foils in the drawer",
    default="0.01 mm, 0.015 mm, 0.02 mm, 0.025 mm, 0.03 mm, 0.05 mm, 0.075 mm, 0.1 mm, 0.15 mm, 0.2 mm",
    low="0.003 mm", high="2 mm", measured=False, shelf="shims",
)  # fmt: skip


def stacks(result: Result) -> tuple[Piece, ...]:
    """Give what one or two shims make: those of the drawer, else of those that are sold."""
    return _stacks(on_hand(result, SHIMS) or pieces(SHIMS.default or ""))


@cache
def _stacks(single: tuple[Piece, ...]) -> tuple[Piece, ...]:
    twos = [
        Piece(f"{thin.name} + {thick.name}", thin.size + thick.size)
        for number, thin in enumerate(single)
        for thick in single[number:]
    ]
    return (*single, *twos)


def filling(least: float, most: float) -> Misfit:
    """Prefer a single shim, the thickest from `least` to `most` mm; then two; then what misses least."""
    return lambda stack: (outside(stack, least, most), "+" in stack.name, -stack.mm)


def choose_shims(result: Result, misfit: Misfit) -> Chosen:
    """Choose one or two shims and keep the choice with the result."""
    made = _stacks(pieces(SHIMS.default or ""))
    have = on_hand(result, SHIMS)
    chosen = pick("shims", misfit, made, None if have is None else _stacks(have))
    assert chosen is not None
    result.chosen[SHIMS.name] = chosen
    return chosen
