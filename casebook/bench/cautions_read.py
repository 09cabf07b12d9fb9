"""Cautions that are read: accepted shop rules in one line, only what is special to this object confirmed."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass, replace

from casebook.bench.at_desk import AtDesk, NotPossible
from casebook.bench.danger import cautions_of, read_before
from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import read_answers
from casebook.guide.pack import Caution
from casebook.records.case import Case, Damage
from casebook.records.workshop import Confirmed
from casebook.strict_yaml import BrokenFile


@dataclass(frozen=True, slots=True)
class CaseCautions:
    """The cautions of a whole case, each once, danger first.

    Attributes:
        special: those of this object, and shop rules that were not accepted.
        shop_rules: accepted shop rules in one line; empty where none applies.
    """

    special: tuple[Caution, ...]
    shop_rules: str


def split(cautions: Iterable[Caution], accepted: Container[str]) -> CaseCautions:
    """Part accepted shop rules, which are named in one line, from all that is to be read whole."""
    special: list[Caution] = []
    rules: list[Caution] = []
    for caution in cautions:
        (rules if caution.shop_rule and caution.id in accepted else special).append(caution)
    words = ", ".join(rule.id.removeprefix("caution_").replace("_", " ") for rule in rules)
    return CaseCautions(tuple(special), f"Shop rules apply: {words}." if words else "")


def confirmed_on(case: Case) -> set[str]:
    """Name the dangers that somebody has read on this case."""
    return read_before(case) | {one.caution for one in case.confirmed}


class Confirming(AtDesk):
    """Acts on cautions."""

    def cautions(self, number: str) -> CaseCautions:
        """Gather the cautions over all damages of a case: of what was chosen, else of what leads."""
        return self._cautions(self.book.case(number))

    def cautions_to_confirm(self, number: str) -> list[Caution]:
        """List the dangers special to this object that nobody has confirmed on this case yet."""
        case = self.book.case(number)
        return self.unread(case, self._cautions(case).special)

    def unread(self, case: Case, cautions: Iterable[Caution]) -> list[Caution]:
        """List those that stop the hand: dangers not confirmed on this case yet, no accepted shop rule."""
        read = confirmed_on(case)
        dangers = (caution for caution in cautions if caution.level == "danger" and caution.id not in read)
        return [danger for danger in dangers if not self.is_accepted(danger)]

    def is_accepted(self, caution: Caution) -> bool:
        """Whether a caution is a shop rule that was accepted once for all."""
        return caution.shop_rule and caution.id in self.accepted

    def confirm(self, number: str, cautions: Iterable[str], by: str = "") -> Case:
        """Keep that somebody read and confirmed dangers, today; what was confirmed before stays.

        Args:
            number: the case.
            cautions: their ids.
            by: initials.

        Raises:
            NotPossible: an id that no rule pack has.
        """
        ids = list(dict.fromkeys(cautions))
        known = {id for pack in self.library.packs.values() for id in pack.cautions}
        for id in ids:
            if id not in known:
                raise NotPossible(f"no rule pack has a caution {id!r}: confirm those that were shown")

        def add(case: Case) -> Case:
            before = {one.caution for one in case.confirmed}
            new = tuple(Confirmed(id, self.today, by) for id in ids if id not in before)
            return replace(case, confirmed=case.confirmed + new)

        return self.book.change(number, add)

    def _cautions(self, case: Case) -> CaseCautions:
        found: dict[str, Caution] = {}
        for damage in case.damages:
            for caution in self._cautions_of(case, damage):
                found.setdefault(caution.id, caution)
        levels = {"danger": 0, "warning": 1, "note": 2}
        ordered = sorted(found.values(), key=lambda caution: levels[caution.level])
        return split(ordered, self.accepted)

    def _cautions_of(self, case: Case, damage: Damage) -> list[Caution]:
        guide: Guide
        try:
            guide = self.library.guide(damage.family)
        except (KeyError, BrokenFile):
            return []
        answers = {**case.answers, **damage.looks[-1].answers}
        knowledge, _ = read_answers(guide, answers, f"case {case.number}", strict=False)
        advice = advise(guide, knowledge)
        chosen = damage.choice.strategy if damage.choice else ""
        return cautions_of(advice, chosen if chosen in guide.strategies else advice.first.id)
