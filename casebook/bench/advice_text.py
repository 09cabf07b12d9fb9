"""Advice in plain lines, for reading on paper, in a pipe or by a screen reader."""

from __future__ import annotations

from collections.abc import Iterator

from casebook.bench.triage import Bench
from casebook.bench.waiting import wait_text, waiting_text
from casebook.bench.whole_instrument import shared_cautions
from casebook.bench.work_order import work_order
from casebook.guide.advice import Advice, Proposal
from casebook.guide.next_question import Asked, next_questions

_MARKS = {"fits": "+ fits     ", "open": "? open     ", "ruled_out": "x ruled out"}
_MOST_ASKED = 5
_MOST_OPEN = 6
_MOST_REASONS = 2


def bench_text(bench: Bench) -> list[str]:
    """Word the advice on every damage, and the order of work over several."""
    lines: list[str] = []
    if bench.several:
        lines += _shared(bench)
    for number, (advice, place) in enumerate(zip(bench.advices, bench.places, strict=True), 1):
        if bench.several:
            lines += [f"{number}. {advice.guide.pack.title}{f', {place}' if place else ''}", ""]
        lines += [*advice_text(advice, cautions=not bench.several), ""]
    if bench.several and len(bench.advices) > 1:
        order = work_order(bench.advices)
        lines.append("Order of work")
        lines += [
            f"  {place}. damage {step.damage} ({step.family}): {step.because}"
            for place, step in enumerate(order.steps, 1)
        ]
        lines += [f"  ! {says}" for says in order.mind]
        waits = waiting_text(order.waiting)
        if waits:
            lines += ["Waiting", *(f"  {line}" for line in waits)]
    while lines and not lines[-1]:
        lines.pop()
    return lines


def _shared(bench: Bench) -> list[str]:
    """Word the cautions over all damages, each once, with the damages it holds for."""
    shown, beyond = shared_cautions(bench.advices)
    lines = []
    for one in shown:
        every = len(one.damages) == len(bench.advices)
        where = "" if every else f" (damage {', '.join(str(number) for number in one.damages)})"
        lines.append(f"{one.warned.level.upper()}: {one.warned.text}{where}")
    return [*lines, *_and_more(len(beyond)), ""] if lines else []


def _and_more(count: int) -> list[str]:
    return [f"and {count} more to mind" if count > 1 else "and one more to mind"] if count else []


def advice_text(advice: Advice, *, cautions: bool = True) -> Iterator[str]:
    """Word the advice on one damage, with its cautions or without where they are said for all at once."""
    for stop in advice.stops:
        yield f"STOP: {stop.says} {stop.do} ({stop.because})"
    for contradiction in advice.contradictions:
        yield f"These do not agree: {contradiction.because}"
    warned = advice.cautions if cautions else ()
    for caution in warned:
        yield f"{caution.level.upper()}: {caution.text}"
    if warned:
        yield from _and_more(len(advice.more_cautions))
    if advice.stops or advice.contradictions or warned:
        yield ""
    yield f"What could be done (ranked: {advice.profile})"
    ruled_out = [p for p in advice.proposals if p.standing == "ruled_out"]
    strategies = advice.guide.strategies
    # What is only offered on call, and not called for, would be noise here.
    still_open = [
        p
        for p in advice.proposals
        if p.standing == "open" and (p.called_for or not strategies[p.id].strategy.on_call)
    ]
    for proposal in [p for p in advice.proposals if p.standing == "fits"] + still_open[:_MOST_OPEN]:
        yield from _proposal(advice, proposal)
    if len(still_open) > _MOST_OPEN:
        yield f"  and {len(still_open) - _MOST_OPEN} more still open"
    if ruled_out:
        yield "Ruled out"
        for proposal in ruled_out:
            yield f"  {proposal.title}: {'; '.join(proposal.because[:_MOST_REASONS])}"
    asked = next_questions(advice)
    yield ""
    if not asked:
        yield "Nothing more to ask: no answer would change the first proposal, a stop or a danger."
        return
    yield "Ask next"
    for one in asked[:_MOST_ASKED]:
        question = advice.guide.questions[one.question]
        yield f"  {question.ask} [{one.question}] ({why_asked(one)})"
    if len(asked) > _MOST_ASKED:
        yield f"  and {len(asked) - _MOST_ASKED} more"


def _proposal(advice: Advice, proposal: Proposal) -> Iterator[str]:
    yield f"  {_MARKS[proposal.standing]}  {proposal.place}. {proposal.title} [{proposal.id}]"
    if proposal.because:
        yield f"                 because {'; '.join(proposal.because)}"
    if proposal.waiting_on:
        names = [advice.guide.questions[q].name for q in proposal.waiting_on]
        yield f"                 waits for: {', '.join(names)}"
    strategy = advice.guide.strategies[proposal.id].strategy
    if strategy.leads_to:
        yield f"                 leads to: {strategy.leads_to}"
    if strategy.waits:
        yield f"                 time: {', then '.join(wait_text(wait) for wait in strategy.waits)}"


def why_asked(asked: Asked) -> str:
    """Say why a question is worth asking."""
    if asked.disputed:
        return "answers do not agree"
    if asked.settles < 0.05:
        return "may bring a stop or a danger to light"
    return f"settles {asked.settles:.1f} of {asked.open} still open on average"
