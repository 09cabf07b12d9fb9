"""Typed search: all words as they are; else with slips of the hand mended; else with a word left away."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, combinations

from sqlalchemy import Connection, select

from casebook.recall.hit import FindResult, Hit, Share
from casebook.recall.index import Index, index_of
from casebook.recall.query import Spelling, Term, terms
from casebook.recall.rank import OPEN, Parts, parts_of, standing
from casebook.recall.stem import beginning, stem
from casebook.records.book import Book
from casebook.records.case import Case, Damage
from casebook.records.case_rows import number_key
from casebook.records.document import Document, damage_document, document
from casebook.records.reading import load
from casebook.records.tables import CaseRecord, table
from casebook.records.words import measured
from casebook.safe_text import safe

# A known word is taken for a slip only of one that is so many times commoner, and stands in so many cases.
_COMMONER = 10
_AT_LEAST = 3
_CANDIDATES = 3
_TRIES = 60
_LONGEST_ENDING = len("tings")


def find(book: Book, words: str, limit: int = 10) -> FindResult:
    """Find cases by what somebody remembers of them.

    Args:
        book: where to look.
        words: anything at all: words, beginnings of words, lengths in any unit, notes, a case number.
        limit: how many hits at most.

    Returns:
        The hits, one a case, best first, with the damage that fits best; and what was mended in the words.

    Raises:
        StorageError: the book cannot be read.
    """
    typed = safe(words)
    asked = terms(typed)
    if limit < 1:
        return FindResult()
    with book.reading() as connection:
        number = _by_number(connection, typed.strip())
        found = _Search(index_of(connection), asked).run(limit) if asked else _Found([], [])
        ids = list(dict.fromkeys([*number, *(id for id, _ in found.scored)]))[:limit]
        scores = dict(found.scored)
        top = max(scores.values(), default=0.0)
        cases = zip(ids, load(connection, ids), strict=True)
        hits = tuple(_hit(case, scores.get(id, top + 1), asked, found.groups) for id, case in cases)
    return FindResult(hits, _corrected(hits, asked, found), _nowhere(asked, found))


@dataclass(frozen=True, slots=True)
class _Found:
    """Row ids with scores, and for each term the spellings it was searched by; mended ones apart."""

    scored: list[tuple[int, float]]
    groups: list[tuple[Spelling, ...]]
    mended: frozenset[str] = frozenset()


class _Search:
    """One search over one index."""

    def __init__(self, index: Index, asked: Sequence[Term]) -> None:
        self.index = index
        self.asked = asked

    def run(self, limit: int) -> _Found:
        """Try the stages in turn and give the first that finds something."""
        last = len(self.asked) - 1
        exact = [self._known(term, open_ended=at == last) for at, term in enumerate(self.asked)]
        if all(exact):
            scored = self.index.search(exact, limit, every=True)
            if scored:
                return _Found(scored, exact)
        mended = [known or self._mended(term) for term, known in zip(self.asked, exact, strict=True)]
        doubted = [
            group + (self._commoner(term) if known else ())
            for term, known, group in zip(self.asked, exact, mended, strict=True)
        ]
        changed = frozenset(
            term.typed for term, known, now in zip(self.asked, exact, doubted, strict=True) if known != now
        )
        if changed and all(doubted):
            scored = self.index.search(doubted, limit, every=True)
            if scored:
                return _Found(scored, doubted, changed)
        changed = frozenset(
            term.typed for term, known, now in zip(self.asked, exact, mended, strict=True) if known != now
        )
        return _Found(self._fewer(mended, limit), mended, changed)

    def _known(self, term: Term, *, open_ended: bool) -> tuple[Spelling, ...]:
        """Give the spellings under which a term stands in the index: itself, other endings, longer words."""
        if term.fixed:
            return term.spellings if self.index.search([term.spellings], 1, every=True) else ()
        [(word,)] = term.spellings
        spellings = dict.fromkeys(self._endings(word))
        if len(word) >= 3 and (open_ended or not spellings) and self.index.beginning_with(word):
            spellings[(word + OPEN,)] = None
        return tuple(spellings)

    def _endings(self, word: str) -> list[Spelling]:
        """Give a word, if it stands anywhere, and what stands there of the same stem."""
        root = stem(word)
        family = self.index.beginning_with(beginning(word), len(root) + _LONGEST_ENDING)
        others: list[Spelling] = [(other,) for other in family if stem(other) == root and other != word]
        return [(word,), *others] if self.index.cases_with(word) else others

    def _mended(self, term: Term) -> tuple[Spelling, ...]:
        """Give what a word that stands nowhere may have meant: the nearest words, or two run together."""
        if term.fixed:
            return ()
        [(word,)] = term.spellings
        near = self.index.near(word)
        if near:
            nearest = [other for distance, _, other in near if distance == near[0][0]][:_CANDIDATES]
            return tuple(dict.fromkeys(s for other in nearest for s in self._endings(other)))
        for cut in range(3, len(word) - 2):
            pair = (word[:cut], word[cut:])
            if all(self.index.cases_with(part) for part in pair):
                return (pair,)
        return ()

    def _commoner(self, term: Term) -> tuple[Spelling, ...]:
        """Give what a word that does stand somewhere may have meant, where others are far commoner."""
        if term.fixed:
            return ()
        [(word,)] = term.spellings
        own = self.index.cases_with(word)
        enough = max(_AT_LEAST, _COMMONER * own)
        return tuple((other,) for _, minus, other in self.index.near(word) if -minus >= enough)[:_CANDIDATES]

    def _fewer(self, groups: Sequence[tuple[Spelling, ...]], limit: int) -> list[tuple[int, float]]:
        """Leave away one word, then two, ... until something is found; at the last any word will do."""
        known = [group for group in groups if group]
        for left in range(len(known), 0, -1):
            if math.comb(len(known), left) > _TRIES:
                break
            scored: dict[int, float] = {}
            for some in combinations(known, left):
                for id, score in self.index.search(some, limit, every=True):
                    scored[id] = max(score, scored.get(id, 0.0))
            if scored:
                return sorted(scored.items(), key=lambda s: (-s[1], -s[0]))[:limit]
        return self.index.search(known, limit, every=False) if known else []


def _by_number(connection: Connection, typed: str) -> list[int]:
    """Give the case whose very number was typed."""
    cases = table(CaseRecord)
    return list(connection.scalars(select(cases.c.id).where(cases.c.number_key == number_key(typed))))


def _hit(case: Case, score: float, asked: Sequence[Term], groups: Sequence[tuple[Spelling, ...]]) -> Hit:
    """Say which damage of a case was meant, and which words it has."""
    whole = _parts(document(case))
    damage = max(case.damages, key=lambda d: (_fits(d, groups), -d.number), default=None)
    agrees: list[Share] = []
    differs: list[Share] = []
    for term, group in zip(asked, groups or [()] * len(asked), strict=True):
        there = next((_shown(spelling) for spelling in standing(whole, group)), "")
        (agrees if there else differs).append(Share(term.typed, term.typed, there))
    return Hit.of(case, damage, score, tuple(agrees), tuple(differs))


def _fits(damage: Damage, groups: Sequence[tuple[Spelling, ...]]) -> int:
    own = _parts(damage_document(damage))
    return sum(any(True for _ in standing(own, group)) for group in groups)


def _parts(text: Document) -> Parts:
    return parts_of(text.head, text.body, text.codes, text.measures)


def _shown(spelling: Spelling) -> str:
    thou = measured(spelling[0])
    return " ".join(spelling).removesuffix(OPEN) if thou is None else f"{thou} thou"


def _corrected(hits: Sequence[Hit], asked: Sequence[Term], found: _Found) -> dict[str, str]:
    """Say by which word each mended one was searched: the one that the best hit has."""
    used: dict[str, str] = {}
    shares = list(chain.from_iterable(hit.agrees for hit in hits))
    for term, group in zip(asked, found.groups, strict=bool(found.groups)):
        if term.typed in found.mended and group:
            there = (share.there for share in shares if share.what == term.typed)
            word = str(next(there, " ".join(group[0])))
            if stem(word) != stem(term.spellings[0][0]):
                used[term.typed] = word
    return used


def _nowhere(asked: Sequence[Term], found: _Found) -> tuple[str, ...]:
    return tuple(
        term.typed for term, group in zip(asked, found.groups, strict=bool(found.groups)) if not group
    )
