"""How well a case answers a search: rare words count more, words in the title more, words in a row more."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise, product
from typing import Protocol

from casebook.recall.query import Spelling

# How much more a word counts in number, title, instrument and place; in what was told; in answers and
# strategies; as a length. Ours: tried on demo cases, no source.
WEIGHTS = (4.0, 1.0, 1.5, 2.0)
# A word that ends with this sign in a spelling is the beginning of one.
OPEN = "*"
# The usual constants of BM25 (Robertson and Zaragoza, The Probabilistic Relevance Framework, 2009).
_K1, _B = 1.2, 0.75
# What another spelling counts against the first (another ending, a length 1 thou off). Ours, no source.
_OTHER = 0.7

Parts = tuple[list[str], ...]


class Counts(Protocol):
    """How many cases there are, and in how many a word stands."""

    def size(self) -> int:
        """Count the cases."""

    def cases_with(self, word: str) -> int:
        """Count the cases a word stands in."""


def parts_of(*texts: str) -> Parts:
    """Give the parts of a search text, each as its words."""
    return tuple(part.split(" ") if part else [] for part in texts)


def ranked(
    found: Mapping[int, Parts], counts: Counts, groups: Sequence[Sequence[Spelling]]
) -> list[tuple[int, float]]:
    """Order cases by BM25 over the weighted parts of their texts, the newest first among equals.

    The rarity of a word is log(1 + (N - n + 1/2) / (n + 1/2)), which stays above zero for words that stand in
    most cases, as all of them do in a small book. Two terms that follow each other in the search count once
    more where they do in the case.
    """
    if not found:
        return []
    size = counts.size()
    rows = [
        [(*a, *b) for a, b in product(one, two) if not a[-1].endswith(OPEN)] for one, two in pairwise(groups)
    ]
    wanted = [(group, _cases_with(counts, group)) for group in groups]
    for row in rows:
        standing_so = sum(any(True for _ in standing(parts, row)) for parts in found.values())
        if standing_so:
            wanted.append((row, standing_so))
    middle = sum(_length(parts) for parts in found.values()) / len(found)
    scored = []
    for id, parts in found.items():
        around = _K1 * (1 - _B + _B * _length(parts) / max(middle, 1.0))
        score = 0.0
        for group, cases in wanted:
            often = _often(parts, group)
            score += _rarity(min(cases, size), size) * often * (_K1 + 1) / (often + around)
        scored.append((id, score))
    return sorted(scored, key=lambda s: (-s[1], -s[0]))


def standing(parts: Sequence[Sequence[str]], group: Sequence[Spelling]) -> Iterator[Spelling]:
    """Give the spellings of a group that stand in a text."""
    for spelling in group:
        if any(_matches(words, spelling) for words in parts):
            yield spelling


def _often(parts: Parts, group: Sequence[Spelling]) -> float:
    """Count how often a term stands in a text, weighted; its first spelling is the one meant most."""
    return sum(
        weight
        * sum(_matches(words, spelling) * (1.0 if at == 0 else _OTHER) for at, spelling in enumerate(group))
        for words, weight in zip(parts, WEIGHTS, strict=True)
    )


def _matches(words: Sequence[str], spelling: Spelling) -> int:
    """Count how often a spelling stands in a row of words."""
    *first, last = spelling
    if last.endswith(OPEN):
        begin = last.removesuffix(OPEN)
        ends = [at for at, word in enumerate(words) if word.startswith(begin)]
    elif last in words:
        ends = [at for at, word in enumerate(words) if word == last]
    else:
        return 0
    long = len(first)
    return sum(at >= long and list(words[at - long : at]) == first for at in ends)


def _cases_with(counts: Counts, group: Sequence[Spelling]) -> int:
    return sum(min(counts.cases_with(word.removesuffix(OPEN)) for word in spelling) for spelling in group)


def _rarity(cases: int, size: int) -> float:
    return math.log(1 + (size - cases + 0.5) / (cases + 0.5))


def _length(parts: Parts) -> int:
    return sum(map(len, parts))
