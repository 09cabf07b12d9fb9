"""How long one worksheet takes in-process, with readings, intervals and checks, as a ratio to 2 ms.

Run with ``python -m tests.benchmarks.worksheets``.
"""

from __future__ import annotations

import shlex
from statistics import median
from time import perf_counter

from casebook import figures
from casebook.figures.inputs import read

RUNS = 30
_MOST_MS = 2.0


def main() -> None:
    """Print the median time of every worksheet's own example, the slowest first."""
    rows = []
    for id in figures.IDS:
        sheet = figures.worksheet(id)
        typed = dict(word.split("=", 1) for word in shlex.split(sheet.example))
        taken = []
        for _ in range(RUNS + 1):
            start = perf_counter()
            sheet.run(read(sheet.inputs, typed))
            taken.append(1000 * (perf_counter() - start))
        rows.append((median(taken[1:]), id))
    for milliseconds, id in sorted(rows, reverse=True):
        print(f"{id:<18} {milliseconds:6.2f} ms, {milliseconds / _MOST_MS:.2f} of what is allowed")


if __name__ == "__main__":
    main()
