"""Like damages: what is on the bench against every damage of its family, answer by answer."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from casebook.recall.evidence import Known, Size, Usual, known
from casebook.recall.hit import Hit, Share
from casebook.recall.query import EMPTY_WORDS
from casebook.recall.stem import stem
from casebook.records.book import Book
from casebook.records.case import Answer, Answers, Case, Damage
from casebook.records.words import words

# What a story that has all the telling words of the other weighs: about as much as two answers that agree.
# Ours, no source.
_STORY = 2.0
_STORY_WORDS = 6
_SHORTEST = 3


def similar(
    book: Book,
    family: str,
    answers: Answers,
    *,
    measures: Mapping[str, float] | None = None,
    story: str = "",
    intake: Answers | None = None,
    limit: int = 10,
    leave_out: str | None = None,
    renamed: Mapping[str, str] = MappingProxyType({}),
) -> list[Hit]:
    """Give the damages most like the one on the bench, with what agrees, what differs, how each turned out.

    Args:
        book: where to look.
        family: id of the damage family; only its damages are compared.
        answers: question id to answer as typed, of all looks so far; as few as there are.
        measures: question id to a size in mm, before what `answers` says of it.
        story: what is told of it.
        intake: answers of the instrument as a whole.
        limit: how many at most.
        leave_out: number of the case on the bench itself.
        renamed: question id of earlier rule packs -> the id it has now; answers of the past are read so.

    Returns:
        The likest first; damages of which nothing agrees are left away.

    Raises:
        StorageError: the book cannot be read.
    """
    past = [
        _Past(case, damage, renamed)
        for case in book.every_case(family=family)
        if leave_out is None or case.number.casefold() != leave_out.casefold()
        for damage in case.damages
        if damage.family == family
    ]
    said = _as_now({**(intake or {}), **answers}, renamed)
    here = _known(said)
    here.update({question: Size(mm) for question, mm in (measures or {}).items()})
    shown = {**said, **{q: f"{mm:g} mm" for q, mm in (measures or {}).items()}}
    usual = Usual()
    for one in past:
        usual.learn(one.known)
    rare = _Rarity(one.words for one in past)
    told = _telling(story)
    hits = [_hit(one, here, shown, usual, rare, told) for one in past]
    hits = [hit for hit in hits if hit.agrees]
    hits.sort(key=lambda hit: (-hit.score, hit.case, hit.damage))
    return hits[: max(0, limit)]


class _Past:
    """A damage of the past with what is known of it; later looks speak before earlier ones."""

    def __init__(self, case: Case, damage: Damage, renamed: Mapping[str, str]) -> None:
        self.case = case
        self.damage = damage
        self.answers: dict[str, Answer] = _as_now(case.answers, renamed)
        for look in damage.looks:
            self.answers.update(_as_now(look.answers, renamed))
        self.known = _known(self.answers)
        self.words = _telling(damage.story)


@dataclass(slots=True)
class _Rarity:
    """How telling a word is: log(1 + N / n) for n of N stories that have it."""

    cases_with: Counter[str]
    size: int

    def __init__(self, stories: Iterable[Iterable[str]]) -> None:
        self.cases_with = Counter()
        self.size = 0
        for story in stories:
            self.cases_with.update(set(story))
            self.size += 1

    def of(self, some: Iterable[str]) -> float:
        """Add up how telling some words are."""
        return sum(math.log(1 + self.size / max(1, self.cases_with[word])) for word in some)


def _hit(
    past: _Past,
    here: Mapping[str, Known],
    shown: Answers,
    usual: Usual,
    rare: _Rarity,
    told: Mapping[str, str],
) -> Hit:
    shares = [
        Share(question, shown[question], past.answers[question], usual.weigh(question, answer, there))
        for question, answer in here.items()
        if (there := past.known.get(question)) is not None
    ]
    both = told.keys() & past.words.keys()
    if both:
        weight = _STORY * rare.of(both) / rare.of(told)
        telling = sorted(both, key=lambda root: (-rare.of([root]), root))[:_STORY_WORDS]
        here_words, there_words = (" ".join(of[root] for root in telling) for of in (told, past.words))
        shares.append(Share("story", here_words, there_words, weight))
    shares.sort(key=lambda share: (-abs(share.weight), share.what))
    return Hit.of(
        past.case,
        past.damage,
        sum(share.weight for share in shares),
        tuple(share for share in shares if share.weight > 0),
        tuple(share for share in shares if share.weight < 0),
    )


def _as_now(answers: Answers, renamed: Mapping[str, str]) -> dict[str, Answer]:
    return {renamed.get(question, question): answer for question, answer in answers.items()}


def _known(answers: Answers) -> dict[str, Known]:
    return {question: said for question, answer in answers.items() if (said := known(answer)) is not None}


def _telling(story: str) -> dict[str, str]:
    """Give the words of a story that may tell something, each under its stem."""
    return {
        stem(word): word
        for word in words(story)
        if len(word) >= _SHORTEST and word.isalpha() and word not in EMPTY_WORDS
    }
