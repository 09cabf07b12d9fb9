"""Light commands stay light: what they import is looked at in a process of its own."""

from __future__ import annotations

import subprocess
import sys

import pytest

# dataclasses brings inspect, ast and tokenize along: a tenth of the whole start.
HEAVY = ("sqlmodel", "sqlalchemy", "alembic", "textual", "rich", "pydantic", "rapidfuzz", "dataclasses")

_PROBE = """
import sys
from casebook.commands.line import run
try:
    run({words!r})
finally:
    print("LOADED", *sorted(set(sys.modules) & set({heavy!r})))
"""


def _loaded(*words: str) -> set[str]:
    """Run a command line in a new process and name the heavy packages it imported."""
    code = _PROBE.format(words=list(words), heavy=HEAVY)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    last = done.stdout.strip().splitlines()[-1].split()
    assert last[0] == "LOADED"
    return set(last[1:])


@pytest.mark.parametrize(
    "words",
    [
        ("--version",),
        ("--help",),
        ("worksheet",),
        ("worksheet", "tap-drill", "thread=3-48"),
        ("worksheet", "bushing", "--help"),
        ("triage", "--help"),
    ],
)
def test_light_commands_load_neither_database_nor_screens(words: tuple[str, ...]) -> None:
    """Help and worksheets start at once."""
    assert _loaded(*words) == set()


def test_the_probe_can_see_a_heavy_import(tmp_path: object) -> None:
    """A command that opens the book does load the database: the probe is not blind."""
    assert "sqlalchemy" in _loaded("--book", f"{tmp_path}/none.db", "find", "x")


def test_help_does_not_even_load_yaml() -> None:
    """`--help` is argparse and nothing else of ours."""
    code = "import sys; from casebook.commands.line import run; run(['--help']); print('yaml' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip().endswith("False")
