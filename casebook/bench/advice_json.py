"""Advice as plain data: what `triage --json` prints and what the record keeps of a decision."""

from __future__ import annotations

from typing import Any

from casebook.bench.changing import above_the_next
from casebook.bench.triage import Bench
from casebook.bench.waiting import WaitingTimes, Waits, wait_text
from casebook.bench.whole_instrument import SharedCaution, shared_cautions
from casebook.bench.work_order import work_order
from casebook.guide.advice import Advice, Warned
from casebook.guide.next_question import next_questions
from casebook.guide.pack import Wait
from casebook.guide.reasons import fact


def advice_json(advice: Advice) -> dict[str, Any]:
    """Give the advice on one damage; lengths in mm."""
    guide = advice.guide
    return {
        "family": guide.family,
        "pack": _pack(guide.pack),
        "packs": [_pack(pack) for pack in guide.packs],
        "strategies": [
            {
                "id": p.id,
                "title": p.title,
                "standing": p.standing,
                "place": p.place,
                "because": list(p.because),
                "waiting_on": list(p.waiting_on),
                "cautions": list(p.cautions),
                "above_the_next": above_the_next(advice, p),
                "leads_to": guide.strategies[p.id].strategy.leads_to,
                "waits": [wait_json(wait) for wait in guide.strategies[p.id].strategy.waits],
            }
            for p in advice.proposals
        ],
        "ranked_by": advice.profile,
        "cautions": [_caution(caution) for caution in advice.cautions],
        "more_cautions": [_caution(caution) for caution in advice.more_cautions],
        "ask_next": [asked.question for asked in next_questions(advice)],
        "findings": {id: _finding(advice, id) for id in guide.finding_order},
        "contradictions": [
            {"id": one.id, "questions": list(one.questions), "because": one.because}
            for one in advice.contradictions
        ],
        "stop": [
            {"id": one.id, "because": f"{one.says} ({one.because})", "do": one.do} for one in advice.stops
        ],
    }


def bench_json(bench: Bench) -> dict[str, Any]:
    """Give the advice on an answers file: one damage, or several with the order of work."""
    if not bench.several:
        return advice_json(bench.advices[0])
    damages = [
        {"damage": number, "place": place, **advice_json(advice)}
        for number, (advice, place) in enumerate(zip(bench.advices, bench.places, strict=True), 1)
    ]
    stops: dict[str, dict[str, Any]] = {}
    for damage in damages:
        for stop in damage["stop"]:
            stops.setdefault(stop["id"], stop)
    shown, beyond = shared_cautions(bench.advices)
    order = work_order(bench.advices)
    return {
        "damages": damages,
        "order": [
            {"damage": step.damage, "family": step.family, "strategy": step.strategy, "because": step.because}
            for step in order.steps
        ],
        "mind": list(order.mind),
        "waiting": _waiting(order.waiting),
        "cautions": [_shared(one) for one in shown],
        "more_cautions": [_shared(one) for one in beyond],
        "stop": list(stops.values()),
    }


def _shared(one: SharedCaution) -> dict[str, Any]:
    return {**_caution(one.warned), "damages": list(one.damages)}


def _waiting(times: WaitingTimes) -> dict[str, Any]:
    return {
        "on_order": [_waits(one) for one in times.on_order],
        "rounds": [
            {
                "damages": [_waits(one) for one in together.damages],
                "least_hours": float(together.least),
                "most_hours": float(together.most),
            }
            for together in times.rounds
        ],
        "least_hours": float(times.least),
        "most_hours": float(times.most),
    }


def _waits(one: Waits) -> dict[str, Any]:
    waits = [wait_json(wait) for wait in one.waits]
    return {"damage": one.damage, "settled": one.settled, "waits": waits}


def wait_json(wait: Wait) -> dict[str, Any]:
    """Give a waiting time; hours."""
    return {
        "what": wait.what,
        "of": wait.of,
        "least_hours": float(wait.least),
        "most_hours": float(wait.most),
        "says": wait_text(wait),
    }


def _pack(pack: Any) -> dict[str, str]:
    return {"id": pack.id, "version": pack.version, "digest": pack.digest}


def _caution(caution: Warned) -> dict[str, Any]:
    return {
        "id": caution.id,
        "level": caution.level,
        "text": caution.text,
        "because": caution.because,
        "shop_rule": caution.shop_rule,
    }


def _finding(advice: Advice, id: str) -> dict[str, Any]:
    found = advice.state.found[id]
    figure = found.figure
    shown = (
        {}
        if figure is None
        else {"value": figure.value, "unit": figure.unit, "low": figure.low, "high": figure.high}
    )
    return {
        "holds": found.holds,
        **shown,
        "because": fact(advice.guide, advice.state, id),
        "waiting_on": list(found.waits_on),
    }
