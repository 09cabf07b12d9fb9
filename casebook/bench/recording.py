"""Case files into the book: every id and size checked first, so that a file is taken whole or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from casebook.bench.desk import Desk, kept_advice
from casebook.bench.triage import merged
from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import read_answers
from casebook.records import case_file
from casebook.records.case import Case, Damage
from casebook.records.errors import NoSuchCase
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile, line_of


def read_cases(desk: Desk, text: str, file: str) -> list[Case]:
    """Read a case file and check it against the rule packs.

    Raises:
        BrokenFile: not such a file, or an unknown family, question, answer or strategy, or a senseless size.
    """
    cases = case_file.read(text, file)
    return [_checked(desk, case, file) for case in cases]


def store(desk: Desk, cases: Sequence[Case]) -> list[str]:
    """Store cases: new ones are added, known numbers are updated. Gives their numbers."""
    numbers = []
    for case in cases:
        _keep_packs(desk, case)
        try:
            known = case.number and desk.book.case(case.number)
        except NoSuchCase:
            known = None
        stored = desk.book.update(case) if known else desk.book.add(case)
        numbers.append(stored.number)
    return numbers


def _checked(desk: Desk, case: Case, file: str) -> Case:
    if case.answers:
        read_answers(desk.library.intake(), case.answers, file)
    return replace(case, damages=tuple(_checked_damage(desk, case, damage, file) for damage in case.damages))


def _checked_damage(desk: Desk, case: Case, damage: Damage, file: str) -> Damage:
    try:
        guide = desk.library.guide(damage.family)
    except KeyError as error:
        raise BrokenFile(file, line_of(damage.family), str(error.args[0])) from None
    for look in damage.looks:
        read_answers(guide, look.answers, file)
    choice = damage.choice
    if choice is None:
        return damage
    if choice.strategy not in guide.strategies:
        hint = nearest(choice.strategy, guide.strategies)
        raise BrokenFile(file, line_of(choice.strategy), f"unknown strategy {str(choice.strategy)!r}{hint}")
    if choice.advice is None:
        # The advice was not kept when it was given; what the packs say today stands in, and says so.
        knowledge, _ = read_answers(guide, merged(case.answers, damage.looks[-1].answers, file), file)
        advice = kept_advice(advise(guide, knowledge), desk.unit) | {"given": "when the case was recorded"}
        choice = replace(choice, advice=advice)
    return replace(damage, choice=choice)


def _keep_packs(desk: Desk, case: Case) -> None:
    for guide in {damage.family: desk.library.guide(damage.family) for damage in case.damages}.values():
        _keep(desk, guide)


def _keep(desk: Desk, guide: Guide) -> None:
    for pack in guide.packs:
        desk.book.keep_pack(pack.digest, pack.id, pack.version, pack.text)
