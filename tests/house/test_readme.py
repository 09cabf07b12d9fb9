"""The README keeps its promises: the job first, two one-line commands, commands and examples that exist."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from casebook.bench.library import Library
from casebook.bench.triage import triage
from casebook.commands.parser import COMMANDS
from tests.line import Casebook

README = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.M | re.S)


def test_the_job_stands_in_one_paragraph_at_the_top() -> None:
    """Heading, then one paragraph that says what a repairer must do and what this serves."""
    heading, paragraph = README.split("\n\n")[:2]
    assert heading == "# casebook"
    assert "serves that whole job" in " ".join(paragraph.split())


def test_two_commands_set_up_a_fresh_machine() -> None:
    """The first fenced block runs the main job, the second the tests; each is one line."""
    first, second = BLOCKS[0][1], BLOCKS[1][1]
    assert first.count("\n") == second.count("\n") == 1
    assert first.strip().endswith("casebook demo")
    assert second.strip().endswith("pytest")
    assert all("python3 -m venv" in line and "pip install" in line for line in (first, second))


def test_the_commands_it_names_exist() -> None:
    """Every `casebook COMMAND` in it is one."""
    named = set(re.findall(r"`casebook (?!-)(\w+)", README))
    assert named
    assert named <= set(COMMANDS)


def test_its_answers_file_is_taken() -> None:
    """The example can be copied as it stands."""
    yaml = next(text for language, text in BLOCKS if language == "yaml")
    bench = triage(Library(), yaml, "README.md")
    assert bench.advices[0].contradictions == ()


@pytest.mark.parametrize("line", re.findall(r"`casebook (worksheet [^`]+)`", README))
def test_its_worksheets_compute(casebook: Casebook, line: str) -> None:
    """The examples can be copied as they stand."""
    assert casebook(*shlex.split(line)).status == 0


def test_there_is_a_picture_of_the_screens() -> None:
    """Drawn in text, so that it is seen everywhere."""
    assert any("What could be done" in text for language, text in BLOCKS if language == "text")
