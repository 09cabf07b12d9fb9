"""What a case must be before it is kept: the shape of its values, not the sense of its answers."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from datetime import date
from typing import Any

from casebook.records.case import HELD, Answer, Case, FollowUp
from casebook.records.flat import faults
from casebook.records.workshop import OUTCOMES, URGENCIES
from casebook.safe_text import unsafe_character

MAX_TEXT = 1_000_000
MAX_HOURS = 100_000.0
MAX_DEPTH = 20
MAX_JSON_DEPTH = 60
NUMBER = re.compile(r"\w[\w./-]{0,39}")
UID = re.compile(r"[0-9a-f]{32}")


class BadCase(ValueError):
    """A case that cannot be kept: where in it, and what is wrong, in one line."""

    def __init__(self, where: str, problem: str) -> None:
        super().__init__(where, problem)
        self.where = where
        self.problem = problem

    def __str__(self) -> str:
        return f"{self.where}: {self.problem}"


def check(case: Case) -> None:
    """Refuse a case that could not be stored, shown and exported as it is.

    Raises:
        BadCase: a text with a control character, hours that are no hours, a number that could not be typed
            again, two damages of one number, an answer that is no text, list or mapping.
    """
    for where, value in _leaves(case, ""):
        _leaf(where, value)
    if case.number and not NUMBER.fullmatch(case.number):
        raise BadCase(
            "number", f"{case.number!r} is no case number: letters, digits, '-', '.', '/', at most 40"
        )
    for where, uid in (("uid", case.uid), ("instrument: uid", case.instrument.uid)):
        if uid and not UID.fullmatch(uid):
            raise BadCase(where, "must be 32 digits and letters a to f, or left out")
    check_answers(case.answers, "answers")
    _check_flat("", (case.visit,))
    _check_flat("waits", case.waits)
    numbers: set[int] = set()
    for at, damage in enumerate(case.damages, 1):
        where = f"damage {damage.number or at}"
        if damage.number < 0 or (damage.number and damage.number in numbers):
            raise BadCase(where, "this number is given twice" if damage.number > 0 else "no such number")
        numbers.add(damage.number)
        if not damage.family.strip():
            raise BadCase(where, "family is missing")
        if damage.urgency not in ("", *URGENCIES):
            raise BadCase(where, f"urgency {damage.urgency!r}: write one of {', '.join(URGENCIES)}")
        if not damage.looks:
            raise BadCase(where, "at least one look is needed")
        if damage.choice is not None and not damage.choice.strategy.strip():
            raise BadCase(where, "chosen is empty")
        for followup in damage.followups:
            _check_followup(where, followup)
        _check_flat(where, damage.consents)
        for look in damage.looks:
            check_answers(look.answers, where)
        for what, texts in (
            ("a step has no text", (step.text for step in damage.steps)),
            ("a measured size needs what and value", (t for m in damage.measured for t in (m.what, m.value))),
            ("figures name no worksheet", (used.worksheet for used in damage.figures)),
            ("a departure needs what was planned", (one.planned for one in damage.departures)),
            ("a reading before and after needs what", (one.what for one in damage.before_after)),
        ):
            if not all(texts):
                raise BadCase(where, what)


def _check_flat(where: str, values: Iterable[Any]) -> None:
    for value in values:
        for key, problem in faults(value):
            raise BadCase(f"{where}: {key}" if where else key, problem)


def _check_followup(where: str, followup: FollowUp) -> None:
    if followup.held not in HELD:
        raise BadCase(where, f"held is yes, no or not_known, not {followup.held!r}")
    _check_flat(where, (followup,))
    if followup.kind:
        told = OUTCOMES[followup.kind]
        # Of what came from outside one may not know whether the repair had held until then.
        beside = ("not_known",) if followup.ends_observation and not followup.against else ()
        if followup.held not in (told, *beside):
            raise BadCase(where, f"{followup.kind} goes with held: {told}, not {followup.held}")
    if (followup.what or followup.since) and not followup.against:
        raise BadCase(where, "what let go, and since when, goes with kind: let_go only")


def check_answers(answers: Any, where: str) -> None:
    """Refuse answers that are not text, lists or mappings of text, by question id.

    Raises:
        BadCase: an empty question id or another kind of value.
    """
    for question, answer in answers.items():
        if not isinstance(question, str) or not question.strip():
            raise BadCase(where, "a question id is empty")
        _leaf(where, question)
        check_answer(answer, f"{where}: {question}")


def check_answer(answer: Answer, where: str, depth: int = 0) -> None:
    """Refuse one answer that is not text, a list or a mapping, down to its leaves.

    Raises:
        BadCase: another kind of value, a control character, or too deep a nesting.
    """
    if depth > MAX_DEPTH:
        raise BadCase(where, f"nested deeper than {MAX_DEPTH} levels")
    if isinstance(answer, str):
        _leaf(where, answer)
    elif isinstance(answer, dict):
        for key, inner in answer.items():
            if not isinstance(key, str):
                raise BadCase(where, f"key {key!r} is no text")
            _leaf(where, key)
            check_answer(inner, where, depth + 1)
    elif isinstance(answer, list):
        for inner in answer:
            check_answer(inner, where, depth + 1)
    else:
        raise BadCase(where, f"an answer is text, a list or a mapping, not {type(answer).__name__}")


def _leaves(value: Any, where: str) -> Iterator[tuple[str, Any]]:
    """Walk everything of a case but its answers, which have their own form."""
    if is_dataclass(value):
        for field in fields(value):
            if field.name not in ("answers", "version"):
                name = field.name.replace("_", " ")
                inner = getattr(value, field.name)
                if field.name in ("advice", "result"):
                    _json(name, inner)
                elif field.name in ("hours", "redo_hours") and not (inner is None or 0 <= inner <= MAX_HOURS):
                    raise BadCase(f"{where}: {name}", f"{inner} is no number of hours")
                else:
                    yield from _leaves(inner, f"{where}: {name}" if where else name)
    elif isinstance(value, tuple):
        for at, inner in enumerate(value, 1):
            yield from _leaves(inner, f"{where} {at}")
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield where, key
            yield where, inner
    else:
        yield where, value


def _leaf(where: str, value: Any) -> None:
    if isinstance(value, str):
        bad = unsafe_character(value)
        if bad:
            raise BadCase(where, f"control character {bad} is not allowed: take it out")
        if len(value) > MAX_TEXT:
            raise BadCase(where, f"longer than {MAX_TEXT:,} characters")
    elif not (value is None or isinstance(value, bool | int | float | date)):
        raise BadCase(where, f"{type(value).__name__} cannot be kept here")


def _json(where: str, value: Any, depth: int = 0) -> None:
    if depth > MAX_JSON_DEPTH:
        raise BadCase(where, f"nested deeper than {MAX_JSON_DEPTH} levels")
    if isinstance(value, dict):
        for key, inner in value.items():
            if not isinstance(key, str):
                raise BadCase(where, f"key {key!r} is no text")
            _leaf(where, key)
            _json(where, inner, depth + 1)
    elif isinstance(value, list):
        for inner in value:
            _json(where, inner, depth + 1)
    elif isinstance(value, str):
        _leaf(where, value)
    elif isinstance(value, float) and not math.isfinite(value):
        raise BadCase(where, f"{value} is no number that can be kept")
    elif not (value is None or isinstance(value, bool | int | float)):
        raise BadCase(where, f"{type(value).__name__} is no JSON value")
