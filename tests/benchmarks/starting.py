"""How long commands take to start, as ratios to the bare interpreter, each pair of runs side by side.

Run with ``python -m tests.benchmarks.starting``; bytecode is compiled by the first run, which is not counted.
"""

from __future__ import annotations

import os
import subprocess
import sys
from statistics import median
from time import perf_counter

RUNS = 25
COMMANDS = (
    ("--help", 4.0),
    ("worksheet tap-drill thread=3-48", 6.0),
)


def _seconds(*words: str) -> float:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    start = perf_counter()
    subprocess.run([sys.executable, *words], env=environment, stdout=subprocess.DEVNULL, check=True)
    return perf_counter() - start


def main() -> None:
    """Print the median ratio of each command to ``python -c pass``, and what is aimed at."""
    for command, most in COMMANDS:
        words = ("-m", "casebook", *command.split())
        _seconds(*words)
        ratios = [_seconds(*words) / _seconds("-c", "pass") for _ in range(RUNS)]
        print(f"casebook {command}: {median(ratios):.1f} times python -c pass (at most {most:g})")


if __name__ == "__main__":
    main()
