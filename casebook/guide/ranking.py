"""Ranking: never a score, always an order of scales that can be said aloud.

Those that fit come first, then the open ones, then what is ruled out. What ends a look (clean, rest, take
out) comes before what would be judged anew after it. The rest is ordered by the scales, in the order that
the owner's aim and the instrument's importance give; then by the packs' own order of preference.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from casebook.guide.guide import Guide
from casebook.guide.pack import ENDS_LOOK, RANKED_BY, SCALES, Strategy
from casebook.guide.search import Demand
from casebook.guide.state import State

if TYPE_CHECKING:
    from casebook.guide.advice import Proposal

_GROUPS = {"fits": 0, "open": 1, "ruled_out": 2}


def ranked(guide: Guide, state: State, proposals: Iterable[Proposal]) -> tuple[list[Proposal], str]:
    """Put the proposals in order; also give the reason for the order of the scales."""
    scales, why = profile(guide, state)
    preference = {id: place for place, id in enumerate(guide.strategies)}

    def key(proposal: Proposal) -> tuple[object, ...]:
        strategy = guide.strategies[proposal.id].strategy
        group = _GROUPS[proposal.standing]
        if proposal.standing == "fits":
            return (group, *fit_key(strategy, scales, preference[proposal.id]))
        waits = len(proposal.waiting_on)
        aside = (strategy.on_call or strategy.ends_look is not None) and not proposal.called_for
        again = ENDS_LOOK.index(strategy.ends_look) if strategy.ends_look else len(ENDS_LOOK)
        places = () if strategy.ends_look else _places(strategy, scales)
        return (group, aside, not proposal.called_for, again, places, waits, preference[proposal.id])

    return sorted(proposals, key=key), why


def fit_key(strategy: Strategy, scales: Iterable[str], preference: int) -> tuple[float, ...]:
    """Give the place of a strategy among those that fit, smallest first."""
    scales = tuple(scales)
    alone = _place(strategy, "leaves_alone") if scales[0] == "leaves_alone" and not strategy.ends_look else 1
    if strategy.ends_look:
        return (alone, 0, ENDS_LOOK.index(strategy.ends_look), preference)
    return (alone, 1, *_places(strategy, scales), preference)


def profile(guide: Guide, state: State) -> tuple[tuple[str, ...], str]:
    """Give the order of the scales that holds here, and why."""
    for one, condition in guide.profiles:
        if condition is None or condition.truth(state.box):
            return one.scales, one.because
    return RANKED_BY, "equal evidence: least original lost first"


def profiles(guide: Guide, state: State) -> list[tuple[tuple[str, ...], list[Demand]]]:
    """List the orders of the scales that may turn out to hold, each with the demands under which it does."""
    possible: list[tuple[tuple[str, ...], list[Demand]]] = []
    earlier: list[Demand] = []
    for one, condition in guide.profiles:
        truth = True if condition is None else condition.truth(state.box)
        if truth or condition is None:
            return [*possible, (one.scales, earlier)]
        if truth is None:
            possible.append((one.scales, [*earlier, condition.yes]))
            earlier = [*earlier, condition.no]
    return [*possible, (RANKED_BY, earlier)]


def why_above(guide: Guide, state: State, one: Proposal, other: Proposal) -> str:
    """Say in a sentence why `one` stands above `other`."""
    groups = [_GROUPS[proposal.standing] for proposal in (one, other)]
    if groups[0] != groups[1]:
        words = {"fits": "fits", "open": "is still open", "ruled_out": "is ruled out"}
        return f"{one.title} {words[one.standing]}; {other.title} {words[other.standing]}"
    first, second = guide.strategies[one.id].strategy, guide.strategies[other.id].strategy
    scales, why = profile(guide, state)
    if one.standing != "fits" and one.called_for != other.called_for:
        return f"an answer calls for it; nothing calls for the other yet: {other.title}"
    if one.standing == "fits" and scales[0] == "leaves_alone" and first.on_call != second.on_call:
        return f"it leaves the object alone ({why})"
    if first.ends_look != second.ends_look:
        if second.ends_look is None:
            return f"{first.ends_look} comes first: what is judged after it is judged anew"
        if first.ends_look is not None:
            return f"{first.ends_look} comes before {second.ends_look}"
        return f"{other.title} stands back until an answer calls for it"
    if first.ends_look is None:
        for scale in scales:
            here, there = _place(first, scale), _place(second, scale)
            if here != there:
                return f"{_on_scale(first, scale)}, against {_on_scale(second, scale)} ({why})"
    if one.standing != "fits" and len(one.waiting_on) != len(other.waiting_on):
        return f"it waits on fewer questions: {len(one.waiting_on)}, against {len(other.waiting_on)}"
    return "alike in all the scales; the pack prefers it"


# How a scale is said, with its place.
_SCALE_WORDS = {
    "original": "original left: {}",
    "reversible": "reversible: {}",
    "strength": "strength: {}",
    "seen": "seen: {}",
    "serviceable": "serviceable: {}",
}


def _on_scale(strategy: Strategy, scale: str) -> str:
    if scale == "leaves_alone":
        return "left alone" if strategy.on_call else "worked on"
    if scale == "hours":
        return f"{strategy.hours[1]:g} hours"
    return _SCALE_WORDS[scale].format(strategy.scales[scale].replace("_", " "))


def _places(strategy: Strategy, scales: Iterable[str]) -> tuple[float, ...]:
    return tuple(_place(strategy, scale) for scale in scales)


def _place(strategy: Strategy, scale: str) -> float:
    if scale == "leaves_alone":
        return 0 if strategy.on_call else 1
    if scale == "hours":
        return strategy.hours[1]
    return SCALES[scale].index(strategy.scales[scale])
