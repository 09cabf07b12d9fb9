"""Instruments that were here: found by a word of them, of their owner or of what they came for."""

from __future__ import annotations

from rapidfuzz import fuzz

from casebook.records.case import InstrumentRow
from casebook.safe_text import safe

# A word of letters this much like one that stands there is taken for a slip of the hand, if it is long enough
# to have one (ours, no source). A number one off is another number.
_ALIKE = 80.0
_LONG = 4


def matching(rows: list[InstrumentRow], typed: str) -> list[InstrumentRow]:
    """Keep the instruments of which every word typed begins a word, or nearly is one; the order stays.

    Args:
        rows: instruments, as the book lists them.
        typed: what somebody remembers; nothing keeps all.
    """
    asked = safe(typed).casefold().split()
    return [row for row in rows if _all_stand(asked, _words(row))]


def _words(row: InstrumentRow) -> list[str]:
    thing = row.instrument
    told = (thing.kind, thing.description, thing.materials, thing.marks, row.owner, *row.cases, *row.titles)
    return " ".join(told).casefold().replace(",", " ").split()


def _all_stand(asked: list[str], words: list[str]) -> bool:
    return all(_stands(word, words) for word in asked)


def _stands(word: str, words: list[str]) -> bool:
    if any(one.startswith(word) for one in words):
        return True
    return len(word) >= _LONG and word.isalpha() and any(fuzz.ratio(word, one) >= _ALIKE for one in words)
