"""What somebody typed into the search, taken apart: words, lengths, notes, and things written as one.

Nothing of it is ever search syntax. A term is found where any of its spellings stands; a spelling is one
or more words in a row.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from casebook.records.words import THOU, measure_spots, measure_word, note_spots, words

MAX_CHARACTERS = 400
MAX_TERMS = 12
# A part of a word with a hyphen that is shorter says nothing alone.
_ALONE = 3
# Words so common in any telling that they say nothing, unless nothing else is asked for.
EMPTY_WORDS = frozenset((
    "a", "an", "the", "of", "on", "in", "at", "to", "for", "with", "and", "or", "by", "from", "was", "is",
    "are", "it", "its", "this", "that", "which", "had", "has", "have", "be",
))  # fmt: skip
_DECIMAL = re.compile(r"\d{0,4}[.,]\d{1,4}")

Spelling = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Term:
    """One thing asked for.

    Attributes:
        typed: as it was typed.
        spellings: any of these will do.
        fixed: whether it stands as it is: a length, a note, something with digits is not mended.
    """

    typed: str
    spellings: tuple[Spelling, ...]
    fixed: bool = True


def terms(typed: str) -> list[Term]:
    """Take a search apart. Without anything to search for, the list is empty."""
    text = typed[:MAX_CHARACTERS]
    found = list(_terms(text))
    telling = [term for term in found if term.fixed or term.spellings[0][0] not in EMPTY_WORDS]
    once = {term.spellings: term for term in reversed(telling or found)}
    return list(reversed(once.values()))[:MAX_TERMS]


def _terms(text: str) -> Iterator[Term]:
    spots = [
        (span, (measure_word(thou + d),), thou) for thou, span in measure_spots(text) for d in (0, -1, 1)
    ]
    marked: dict[tuple[int, int], list[Spelling]] = {}
    for span, spelling, _ in spots:
        marked.setdefault(span, []).append(spelling)
    for note, span in note_spots(text):
        if not any(start <= span[0] < end for start, end in marked):
            marked[span] = [(note,)]
    at = 0
    for (start, end), spellings in sorted(marked.items()):
        yield from _plain(text[at:start])
        yield Term(text[start:end].strip(), tuple(spellings))
        at = end
    yield from _plain(text[at:])


def _plain(text: str) -> Iterator[Term]:
    for chunk in text.split():
        typed = chunk.strip(",;:!?()'\"")
        spelling = tuple(words(typed))
        if any(character.isdigit() for character in typed):
            bare = ((measure_word(thou),) for thou in _bare(typed))
            yield Term(typed, (spelling, *bare) if spelling else tuple(bare))
        elif len(spelling) > 1 and min(map(len, spelling)) < _ALONE:
            yield Term(typed, (spelling, ("".join(spelling),)))
        else:
            for word in spelling:
                yield Term(word if len(spelling) > 1 else typed, ((word,),), fixed=False)


def _bare(typed: str) -> Iterator[int]:
    """Give the lengths a bare decimal may be, in thousandths of an inch: mm, and inches where it looks so."""
    if not _DECIMAL.fullmatch(typed):
        return
    value = Fraction(typed.replace(",", "."))
    inches = len(typed) - typed.replace(",", ".").index(".") > 3 and value < 3
    for thou in (round(value / THOU), round(value * 1000) if inches else 0):
        if thou:
            yield from (thou, thou - 1, thou + 1)
