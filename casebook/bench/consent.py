"""What was agreed to each damage: yes, no or later, up to how much, and who pays."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from casebook.bench.at_desk import AtDesk, NotPossible
from casebook.guide.pack import Strategy
from casebook.records.amount import read_amount
from casebook.records.case import Case, Damage
from casebook.records.workshop import PAYERS, Consent
from casebook.strict_yaml import BrokenFile

# What to mind with each who pays (common practice, no source; local law and the contract decide).
PAYER_CAUTIONS = {
    "owner": "",
    "insurer": "An insurer pays: photograph first, send the estimate, keep every replaced part, and begin"
    " when the insurer has agreed in writing.",
    "school": "A school pays: whoever brings it may not order; get the order from whoever answers for the"
    " school's money.",
    "seller": "Under the seller's guarantee: new and cracked, do nothing before the seller agrees; work by"
    " somebody else may end the guarantee.",
}
# Who must agree before anything at all is changed, because the work itself may cost the owner the claim.
_AGREES_FIRST = frozenset(("seller",))


class Agreeing(AtDesk):
    """Acts on what was agreed."""

    def agree(
        self,
        number: str,
        damage: int,
        said: str,
        *,
        who: str = "",
        how: str = "",
        up_to: str = "",
        to_what: str = "",
        pays: str = "",
        note: str = "",
        on: date | None = None,
    ) -> Case:
        """Keep what somebody said to work on a damage; what was said before stays.

        Args:
            number: the case.
            damage: the damage.
            said: yes, no or later; a no with `to_what` is kept as 'advised, declined'.
            who: who said it.
            how: by telephone, in writing, at the counter.
            up_to: the most it may cost, as typed.
            to_what: the strategy it was said to; empty for whatever the damage needs.
            pays: who pays for this damage, where it is not who pays for the case.
            note: anything else.
            on: the day, else today.

        Raises:
            BadCase: another word than yes, no, later; no amount; no such payer.
            NotPossible: no such damage, or a day to come.
        """
        if on is not None and on > self.today:
            raise NotPossible(f"{on} is still to come: a yes or no has the day it was given")
        consent = Consent(said, on or self.today, who, how, up_to, to_what, pays, note)

        def add(case: Case) -> Case:
            found = self._damage(case, damage)
            changed = replace(found, consents=(*found.consents, consent))
            return replace(case, damages=tuple(changed if d is found else d for d in case.damages))

        return self.book.change(number, add)

    def pays(self, number: str, who: str) -> str:
        """Keep who pays for a case, and give what to mind with them (empty for nothing).

        Raises:
            NotPossible: no such payer.
        """
        if who not in PAYERS:
            raise NotPossible(f"{who!r} pays for nothing here: say one of {', '.join(PAYERS)}")
        self.book.change(number, lambda case: replace(case, visit=replace(case.visit, pays=who)))
        return PAYER_CAUTIONS[who]

    def may_open_plan(self, number: str, damage: int, strategy: str) -> str | None:
        """Say in one line why a plan may not be opened yet; None when it may.

        A strategy that takes original material needs a yes to this damage. Under a seller's guarantee
        every strategy needs the seller's, but for looking, resting and leaving it alone.

        Raises:
            NotPossible: no such damage or strategy.
        """
        case = self.book.case(number)
        found = self._damage(case, damage)
        ruled = self._strategy(found, strategy)
        payer = payer_of(case, found)
        first = payer in _AGREES_FIRST
        if not (ruled.removes_material or (first and not ruled.on_call)):
            return None
        said = found.consents[-1] if found.consents else None
        asking = f"{ruled.title}: "
        reason = "do nothing before the seller agrees" if first else "it takes original material"
        if said is None:
            return f"{asking}{reason}; get a yes first and write down who, how and up to how much"
        on = f" on {said.given_on}" if said.given_on else ""
        by = f" by {said.who}" if said.who else ""
        if said.said == "no":
            return f"{asking}advised, declined{by}{on}; ask again before anything is touched"
        if said.said == "later":
            return f"{asking}put off{by}{on}; {reason}, so ask again first"
        if said.to_what and said.to_what != strategy and said.to_what in self._strategies(found):
            other = self._strategies(found)[said.to_what].title
            return f"{asking}the yes{by}{on} was to {other}, not to this; ask again"
        if first and "seller" not in said.who.lower():
            return f"{asking}the yes{by}{on} is not the seller's; do nothing before the seller agrees"
        return None

    def within_agreed(self, number: str, damage: int, price: Decimal) -> str | None:
        """Say in one line that a price is more than was agreed for a damage; None when it is not."""
        found = self._damage(self.book.case(number), damage)
        said = found.consents[-1] if found.consents else None
        if said is None or said.said != "yes" or not said.up_to or price <= read_amount(said.up_to):
            return None
        return f"{price} is more than was agreed ({said.up_to}): ring before you pass it"

    def declined(self, number: str) -> list[str]:
        """List what was advised and declined on a case, for the paper and the next visit."""
        return [
            f"damage {damage.number}, {damage.place or damage.family}: advised"
            f" {self._title(damage, consent.to_what) or 'repair'}, declined"
            + (f" by {consent.who}" if consent.who else "")
            + (f" on {consent.given_on}" if consent.given_on else "")
            for damage in self.book.case(number).damages
            for consent in damage.consents
            if consent.said == "no"
        ]

    def _strategies(self, damage: Damage) -> dict[str, Strategy]:
        try:
            ruled = self.library.guide(damage.family).strategies
        except (KeyError, BrokenFile):
            return {}
        return {id: one.strategy for id, one in ruled.items()}

    def _strategy(self, damage: Damage, id: str) -> Strategy:
        known = self._strategies(damage)
        if id not in known:
            raise NotPossible(f"{damage.family} has no strategy {id!r}: choose one of those proposed")
        return known[id]

    def _title(self, damage: Damage, id: str) -> str:
        known = self._strategies(damage)
        return known[id].title if id in known else id


def payer_of(case: Case, damage: Damage) -> str:
    """Say who pays for a damage: as last agreed for it, else for the case; empty while nobody asked."""
    named = [consent.pays for consent in damage.consents if consent.pays]
    return named[-1] if named else case.visit.pays


def open_consents(case: Case) -> list[Damage]:
    """List the damages on which somebody said 'later' and no answer came."""
    return [d for d in case.damages if d.consents and d.consents[-1].said == "later"]
