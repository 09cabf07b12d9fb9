"""The order of hits against BM25 as published, worked by hand on a collection of three.

Source: S. Robertson and H. Zaragoza, The Probabilistic Relevance Framework: BM25 and Beyond, Foundations and
Trends in Information Retrieval 3 (2009), eq. 3.15, from memory: weight = rarity * tf (k1 + 1) /
(tf + k1 (1 - b + b length / mean length)), k1 = 1.2, b = 0.75, rarity log(1 + (N - n + 0.5) / (n + 0.5)).
"""

from __future__ import annotations

import pytest

from casebook.recall.rank import ranked

_TEXTS: dict[int, tuple[list[str], ...]] = {
    1: ([], ["post", "loose", "post", "leaks"], [], []),
    2: ([], ["ring", "loose"], [], []),
    3: ([], ["crack", "through", "the", "barrel", "and", "post"], [], []),
}


class _Counted:
    def size(self) -> int:
        return len(_TEXTS)

    def cases_with(self, word: str) -> int:
        return sum(word in text[1] for text in _TEXTS.values())


def _score(word: str, id: int) -> float:
    return dict(ranked(_TEXTS, _Counted(), [[(word,)]]))[id]


def test_a_word_that_stands_twice_in_one_of_two_cases() -> None:
    """n = 2 of N = 3: log(1 + 1.5 / 2.5) = 0.470004; tf 2, length 4 = mean: 2 * 2.2 / (2 + 1.2) = 1.375."""
    assert _score("post", 1) == pytest.approx(0.470004 * 1.375, abs=1e-6)


def test_a_word_that_stands_once_in_a_long_case() -> None:
    """tf 1, length 6 of mean 4: 2.2 / (1 + 1.2 (0.25 + 0.75 * 1.5)) = 2.2 / 2.65 = 0.830189."""
    assert _score("post", 3) == pytest.approx(0.470004 * 0.830189, abs=1e-6)


def test_a_word_that_stands_in_one_short_case_only() -> None:
    """n = 1: log(1 + 2.5 / 1.5) = 0.980829; length 2 of mean 4: 2.2 / (1 + 1.2 (0.25 + 0.375)) = 1.257143."""
    assert _score("ring", 2) == pytest.approx(0.980829 * 1.257143, abs=1e-6)
