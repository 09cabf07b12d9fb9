"""A case in plain lines and as plain data, whole, as it was decided: nothing here is computed anew."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from datetime import date
from typing import Any

from casebook.bench.library import Library
from casebook.bench.visit_text import agreed_text, hours_text, outcome_text, visit_text, work_text
from casebook.guide.guide import Guide
from casebook.guide.pack import Question
from casebook.records.case import Answer, Case, Damage
from casebook.strict_yaml import BrokenFile


def case_data(case: Case) -> dict[str, Any]:
    """Give a case as plain data: dates as ISO text, empty things left in."""
    data: dict[str, Any] = _plain(asdict(case))
    return data


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(key): _plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    if isinstance(value, date):
        return value.isoformat()
    return str(value) if isinstance(value, str) else value


def case_text(library: Library, case: Case) -> Iterator[str]:
    """Word a case for reading."""
    yield f"{case.number}  {case.title}"
    about = ", ".join(
        part
        for part in (case.instrument.description, case.instrument.materials, case.instrument.marks)
        if part
    )
    yield f"{case.instrument.kind or 'instrument'}{f': {about}' if about else ''}"
    yield f"taken in {_day(case.taken_in)}, {'finished' if case.finished else 'on the bench'}"
    if case.owner_words:
        yield f"owner's words: {case.owner_words}"
    yield from visit_text(case)
    yield from _answers(_guide(library, None), case.answers, "  ")
    for damage in case.damages:
        yield ""
        yield from _damage(library, damage)


def _damage(library: Library, damage: Damage) -> Iterator[str]:
    guide = _guide(library, damage.family)
    yield ", ".join(
        part
        for part in (f"{damage.number}. {guide.pack.title if guide else damage.family}", damage.place)
        if part
    )
    if damage.story:
        yield f"  as found: {damage.story}"
    for number, look in enumerate(damage.looks, 1):
        if len(damage.looks) > 1 or look.taken:
            day = f", {look.taken}" if look.taken else ""
            yield f"  look {number}{day}{_bracketed(look.note)}"
        yield from _answers(guide, look.answers, "    ")
        if look.ended_by:
            yield f"    ended by: {look.ended_by}"
    if damage.urgency:
        yield f"  how soon: {damage.urgency.replace('_', ' ')}"
    if damage.choice:
        choice = damage.choice
        yield f"  decided{f' {choice.on}' if choice.on else ''}: {_strategy(guide, choice.strategy)}"
        if choice.reason:
            yield f"    because: {choice.reason}"
        yield from _advised(choice.advice)
    yield from (f"  {line}" for line in agreed_text(damage))
    for used in damage.figures:
        inputs = " ".join(f"{name}={typed}" for name, typed in used.inputs.items())
        yield f"  figures: {used.worksheet} {inputs}"
    for step in damage.steps:
        mark = f"{step.done_on or ''} {step.by}".strip()
        hours = f" {step.hours:g} h" if step.hours is not None else ""
        note = f": {step.note}" if step.note else ""
        yield f"  [x] {step.text}{_bracketed(mark + hours)}{note}"
    for size in damage.measured:
        yield f"  as made: {size.what} {size.value}{_bracketed(size.note)}"
    yield from (f"  {line}" for line in work_text(damage))
    if damage.done:
        yield f"  done: {damage.done}"
    if damage.hours_in_all is not None or damage.repaired_on:
        hours = hours_text(damage)
        yield f"  {f'{hours}, ' if hours else ''}repaired on {_day(damage.repaired_on)}"
    for followup in damage.followups:
        yield f"  {outcome_text(followup)}"
    if damage.learned:
        yield f"  learned: {damage.learned}"


def _advised(kept: Any) -> Iterator[str]:
    """Say what was advised when it was decided, as it was kept."""
    if not isinstance(kept, dict) or not isinstance(kept.get("advice"), dict):
        return
    advice = kept["advice"]
    packs = ", ".join(f"{pack.get('id')} {str(pack.get('digest'))[:8]}" for pack in advice.get("packs", []))
    yield f"    advised then (program {kept.get('program', '?')}; {packs}):"
    for strategy in advice.get("strategies", []):
        if strategy.get("standing") == "fits" or strategy.get("place", 99) <= 3:
            word = {"fits": "fits", "open": "open", "ruled_out": "ruled out"}.get(
                strategy.get("standing"), "?"
            )
            yield f"      {strategy.get('place')}. {strategy.get('title')} ({word})"
    for one in advice.get("contradictions", []):
        yield f"      did not agree: {one.get('because')}"


def _answers(guide: Guide | None, answers: Any, indent: str) -> Iterator[str]:
    for id, answer in answers.items():
        question = question_of(guide, id)
        yield f"{indent}{question.name if question else id}: {answer_text(guide, id, answer)}"


def question_of(guide: Guide | None, id: str) -> Question | None:
    """Give the question an answer was kept under, by the id it has now or one it had before."""
    return guide.questions.get(guide.renamed().get(id, id)) if guide else None


def answer_text(guide: Guide | None, id: str, answer: Answer) -> str:
    """Word an answer by its labels, or as it stands where the packs do not know it."""
    question = question_of(guide, id)
    labels = dict(question.answers) if question else {}
    if question:
        labels |= {old: labels[now] for old, now in question.answers_were.items() if now in labels}

    def word(node: Any) -> str:
        return labels.get(str(node), str(node))

    if isinstance(answer, list):
        return " or ".join(word(node) for node in answer)
    if isinstance(answer, dict):
        if "value" in answer:
            error = f" +- {answer['error']}" if "error" in answer else ""
            return f"{answer['value']} {answer.get('unit', '')}{error}"
        form, inner = next(iter(answer.items()))
        words = [word(node) for node in inner] if isinstance(inner, list) else [word(inner)]
        return f"not {', not '.join(words)}" if form == "not" else " and ".join(words)
    return word(answer)


def _strategy(guide: Guide | None, id: str) -> str:
    ruled = guide.strategies.get(id) if guide else None
    return ruled.strategy.title if ruled else id


def _guide(library: Library, family: str | None) -> Guide | None:
    """Give a guide, or None when the packs no longer have the family; an old case still reads."""
    try:
        return library.intake() if family is None else library.guide(family)
    except (KeyError, BrokenFile):
        return None


def _bracketed(text: str) -> str:
    return f" ({text.strip()})" if text.strip() else ""


def _day(day: date | None) -> str:
    return day.isoformat() if day else "(no date)"
