"""The invented shop's cases hold together: ids, sizes, worksheets, and the spread they are there to show."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from casebook import figures
from casebook.bench.demo import fill
from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.figures.inputs import read
from casebook.guide.advice import advise
from casebook.guide.knowledge import read_answers
from casebook.records.book import Book
from casebook.records.case import Case, Damage
from casebook.records.case_file import read as read_cases
from casebook.resources import folder, yaml_files

LIBRARY = Library()


def _cases() -> list[Case]:
    return [
        case
        for file in yaml_files(folder("demo_cases"))
        for case in read_cases(file.read_text(encoding="utf-8"), file.name)
    ]


CASES = _cases()
DAMAGES = [
    pytest.param(case, damage, id=f"{case.number}-{damage.number}")
    for case in CASES
    for damage in case.damages
]


def test_the_demo_shows_the_whole_job() -> None:
    """At least twelve cases, several instruments, second looks, follow-ups that held and not, one unfinished."""
    damages = [damage for case in CASES for damage in case.damages]
    assert len(CASES) >= 12
    assert len({case.instrument.kind for case in CASES}) >= 4
    assert any(len(damage.looks) > 1 for damage in damages)
    assert {"yes", "no"} <= {followup.held for damage in damages for followup in damage.followups}
    assert any(not case.finished and any(d.choice is None for d in case.damages) for case in CASES)


def test_they_fill_a_book(tmp_path: Path) -> None:
    """Every case is stored with its number."""
    desk = Desk(Book.open(tmp_path / "demo.db"), LIBRARY, date(2026, 11, 25))
    assert sorted(fill(desk)) == sorted(case.number for case in CASES)
    assert desk.book.count() == len(CASES)


@pytest.mark.parametrize(("case", "damage"), DAMAGES)
def test_a_chosen_strategy_does_no_harm(case: Case, damage: Damage) -> None:
    """What was chosen was not ruled out by the look it was chosen on, and the last look does not clash."""
    guide = LIBRARY.guide(damage.family)
    looks = [
        advise(guide, read_answers(guide, {**case.answers, **look.answers}, case.number)[0])
        for look in damage.looks
    ]
    assert looks[-1].contradictions == ()
    if damage.choice is not None:
        standings = [advice.proposal(damage.choice.strategy).standing for advice in looks]
        assert set(standings) != {"ruled_out"}


@pytest.mark.parametrize(("case", "damage"), DAMAGES)
def test_its_figures_pass_the_worksheets(case: Case, damage: Damage) -> None:
    """Every worksheet kept with a damage still reads, and a repair that was cut passed its checks."""
    for used in damage.figures:
        sheet = figures.worksheet(used.worksheet)
        result = sheet.run(read(sheet.inputs, dict(used.inputs)))
        assert result.figures
        if used.worksheet == "bushing":
            failed = [name for name, check in result.checks.items() if check.holds == "no"]
            assert failed == [], case.number
