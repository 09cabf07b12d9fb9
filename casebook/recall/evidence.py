"""How far two answers to one question speak for the same kind of damage, as natural logarithms of odds.

After Fellegi and Sunter, A Theory for Record Linkage (1969): an agreement weighs log(m / u), a disagreement
log((1 - m) / (1 - u)), where m is how often like damages agree and u how often any two do by chance. Not
known weighs nothing. The shares add up, so each of them is its own explanation.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from statistics import pstdev

from casebook.quantity import NotUnderstood, read_length
from casebook.records.case import Answer

# How often like damages give the same answer; stated, not learned (common practice, no source).
AGREE = 0.75
# The least that counts as a spread, so that equal readings of one caliper do not make it nothing: mm, and
# one for plain counts. Ours, no source.
_LEAST_MM = 0.1
_LEAST_COUNT = 1.0
_NOT_KNOWN = frozenset(("", "not_known"))
_COUNT = re.compile(r"\d{1,6}(?:\.\d{1,6})?")


@dataclass(frozen=True, slots=True)
class OneOf:
    """A choice: the answers still possible, or with `but` those that are not."""

    answers: frozenset[str]
    but: bool = False

    @property
    def sure(self) -> str | None:
        """The answer, when only one is possible."""
        return next(iter(self.answers)) if len(self.answers) == 1 and not self.but else None

    def allows(self, answer: str) -> bool:
        """Whether an answer is still possible."""
        return (answer in self.answers) is not self.but


@dataclass(frozen=True, slots=True)
class Size:
    """A measure in mm, or with `count` a plain number."""

    value: float
    count: bool = False


Known = OneOf | Size


def known(answer: Answer) -> Known | None:
    """Give what an answer as typed says, or None where it says nothing that can be compared."""
    if isinstance(answer, str):
        return _known_text(str(answer))
    if isinstance(answer, list):
        return _one_of(answer)
    if "value" in answer:
        return _size(f"{answer['value']} {answer.get('unit', '')}")
    if answer.keys() == {"not"}:
        inner = answer["not"]
        return _one_of(inner if isinstance(inner, list) else [inner], but=True)
    if answer.keys() == {"all"} and isinstance(answer["all"], list):
        return OneOf(frozenset(["+".join(sorted(str(one) for one in answer["all"]))]))
    return None


@lru_cache(maxsize=50_000)
def _known_text(answer: str) -> Known | None:
    if answer in _NOT_KNOWN:
        return None
    if _COUNT.fullmatch(answer):
        return Size(float(answer), count=True)
    return _size(answer) or OneOf(frozenset([answer]))


def _one_of(answers: Iterable[object], *, but: bool = False) -> OneOf | None:
    texts = frozenset(str(one) for one in answers if isinstance(one, str))
    return OneOf(texts, but) if texts and "not_known" not in texts else None


@lru_cache(maxsize=50_000)
def _size(typed: str) -> Size | None:
    try:
        return Size(float(read_length(typed, of="thread_pitch" if "tpi" in typed.lower() else "size").value))
    except NotUnderstood:
        return None


@dataclass(slots=True)
class Usual:
    """What is usual in a family, question by question: how often each answer is given, how sizes spread."""

    answers: dict[str, Counter[str]] = field(default_factory=dict)
    sizes: dict[str, list[float]] = field(default_factory=dict)

    def learn(self, answers: Mapping[str, Known]) -> None:
        """Count the answers of one damage."""
        for question, answer in answers.items():
            if isinstance(answer, Size):
                self.sizes.setdefault(question, []).append(answer.value)
            elif answer.sure is not None:
                self.answers.setdefault(question, Counter())[answer.sure] += 1

    def chance(self, question: str, answers: Iterable[str]) -> float:
        """Give how often one of these answers is given, smoothed by one of each and one unseen (Laplace)."""
        counts = self.answers.get(question, Counter())
        kinds = len(counts) + 1
        return min(0.99, sum((counts[a] + 1) / (counts.total() + kinds) for a in answers))

    def spread(self, question: str, *, count: bool) -> float:
        """Give the standard deviation of a size in the family, mm or counts, never below a least one."""
        sizes = self.sizes.get(question, [])
        return max(_LEAST_COUNT if count else _LEAST_MM, pstdev(sizes) if len(sizes) > 1 else 0.0)

    def weigh(self, question: str, here: Known, there: Known) -> float:
        """Give the share of one question: above zero for the same damage, below against it, 0 undecided.

        An agreement on what everybody has never speaks against, a disagreement never for.
        """
        if isinstance(here, Size) and isinstance(there, Size):
            return self._closeness(question, here, there)
        if not (isinstance(here, OneOf) and isinstance(there, OneOf)):
            return 0.0
        if here.sure is not None and here.sure == there.sure:
            return max(0.0, math.log(AGREE / self.chance(question, [here.sure])))
        if _exclude(here, there):
            answers = there.answers if here.but else here.answers
            return min(0.0, math.log((1 - AGREE) / (1 - self.chance(question, answers))))
        return 0.0

    def _closeness(self, question: str, here: Size, there: Size) -> float:
        """Weigh two sizes: equal ones as log 3, one spread apart nothing, two or more as minus log 3.

        log 3 is what an agreement at m = 0.75 weighs against an even chance of a quarter.
        """
        if here.count is not there.count:
            return 0.0
        apart = abs(here.value - there.value) / self.spread(question, count=here.count)
        return math.log(AGREE / (1 - AGREE)) * max(-1.0, 1.0 - apart)


def _exclude(one: OneOf, other: OneOf) -> bool:
    """Whether two answers cannot both be true."""
    if one.but and other.but:
        return False
    if one.but:
        one, other = other, one
    return not any(other.allows(answer) for answer in one.answers)
