"""The desk: what one does with a case, from taking it in to looking after it. Joins guide and record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from casebook import __version__
from casebook.bench.advice_json import advice_json
from casebook.bench.bench_list import Listing
from casebook.bench.cautions_read import Confirming
from casebook.bench.consent import Agreeing
from casebook.bench.counter import SYMPTOMS, AtCounter, tests_said
from casebook.bench.look import LookSession
from casebook.bench.looking_again import LookingAgain
from casebook.bench.shop_text import shop_json
from casebook.bench.visits import Visiting
from casebook.bench.work_done import Working
from casebook.guide.advice import Advice
from casebook.guide.guide import Guide
from casebook.guide.pack import Question, Strategy
from casebook.quantity import ToolError
from casebook.records.case import Answer, Answers, CaseRow, Choice, Damage, FiguresUsed, Look


class Desk(Visiting, Listing, Agreeing, AtCounter, LookingAgain, Confirming, Working):
    """The work on the cases of one book: taking in, looking, deciding, doing, handing back, looking after.

    What is done with a case stands in one module an act; here is what joins the guide to the record.
    """

    # -- the bench ---------------------------------------------------------------------------------------

    def on_the_bench(self, limit: int = 200) -> list[CaseRow]:
        """List the cases not finished yet, the latest first."""
        return self.book.cases(limit, finished=False)

    def add_damage(self, number: str, family: str, place: str, story: str = "") -> int:
        """Add a damage to a case; gives its number within the case."""
        self.library.guide(family)
        damage = Damage(family=family, place=place, story=story, looks=(Look(taken=self.today),))
        return self.book.add_damage(number, damage)

    def counter_look(self) -> LookSession:
        """Open a look from the symptom, for somebody at the counter: nothing of it is kept yet.

        Raises:
            KeyError: there are no rules that start from a symptom.
        """
        guide = self.library.guide(SYMPTOMS)
        return LookSession(guide, {}, lambda _question, _answer: None, self.unit, self._tools)

    def take_up(self, number: str, family: str, seen: LookSession, place: str = "") -> int:
        """Add the damage a look from the symptom led to; what it found out is told, and answers it shares.

        Args:
            number: the case.
            family: the family it led to.
            seen: the look from the symptom.
            place: where on the instrument.
        """
        damage = self.add_damage(number, family, place, tests_said(seen))
        look = self.look(number, damage)
        for question, answer in seen.answers.items():
            if question in look.guide.questions and question not in look.answers:
                look.answer(question, answer)
        return damage

    @property
    def _tools(self) -> Mapping[str, ToolError] | None:
        """The shop's errors by tool; None where it has no settings."""
        return self.shop.tools if self.shop else None

    # -- looking -----------------------------------------------------------------------------------------

    def intake(self, number: str) -> LookSession:
        """Open the intake questions of a case."""
        case = self.book.case(number)
        guide = self.library.intake()

        def keep(question: Question, answer: Answer | None) -> None:
            self.book.save_intake_answer(number, question.id, answer)
            for old in case.answers.keys() & set(question.was):
                self.book.save_intake_answer(number, old, None)

        return LookSession(guide, _as_called_now(guide, case.answers), keep, self.unit, self._tools)

    def look(self, number: str, damage: int) -> LookSession:
        """Open the present look at a damage; intake answers count, and are kept with the case."""
        case = self.book.case(number)
        found = case.damage(damage)
        guide = self.library.guide(found.family)
        shared = guide.packs[0].questions if len(guide.packs) > 1 else {}
        look = len(found.looks)

        kept = found.looks[-1].answers

        def keep(question: Question, answer: Answer | None) -> None:
            if question.id in shared:
                self.book.save_intake_answer(number, question.id, answer)
            else:
                self.book.save_answer(number, damage, look, question.id, answer)
            for old in case.answers.keys() & set(question.was):
                self.book.save_intake_answer(number, old, None)
            for old in kept.keys() & set(question.was):
                self.book.save_answer(number, damage, look, old, None)

        answers = _as_called_now(guide, {**case.answers, **kept})
        return LookSession(guide, answers, keep, self.unit, self._tools)

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
        if self.shop:
            kept["settings"] |= {"reading_errors": shop_json(self.shop)["reading_errors"]}
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

    # -- closing -----------------------------------------------------------------------------------------

    def finish(self, number: str, finished: bool = True) -> None:
        """Close a case, or open it again."""
        self.book.finish(number, finished)


def _as_called_now(guide: Guide, answers: Answers) -> dict[str, Answer]:
    """Give kept answers under the ids that their questions have in the packs of now."""
    renamed = guide.renamed()
    return {renamed.get(id, id): answer for id, answer in answers.items()}


def kept_advice(advice: Advice, unit: str) -> dict[str, Any]:
    """Give what is kept of an advice with a decision."""
    return {"program": __version__, "settings": {"unit": unit}, "advice": advice_json(advice)}
