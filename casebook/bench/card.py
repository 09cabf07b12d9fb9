"""The measuring card: a letter for every size of a family, and one line of letters with what was read."""

from __future__ import annotations

import re
from dataclasses import dataclass
from string import ascii_uppercase

from casebook.guide.guide import Guide
from casebook.guide.pack import CROSS_CUTTING
from casebook.guide.reasons import in_bench_order

# I and O are taken for figures on a card written by hand, M begins a metric thread.
_LETTERS = [letter for letter in ascii_uppercase if letter not in "IMO"]
_LETTERS += [f"{first}{second}" for first in "AB" for second in _LETTERS]
# A letter stands by itself, or before a figure: A 7.5, A: 7.5, A7.5. Letter F is a drill.
_MARK = re.compile(r"(?<!\S)(?<!letter )(?<!drill )(?!M[0-9])([A-Z]{1,2})(?:\s*[:=]\s*|\s+|(?=[0-9.,#])|$)")


class NoCard(ValueError):
    """A line that does not fit the card: what, and what to type instead."""


@dataclass(frozen=True, slots=True)
class CardLine:
    """One line of the card.

    Attributes:
        letter: its letter.
        question: the question's id.
        name: what is measured.
        tool: the tool in hand.
    """

    letter: str
    question: str
    name: str
    tool: str


def card(guide: Guide) -> tuple[CardLine, ...]:
    """Give the card of a family: its sizes in the order of the bench, so by tool and with the part in first.

    The letters stay the same whatever was answered; intake has none.
    """
    shared = {id for pack in guide.packs if pack.id == CROSS_CUTTING for id in pack.questions}
    sizes = [id for id, one in guide.questions.items() if one.kind == "length" and id not in shared]
    ordered = in_bench_order(guide, sizes)
    return tuple(
        CardLine(letter, id, guide.questions[id].name, guide.questions[id].tool)
        for letter, id in zip(_LETTERS, ordered, strict=False)
    )


def read_line(guide: Guide, line: str) -> dict[str, str]:
    """Part a line such as ``A 7.5 B 5.2 C 27`` into answers as typed, by question.

    Raises:
        NoCard: something before the first letter, a letter that the card lacks or that stands twice, or a
            letter with nothing behind it. One line says which.
    """
    lines = {one.letter: one for one in card(guide)}
    marks = list(_MARK.finditer(line.strip()))
    text = line.strip()
    before = text[: marks[0].start()].strip() if marks else text
    if before or not marks:
        shown = before if len(before) <= 30 else f"{before[:27]}..."
        raise NoCard(f"{shown!r} has no letter before it: type the letters of the card, as A 7.5 B 5.2")
    answers: dict[str, str] = {}
    for mark, following in zip(marks, [*marks[1:], None], strict=True):
        letter = mark.group(1)
        found = lines.get(letter)
        if found is None:
            last = next(reversed(lines), None)
            known = f"they go from A to {last}" if last else "this family has no sizes"
            raise NoCard(f"{letter} is no letter of this card: {known}, without I, M and O")
        typed = text[mark.end() : following.start() if following else None].strip(" ,;")
        if not typed:
            raise NoCard(f"{letter} ({found.name}) has no size behind it")
        if found.question in answers:
            raise NoCard(f"{letter} ({found.name}) stands here twice")
        answers[found.question] = typed
    return answers
