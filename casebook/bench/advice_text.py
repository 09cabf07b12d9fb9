"""Advice in plain lines, for reading on paper, in a pipe or by a screen reader."""

from __future__ import annotations

from collections.abc import Iterator

from casebook.bench.triage import Bench
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
    for number, (advice, place) in enumerate(zip(bench.advices, bench.places, strict=True), 1):
        if bench.several:
            lines += [f"{number}. {advice.guide.pack.title}{f', {place}' if place else ''}", ""]
        lines += [*advice_text(advice), ""]
    if bench.several and len(bench.advices) > 1:
        order = work_order(bench.advices)
        lines.append("Order of work")
        lines += [
            f"  {place}. damage {step.damage} ({step.family}): {step.because}"
            for place, step in enumerate(order.steps, 1)
        ]
        lines += [f"  ! {says}" for says in order.mind]
    while lines and not lines[-1]:
        lines.pop()
    return lines


def advice_text(advice: Advice) -> Iterator[str]:
    """Word the advice on one damage."""
    for stop in advice.stops:
        yield f"STOP: {stop.says} {stop.do} ({stop.because})"
    for contradiction in advice.contradictions:
        yield f"These do not agree: {contradiction.because}"
    for caution in advice.cautions:
        yield f"{caution.level.upper()}: {caution.text}"
    if advice.stops or advice.contradictions or advice.cautions:
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


def why_asked(asked: Asked) -> str:
    """Say why a question is worth asking."""
    if asked.disputed:
        return "answers do not agree"
    if asked.settles < 0.05:
        return "may bring a stop or a danger to light"
    return f"settles {asked.settles:.1f} of {asked.open} still open on average"
