"""Dangers before a plan opens: which there are, and which somebody has read already."""

from __future__ import annotations

from casebook.guide.advice import Advice
from casebook.guide.pack import Caution
from casebook.records.case import Case


def cautions_of(advice: Advice, strategy: str) -> list[Caution]:
    """List the cautions on one strategy, danger first: those of the answers and those its own work brings."""
    ids = [warned.id for warned in advice.cautions] + [warned.id for warned in advice.more_cautions]
    lead = advice.first
    own = list(advice.proposal(strategy).cautions)
    if lead.id != strategy:
        # What only the first proposal brings with it says nothing of this one.
        guide = advice.guide
        ids = [id for id in ids if id in own or not guide.cautions[id][0].involves]
    found = [advice.guide.cautions[id][0] for id in dict.fromkeys([*ids, *own])]
    order = {"danger": 0, "warning": 1, "note": 2}
    return sorted(found, key=lambda caution: order[caution.level])


def dangers_of(advice: Advice, strategy: str) -> list[Caution]:
    """List the dangers of one strategy."""
    return [caution for caution in cautions_of(advice, strategy) if caution.level == "danger"]


def read_before(case: Case) -> set[str]:
    """Name the dangers that stood in the advice of what was decided on this case already."""
    read: set[str] = set()
    for damage in case.damages:
        kept = damage.choice.advice if damage.choice else None
        if isinstance(kept, dict):
            read |= {str(id) for id in kept.get("dangers_read", []) if isinstance(id, str)}
    return read
