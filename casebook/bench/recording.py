"""Case files into the book: every id and size checked first, so that a file is taken whole or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from casebook.bench.desk import Desk, kept_advice
from casebook.bench.sense import impossible, node_at
from casebook.bench.updating import updated
from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import read_answers
from casebook.records import case_file
from casebook.records.case import Case, Damage
from casebook.records.errors import NoSuchCase
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile, Mapping, line_of, parse


@dataclass(frozen=True, slots=True)
class Filed:
    """A case of a file, checked, with its mapping there, which tells what it says and what it leaves out."""

    case: Case
    node: Mapping


def read_cases(desk: Desk, text: str, file: str) -> list[Filed]:
    """Read a case file and check it against the rule packs.

    Raises:
        BrokenFile: not such a file, an unknown family, question, answer or strategy, a senseless size, a
            date that cannot be, or an earlier case that is not there.
    """
    cases = case_file.read(text, file)
    whole = parse(text, file)
    assert isinstance(whole, Mapping)
    filed = [Filed(case, node) for case, node in zip(cases, whole["cases"], strict=True)]
    numbers = {case.number.casefold() for case in cases}
    for one in filed:
        _check(desk, one.case, file)
        known = _known(desk, one.case.number)
        for path, problem in impossible(one.case if known is None else updated(known, one.case, one.node)):
            raise BrokenFile(file, line_of(node_at(one.node, path), one.node.line), problem)
        earlier = one.case.visit.comes_back_from
        if earlier and earlier.casefold() not in numbers and _known(desk, earlier) is None:
            says = f"comes_back_from: there is no case {earlier} in this book or file"
            raise BrokenFile(file, line_of(earlier), says)
    return filed


def store(desk: Desk, filed: Sequence[Filed]) -> list[str]:
    """Store cases: new ones are added, known numbers are brought up to date. Gives their numbers."""
    numbers = []
    for one in filed:
        known = _known(desk, one.case.number)
        case = one.case if known is None else updated(known, one.case, one.node)
        case = replace(case, damages=tuple(_advised(desk, case, damage) for damage in case.damages))
        for guide in {
            damage.family: desk.library.guide(damage.family) for damage in one.case.damages
        }.values():
            _keep_packs(desk, guide)
        stored = desk.book.add(case) if known is None else desk.book.update(case)
        numbers.append(stored.number)
    return numbers


def _known(desk: Desk, number: str) -> Case | None:
    try:
        return desk.book.case(number) if number else None
    except NoSuchCase:
        return None


def _check(desk: Desk, case: Case, file: str) -> None:
    if case.answers:
        read_answers(desk.library.intake(), case.answers, file)
    for damage in case.damages:
        try:
            guide = desk.library.guide(damage.family)
        except KeyError as error:
            raise BrokenFile(file, line_of(damage.family), str(error.args[0])) from None
        for look in damage.looks:
            read_answers(guide, look.answers, file)
        chosen = damage.choice.strategy if damage.choice else None
        if chosen is not None and chosen not in guide.strategies:
            hint = nearest(chosen, guide.strategies)
            raise BrokenFile(file, line_of(chosen), f"unknown strategy {str(chosen)!r}{hint}")


def _advised(desk: Desk, case: Case, damage: Damage) -> Damage:
    """Give a decision without its advice what the packs say of it today, marked as given now."""
    choice = damage.choice
    if choice is None or choice.advice is not None:
        return damage
    guide = desk.library.guide(damage.family)
    answers = {**case.answers, **damage.looks[-1].answers}
    knowledge, _ = read_answers(guide, answers, f"case {case.number}", strict=False)
    advice = kept_advice(advise(guide, knowledge), desk.unit) | {"given": "when the case was recorded"}
    return replace(damage, choice=replace(choice, advice=advice))


def _keep_packs(desk: Desk, guide: Guide) -> None:
    for pack in guide.packs:
        desk.book.keep_pack(pack.digest, pack.id, pack.version, pack.text)
