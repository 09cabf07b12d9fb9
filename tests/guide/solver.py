"""An independent solver for the demands of packs: python-sat's CaDiCaL."""

from __future__ import annotations

from collections.abc import Sequence

from pysat.solvers import Cadical153

from casebook.guide.search import Demand
from tests.guide.drawn import Full


def solvable(full: Full, wanted: Sequence[Demand]) -> bool:
    """Ask python-sat: one boolean per variable and value, exactly one of them true; one per cube of a demand."""
    number: dict[tuple[int, int], int] = {}
    for var, mask in enumerate(full):
        for value in range(mask.bit_length()):
            number[var, value] = len(number) + 1
    last = len(number)
    with Cadical153() as solver:
        for var, mask in enumerate(full):
            values = [number[var, value] for value in range(mask.bit_length())]
            solver.add_clause(values)
            for place, one in enumerate(values):
                for other in values[place + 1 :]:
                    solver.add_clause([-one, -other])
        for demand in wanted:
            chosen = []
            for cube in demand:
                last += 1
                chosen.append(last)
                for var, mask in cube:
                    allowed = [number[var, v] for v in range(full[var].bit_length()) if mask >> v & 1]
                    solver.add_clause([-last, *allowed])
            solver.add_clause(chosen)
        return bool(solver.solve())
