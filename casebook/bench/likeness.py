"""Finding again: searches and like damages, worded by the labels of the rule packs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from casebook.bench.case_text import answer_text, question_of
from casebook.bench.desk import Desk
from casebook.bench.visit_text import outcome_text
from casebook.guide.guide import Guide
from casebook.recall.find import find
from casebook.recall.hit import Hit, Share
from casebook.recall.similar import similar
from casebook.records.case import Answers
from casebook.strict_yaml import BrokenFile


@dataclass(frozen=True, slots=True)
class Like:
    """A damage found, in words.

    Attributes:
        case: the case's number.
        damage: the damage's number; 0 for a case without one.
        title: the case's title.
        score: the higher the better, within one list only.
        agrees: what speaks for it.
        differs: what speaks against it.
        outcome: how it turned out; empty while nobody looked again.
        chosen: title of the strategy chosen, or empty.
    """

    case: str
    damage: int
    title: str
    score: float
    agrees: tuple[str, ...]
    differs: tuple[str, ...]
    outcome: str
    chosen: str


@dataclass(frozen=True, slots=True)
class Finds:
    """What a search gave: the hits, what was mended in the words, and words found nowhere."""

    hits: tuple[Like, ...]
    corrected: Mapping[str, str]
    nowhere: tuple[str, ...]


def find_cases(desk: Desk, words: str, limit: int = 10) -> Finds:
    """Search all cases by what somebody remembers.

    Raises:
        StorageError: the book cannot be read.
    """
    result = find(desk.book, words, limit)
    hits = tuple(
        _like(desk, hit, None, [s.what for s in hit.agrees], [s.what for s in hit.differs])
        for hit in result.hits
    )
    return Finds(hits, result.corrected, result.nowhere)


def like_this(desk: Desk, number: str, damage: int, limit: int = 10) -> list[Like]:
    """List damages like one of the book, that case itself left out.

    Raises:
        NoSuchCase: there is no such case.
        KeyError: the case has no such damage.
        StorageError: the book cannot be read.
    """
    case = desk.book.case(number)
    found = case.damage(damage)
    answers: dict[str, object] = {}
    for look in found.looks:
        answers |= look.answers
    return like_answers(desk, found.family, answers, case.answers, found.story, limit, leave_out=case.number)  # type: ignore[arg-type]


def like_answers(
    desk: Desk,
    family: str,
    answers: Answers,
    intake: Answers | None = None,
    story: str = "",
    limit: int = 10,
    leave_out: str | None = None,
) -> list[Like]:
    """List damages like the one these answers describe.

    Raises:
        StorageError: the book cannot be read.
    """
    guide = guide_of(desk, family)
    hits = similar(
        desk.book,
        family,
        answers,
        story=story,
        intake=intake,
        limit=limit,
        leave_out=leave_out,
        renamed=guide.renamed() if guide else {},
    )
    return [
        _like(desk, hit, guide, _agreeing(guide, hit.agrees), _differing(guide, hit.differs)) for hit in hits
    ]


def guide_of(desk: Desk, family: str) -> Guide | None:
    """Give a family's guide, or None where the packs no longer have it: old cases still read."""
    try:
        return desk.library.guide(family)
    except (KeyError, BrokenFile):
        return None


def _like(desk: Desk, hit: Hit, guide: Guide | None, agrees: Iterable[str], differs: Iterable[str]) -> Like:
    if guide is None and hit.damage:
        guide = guide_of(desk, desk.book.case(hit.case).damage(hit.damage).family)
    ruled = guide.strategies.get(hit.chosen or "") if guide else None
    return Like(
        case=hit.case,
        damage=hit.damage,
        title=hit.title,
        score=round(hit.score, 4),
        agrees=tuple(agrees),
        differs=tuple(differs),
        outcome=outcome_text(hit.outcome),
        chosen=ruled.strategy.title if ruled else hit.chosen or "",
    )


def _agreeing(guide: Guide | None, shares: Iterable[Share]) -> list[str]:
    lines = []
    for share in shares:
        there = answer_text(guide, share.what, share.there)
        here = answer_text(guide, share.what, share.here)
        lines.append(f"{_name(guide, share.what)}: {there}" + ("" if here == there else f" (here {here})"))
    return lines


def _differing(guide: Guide | None, shares: Iterable[Share]) -> list[str]:
    return [
        f"{_name(guide, share.what)}: {answer_text(guide, share.what, share.there)}, here "
        f"{answer_text(guide, share.what, share.here)}"
        for share in shares
    ]


def _name(guide: Guide | None, what: str) -> str:
    question = question_of(guide, what)
    return question.name if question else what
