"""What would change it: the fewest answers, or the one size, that would make a strategy fit."""

from __future__ import annotations

from collections.abc import Iterable

from casebook.bench.triage import Bench
from casebook.guide.advice import Advice, Proposal
from casebook.guide.change import what_would_change
from casebook.guide.ranking import why_above
from casebook.shape import nearest


class NoSuchStrategy(LookupError):
    """No damage on the bench knows a strategy of that name; the message names the nearest."""


def changes(bench: Bench, strategies: Iterable[str]) -> dict[str, str]:
    """Say for each strategy what would make it fit, on the first damage that knows it.

    Raises:
        NoSuchStrategy: none does.
    """
    said: dict[str, str] = {}
    for strategy in strategies:
        advice = next((one for one in bench.advices if strategy in one.guide.strategies), None)
        if advice is None:
            known = [id for one in bench.advices for id in one.guide.strategies]
            raise NoSuchStrategy(f"unknown strategy {strategy!r}{nearest(strategy, known)}")
        said[strategy] = change_text(advice, strategy)
    return said


def change_text(advice: Advice, strategy: str) -> str:
    """Say in a sentence what would make a strategy fit."""
    title = advice.proposal(strategy).title
    if advice.proposal(strategy).standing == "fits":
        return f"{title}: it fits as it is"
    if advice.contradictions:
        return f"{title}: settle first what does not agree"
    change = what_would_change(advice, strategy)
    return change.says if change else f"{title}: nothing that the packs allow would make it fit"


def above_the_next(advice: Advice, proposal: Proposal) -> str:
    """Say why a proposal stands above the next; nothing for the last."""
    if proposal.place >= len(advice.proposals):
        return ""
    return why_above(advice.guide, advice.trusted, proposal, advice.proposals[proposal.place])
