"""The search index of a book: SQLite's full-text index, or the kept search texts read through."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cached_property
from itertools import chain

from rapidfuzz import process
from rapidfuzz.distance import OSA
from sqlalchemy import Connection, text

from casebook.recall.query import Spelling
from casebook.recall.rank import OPEN, WEIGHTS, parts_of, ranked, standing

_MOST = 40
# How many cases are looked at closely; more than are ever shown.
_CLOSELY = 100


class Index(ABC):
    """Words of a book, and the cases in which they stand."""

    @abstractmethod
    def size(self) -> int:
        """Count the cases."""

    @abstractmethod
    def cases_with(self, word: str) -> int:
        """Count the cases a word stands in."""

    @abstractmethod
    def beginning_with(self, letters: str, longest: int = 1000) -> Mapping[str, int]:
        """Give words that begin so, with the number of cases they stand in; the commonest, not all."""

    @abstractmethod
    def words_of_length(self, shortest: int, longest: int) -> Mapping[str, int]:
        """Give all words of a length, with the number of cases they stand in."""

    @abstractmethod
    def search(
        self, groups: Sequence[Sequence[Spelling]], limit: int, *, every: bool
    ) -> list[tuple[int, float]]:
        """Give row ids of cases with a score, best first.

        Args:
            groups: one a term: the spellings of which any will do.
            limit: how many at most.
            every: whether a case must have all terms, or any.
        """

    def near(self, word: str) -> list[tuple[int, int, str]]:
        """Give words that a slip of the hand may have meant: distance, minus cases, word; the nearest first.

        One slip (a letter wrong, missing, too many, or two changed round) in up to four letters, two in
        more; words with digits are not mended.
        """
        if len(word) < 3 or not word.isalpha():
            return []
        slips = 1 if len(word) <= 4 else 2
        known = {
            other: count
            for other, count in self.words_of_length(len(word) - slips, len(word) + slips).items()
            if other.isalpha() and other != word
        }
        found = process.extract(word, known.keys(), scorer=OSA.distance, score_cutoff=slips, limit=None)
        # The first letter is seldom the wrong one.
        found.sort(key=lambda f: (f[1], f[0][0] != word[0], -known[f[0]], f[0]))
        return [(int(distance), -known[other], other) for other, distance, _ in found]


def index_of(connection: Connection) -> Index:
    """Give the index of the book on this connection."""
    return FullTextIndex(connection) if connection.dialect.name == "sqlite" else PlainIndex(connection)


class FullTextIndex(Index):
    """SQLite's full-text index and its list of words."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def size(self) -> int:
        """Count the cases."""
        return int(self._connection.execute(text("SELECT count(*) FROM search_texts")).scalar_one())

    def cases_with(self, word: str) -> int:
        """Count the cases a word stands in."""
        wanted = text("SELECT doc FROM search_index_words WHERE term = :word")
        return int(self._connection.scalar(wanted, {"word": word}) or 0)

    def beginning_with(self, letters: str, longest: int = 1000) -> Mapping[str, int]:
        """Give words that begin so."""
        wanted = text(
            "SELECT term, doc FROM search_index_words WHERE term >= :low AND term < :high"
            " AND length(term) <= :longest ORDER BY doc DESC, term LIMIT :most"
        )
        limits = {"low": letters, "high": letters + "\U0010ffff", "longest": longest, "most": _MOST}
        return {row.term: row.doc for row in self._connection.execute(wanted, limits)}

    def words_of_length(self, shortest: int, longest: int) -> Mapping[str, int]:
        """Give all words of a length."""
        return {word: count for word, count in self._all_words if shortest <= len(word) <= longest}

    @cached_property
    def _all_words(self) -> Sequence[tuple[str, int]]:
        rows = self._connection.exec_driver_sql("SELECT term, doc FROM search_index_words")
        return [(row[0], row[1]) for row in rows.all()]

    def search(
        self, groups: Sequence[Sequence[Spelling]], limit: int, *, every: bool
    ) -> list[tuple[int, float]]:
        """Give row ids of cases with their score."""
        weights = ", ".join(map(str, WEIGHTS))
        wanted = text(
            "SELECT case_id, t.head, t.body, t.codes, t.measures FROM search_index"
            " JOIN search_texts AS t ON t.case_id = search_index.rowid"
            " WHERE search_index MATCH :match"
            f" ORDER BY bm25(search_index, {weights}), case_id DESC LIMIT :most"
        )
        joined = (" AND " if every else " OR ").join(
            f"({' OR '.join(_phrase(spelling) for spelling in group)})" for group in groups
        )
        rows = self._connection.execute(wanted, {"match": joined, "most": max(limit, _CLOSELY)})
        return ranked({id: parts_of(*texts) for id, *texts in rows}, self, groups)[:limit]


def _phrase(spelling: Spelling) -> str:
    """Write a spelling as one quoted string of the full-text language, in which nothing has a meaning."""
    last = spelling[-1]
    plain = [*spelling[:-1], last.removesuffix(OPEN)]
    quoted = " ".join(plain).replace('"', '""')
    return f'"{quoted}"{" *" if last.endswith(OPEN) else ""}'


class PlainIndex(Index):
    """The kept search texts, read through: for a book whose database has no index of ours."""

    def __init__(self, connection: Connection) -> None:
        rows = connection.execute(text("SELECT case_id, head, body, codes, measures FROM search_texts"))
        self._texts = {id: parts_of(*texts) for id, *texts in rows}

    @cached_property
    def _cases_with(self) -> Counter[str]:
        return Counter(chain.from_iterable(set(chain.from_iterable(parts)) for parts in self._texts.values()))

    def size(self) -> int:
        """Count the cases."""
        return len(self._texts)

    def cases_with(self, word: str) -> int:
        """Count the cases a word stands in."""
        return self._cases_with[word]

    def beginning_with(self, letters: str, longest: int = 1000) -> Mapping[str, int]:
        """Give words that begin so."""
        found = [
            (word, count)
            for word, count in self._cases_with.items()
            if word.startswith(letters) and len(word) <= longest
        ]
        return dict(sorted(found, key=lambda f: (-f[1], f[0]))[:_MOST])

    def words_of_length(self, shortest: int, longest: int) -> Mapping[str, int]:
        """Give all words of a length."""
        return {word: count for word, count in self._cases_with.items() if shortest <= len(word) <= longest}

    def search(
        self, groups: Sequence[Sequence[Spelling]], limit: int, *, every: bool
    ) -> list[tuple[int, float]]:
        """Give row ids of cases with their score."""
        wanted = all if every else any
        found = {
            id: parts
            for id, parts in self._texts.items()
            if wanted(next(standing(parts, group), None) is not None for group in groups)
        }
        return ranked(found, self, groups)[:limit]
