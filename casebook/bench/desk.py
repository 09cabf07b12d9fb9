"""The desk: what one does with a case, from taking it in to looking after it. Joins guide and record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from casebook import __version__
from casebook.bench.advice_json import advice_json
from casebook.bench.library import Library
from casebook.bench.look import LookSession
from casebook.guide.advice import Advice
from casebook.guide.guide import questions_behind
from casebook.guide.pack import Question, Strategy
from casebook.quantity import Unit
from casebook.records.book import Book
from casebook.records.case import (
    Answer,
    Case,
    CaseRow,
    Choice,
    Damage,
    FiguresUsed,
    FollowUp,
    Instrument,
    Look,
)


class Desk:
    """The work on the cases of one book.

    Args:
        book: where everything is kept.
        library: the rule packs.
        today: the date of the shop.
        unit: the unit of the shop.
    """

    def __init__(self, book: Book, library: Library, today: date, unit: Unit = "mm") -> None:
        self.book = book
        self.library = library
        self.today = today
        self.unit = unit

    # -- taking in ---------------------------------------------------------------------------------------

    def on_the_bench(self, limit: int = 200) -> list[CaseRow]:
        """List the cases not finished yet, the latest first."""
        return self.book.cases(limit, finished=False)

    def take_in(
        self, title: str, instrument: Instrument, *, owner: str = "", owner_words: str = "", number: str = ""
    ) -> Case:
        """Take an instrument in today: a new case."""
        case = Case(
            number=number,
            title=title,
            taken_in=self.today,
            instrument=instrument,
            owner=owner,
            owner_words=owner_words,
        )
        return self.book.add(case)

    def add_damage(self, number: str, family: str, place: str, story: str = "") -> int:
        """Add a damage to a case; gives its number within the case."""
        self.library.guide(family)
        damage = Damage(family=family, place=place, story=story, looks=(Look(taken=self.today),))
        return self.book.add_damage(number, damage)

    # -- looking -----------------------------------------------------------------------------------------

    def intake(self, number: str) -> LookSession:
        """Open the intake questions of a case."""
        case = self.book.case(number)

        def keep(question: Question, answer: Answer | None) -> None:
            self.book.save_intake_answer(number, question.id, answer)

        return LookSession(self.library.intake(), dict(case.answers), keep, self.unit)

    def look(self, number: str, damage: int) -> LookSession:
        """Open the present look at a damage; intake answers count, and are kept with the case."""
        case = self.book.case(number)
        found = case.damage(damage)
        guide = self.library.guide(found.family)
        shared = guide.packs[0].questions if len(guide.packs) > 1 else {}
        look = len(found.looks)

        def keep(question: Question, answer: Answer | None) -> None:
            if question.id in shared:
                self.book.save_intake_answer(number, question.id, answer)
            else:
                self.book.save_answer(number, damage, look, question.id, answer)

        return LookSession(guide, {**case.answers, **found.looks[-1].answers}, keep, self.unit)

    def second_look(self, number: str, damage: int, ended_by: str, keep: Mapping[str, Answer]) -> int:
        """End the present look by an act; the next begins with `keep`, the answers that are still true."""
        return self.book.new_look(number, damage, ended_by=ended_by, taken=self.today, answers=dict(keep))

    def still_true(self, number: str, damage: int, strategy: str) -> dict[str, Answer]:
        """Give the answers that stay true when `strategy` has ended the look: what the next starts from.

        Gone is what the strategy took away and what was judged under it, what called for the strategy, and
        after a rest every size.
        """
        found = self.book.case(number).damage(damage)
        guide = self.library.guide(found.family)
        ruled = guide.strategies[strategy]
        gone = set(questions_behind(guide, ruled.wanted[0].condition.vars)) if ruled.wanted else set()
        for doubt, condition in guide.doubts.values():
            if strategy in doubt.lifted_by:
                gone |= {*doubt.questions, *questions_behind(guide, condition.vars)}
        if ruled.strategy.ends_look == "resting":
            gone |= {id for id, question in guide.questions.items() if question.kind == "length"}
        return {q: answer for q, answer in found.looks[-1].answers.items() if q not in gone}

    # -- deciding ----------------------------------------------------------------------------------------

    def choose(
        self,
        number: str,
        damage: int,
        advice: Advice,
        strategy: str,
        reason: str = "",
        figures: tuple[FiguresUsed, ...] | None = None,
        dangers_read: Iterable[str] = (),
    ) -> None:
        """Keep the decision with the advice as it stands now: packs by digest, program, settings.

        Args:
            number: the case.
            damage: the damage's number.
            advice: what was advised.
            strategy: id of the one chosen.
            reason: why this one.
            figures: the worksheets it rests on; None leaves those kept before.
            dangers_read: ids of the dangers that were read before the plan opened.
        """
        for pack in advice.guide.packs:
            self.book.keep_pack(pack.digest, pack.id, pack.version, pack.text)
        kept = kept_advice(advice, self.unit) | {"dangers_read": sorted(dangers_read)}
        self.book.choose(number, damage, Choice(strategy, self.today, reason, kept), figures)

    def keep_figures(self, number: str, damage: int, used: FiguresUsed) -> None:
        """Keep a worksheet with a damage, in place of the same one kept before."""
        found = self.book.case(number).damage(damage)
        merged = {before.worksheet: before for before in found.figures} | {used.worksheet: used}
        self.book.choose(number, damage, found.choice, tuple(merged.values()))

    def strategy(self, family: str, id: str) -> Strategy | None:
        """Give a strategy of a family, or None when the packs no longer have it."""
        ruled = self.library.guide(family).strategies.get(id)
        return None if ruled is None else ruled.strategy

    # -- doing and looking after ---------------------------------------------------------------------------

    def record_work(self, number: str, damage: int, **work: Any) -> None:
        """Keep what was done: steps, measured, done, hours, repaired_on, learned."""
        self.book.record_work(number, damage, **work)

    def follow_up(self, number: str, damage: int, followup: FollowUp) -> None:
        """Keep that the repair was looked at again; today if it says no day."""
        self.book.follow_up(
            number, damage, followup if followup.looked else replace(followup, looked=self.today)
        )

    def finish(self, number: str, finished: bool = True) -> None:
        """Close a case, or open it again."""
        self.book.finish(number, finished)


def kept_advice(advice: Advice, unit: str) -> dict[str, Any]:
    """Give what is kept of an advice with a decision."""
    return {"program": __version__, "settings": {"unit": unit}, "advice": advice_json(advice)}
