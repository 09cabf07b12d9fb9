"""Advice: where every strategy stands on what is known, in the order of proposal, with its reasons."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from casebook.guide.guide import Guide, RuledStrategy
from casebook.guide.knowledge import Knowledge
from casebook.guide.pack import LEVELS, Caution, Level
from casebook.guide.ranking import ranked
from casebook.guide.reasons import because, explain, fact, in_bench_order, waiting_on
from casebook.guide.state import Contradiction, State, state_of, trusted_state

Standing = Literal["fits", "open", "ruled_out"]
# More than this and nobody reads them; dangers are never left out.
MOST_CAUTIONS = 6


@dataclass(frozen=True, slots=True)
class Proposal:
    """One strategy's standing.

    Attributes:
        because: why it fits or is ruled out; for an open one, what speaks for it already.
        waiting_on: the questions an open one waits for.
        cautions: the cautions that come with it.
        called_for: whether what calls for it is known to be there.
        place: 1 for the first.
    """

    id: str
    title: str
    standing: Standing
    because: tuple[str, ...]
    waiting_on: tuple[str, ...]
    cautions: tuple[str, ...]
    called_for: bool
    place: int = 0


@dataclass(frozen=True, slots=True)
class Warned:
    """A caution that applies here, and why."""

    id: str
    level: Level
    text: str
    because: str
    shop_rule: bool


@dataclass(frozen=True, slots=True)
class Stopped:
    """A reason to stop that applies here, and what to do instead."""

    id: str
    says: str
    do: str
    because: str


@dataclass(frozen=True, slots=True)
class Advice:
    """What the guide says about one look.

    Attributes:
        state: the look as answered.
        trusted: the same with everything that does not agree taken as not known.
        proposals: every strategy, in the order of proposal.
        cautions: at most MOST_CAUTIONS, danger first.
        more_cautions: those beyond, which also apply.
        profile: why the strategies are ranked as they are.
    """

    guide: Guide
    state: State
    trusted: State
    proposals: tuple[Proposal, ...]
    cautions: tuple[Warned, ...]
    more_cautions: tuple[Warned, ...]
    stops: tuple[Stopped, ...]
    profile: str

    @property
    def first(self) -> Proposal:
        """The first proposal."""
        return self.proposals[0]

    @property
    def contradictions(self) -> tuple[Contradiction, ...]:
        """What does not agree."""
        return self.state.contradictions

    def proposal(self, id: str) -> Proposal:
        """Give one strategy's standing."""
        return next(p for p in self.proposals if p.id == id)


def advise(guide: Guide, knowledge: Knowledge) -> Advice:
    """Say where every strategy stands on this knowledge."""
    state = state_of(guide, knowledge)
    trusted = trusted_state(guide, state)
    proposals = [_proposal(guide, ruled, state, trusted) for ruled in guide.strategies.values()]
    proposals, profile = ranked(guide, trusted, proposals)
    proposals = [replace(proposal, place=place) for place, proposal in enumerate(proposals, 1)]
    lead = guide.strategies[proposals[0].id] if proposals and proposals[0].standing != "ruled_out" else None
    warned = _warned(guide, state, lead)
    kept = [w for w in warned if w.level == "danger"]
    kept += [w for w in warned if w.level != "danger"][: max(0, MOST_CAUTIONS - len(kept))]
    return Advice(
        guide=guide,
        state=state,
        trusted=trusted,
        proposals=tuple(proposals),
        cautions=tuple(kept),
        more_cautions=tuple(w for w in warned if w not in kept),
        stops=_stopped(guide, state),
        profile=profile,
    )


def _proposal(guide: Guide, ruled: RuledStrategy, state: State, trusted: State) -> Proposal:
    strategy = ruled.strategy
    # What is proposed on call (measure again, leave it) goes by the answers as they stand.
    seen = state if strategy.on_call else trusted
    holds = ruled.fits.truth(seen.box)
    reasons: list[str] = []
    waits: tuple[str, ...] = ()
    standing: Standing = "open"
    if holds is False:
        standing = "ruled_out"
        reasons = _against(guide, ruled, seen)
    else:
        hindered = _hindered(guide, ruled, state)
        reasons = _for(guide, ruled, seen)
        if holds and not hindered:
            standing = "fits"
        else:
            conditions = [c.condition for c in (*ruled.wanted, *ruled.unwanted)]
            open_now = waiting_on(guide, seen, conditions) if holds is None else ()
            if holds is None and not open_now:
                open_now = waiting_on(guide, seen, [ruled.fits])
            waits = in_bench_order(guide, {*open_now, *(q for _, questions in hindered for q in questions)})
            reasons = [reason for reason, _ in hindered if reason] + reasons
    called = bool(ruled.wanted) and ruled.wanted[0].condition.truth(seen.box) is True
    return Proposal(
        id=strategy.id,
        title=strategy.title,
        standing=standing,
        because=tuple(dict.fromkeys(reasons)),
        waiting_on=waits,
        cautions=tuple(w.id for w in _warned(guide, state, ruled, only_its_own=True)),
        called_for=called,
    )


def _against(guide: Guide, ruled: RuledStrategy, state: State) -> list[str]:
    """Say what rules a strategy out: each clause that fails by itself, or all that it stands on."""
    lines = []
    for clause in ruled.wanted:
        if clause.condition.truth(state.box) is False:
            lines += explain(guide, state, clause.condition.expr, holds=False)
    for clause in ruled.unwanted:
        if clause.condition.truth(state.box):
            lines += because(guide, state, clause)
    return (
        lines
        or explain(guide, state, ruled.fits.expr, holds=False)
        or ["its conditions exclude each other here"]
    )


def _for(guide: Guide, ruled: RuledStrategy, state: State) -> list[str]:
    lines = []
    for clause in ruled.wanted:
        if clause.condition.truth(state.box):
            lines += because(guide, state, clause)
    return lines


def _hindered(guide: Guide, ruled: RuledStrategy, state: State) -> list[tuple[str, tuple[str, ...]]]:
    """Say what keeps a strategy from fitting though its conditions may hold: reason, and questions."""
    hindered: list[tuple[str, tuple[str, ...]]] = []
    if ruled.strategy.removes_material:
        for one in state.contradictions:
            hindered.append((one.because, one.questions))
    for id in ruled.doubts:
        doubt, condition = guide.doubts[id]
        truth = condition.truth(state.box)
        if truth:
            hindered.append((doubt.because, tuple(q for q in doubt.questions if q in ruled.questions)))
        elif truth is None:
            hindered.append(("", waiting_on(guide, state, [condition])))
    return hindered


def _warned(
    guide: Guide, state: State, ruled: RuledStrategy | None, *, only_its_own: bool = False
) -> list[Warned]:
    """List the cautions that apply, danger first: of the answers, and of the strategy's work."""
    warned = []
    for caution, condition in guide.cautions.values():
        if condition is not None and condition.truth(state.box) is not True:
            continue
        brings = caution.involves & ruled.strategy.involves if ruled else frozenset()
        if (caution.involves or only_its_own) and not brings:
            continue
        reasons = [] if condition is None else explain(guide, state, condition.expr, holds=True)
        if brings and ruled is not None:
            work = ", ".join(sorted(word.replace("_", " ") for word in brings))
            reasons = [*reasons, f"{ruled.strategy.title}: {work}"]
        warned.append(_warning(caution, reasons))
    return sorted(warned, key=lambda w: LEVELS.index(w.level))


def _warning(caution: Caution, reasons: list[str]) -> Warned:
    return Warned(caution.id, caution.level, caution.text, "; ".join(reasons), caution.shop_rule)


def _stopped(guide: Guide, state: State) -> tuple[Stopped, ...]:
    return tuple(
        Stopped(stop.id, stop.says, stop.do, "; ".join(explain(guide, state, condition.expr, holds=True)))
        for stop, condition in guide.stops.values()
        if condition is not None and condition.truth(state.box)
    )


__all__ = ["MOST_CAUTIONS", "Advice", "Proposal", "Standing", "Stopped", "Warned", "advise", "fact"]
