"""What stands around a damage in plain lines: the visit, its waits, what was agreed, how it turned out."""

from __future__ import annotations

from collections.abc import Iterator

from casebook.records.case import Case, Damage, FollowUp
from casebook.records.workshop import Consent, Wait

_OUTCOMES = {
    "holding": "holding",
    "let_go": "let go",
    "knocked_again": "knocked again",
    "altered_by_others": "altered by others",
    "new_fault_elsewhere": "new fault elsewhere",
    "not_seen": "not seen since",
}
_SAID = {"yes": "agreed", "no": "advised, declined", "later": "put off"}


def visit_text(case: Case) -> Iterator[str]:
    """Word what belongs to the visit, one thing a line, nothing that was not said."""
    visit = case.visit
    for what, said in (
        ("comes back from", visit.comes_back_from),
        ("needed by", _on(visit.needed_by, visit.needed_for)),
        ("came in with", visit.came_in_with),
        ("lent meanwhile", _on(visit.loaned_until, visit.loaned_out, "until")),
        ("pays", visit.pays),
        ("materials reckoned at", visit.materials_price),
        ("ready", _on(visit.ready_on)),
        ("owner told", _on(visit.told_on)),
        ("collected", _on(visit.collected_on)),
        ("paid", _joined(visit.paid, visit.paid_how, _on(visit.paid_on))),
    ):
        if said:
            yield f"{what}: {said}"
    for wait in case.waits:
        yield _wait(wait)
    for reading in case.wood_readings:
        humidity = f"{reading.humidity} % humidity" if reading.humidity else ""
        widths = f"width {' / '.join(reading.widths)}" if reading.widths else ""
        read = _joined(reading.part, reading.weight, humidity, widths, reading.note)
        yield f"wood read {_on(reading.read_on)}: {read}"
    for one in case.confirmed:
        yield f"danger confirmed: {one.caution} {_bracketed(_joined(_on(one.confirmed_on), one.by))}".rstrip()


def agreed_text(damage: Damage) -> Iterator[str]:
    """Word what was said to the work on a damage, in order."""
    for consent in damage.consents:
        yield _consent(consent)


def work_text(damage: Damage) -> Iterator[str]:
    """Word what was done otherwise than planned, and the readings before and after."""
    for one in damage.departures:
        why = f", because {one.why}" if one.why else ""
        yield f"otherwise than planned: {one.planned}{f'; done: {one.did}' if one.did else ''}{why}"
    for read in damage.before_after:
        before, after = read.before or "not read", read.after or "not read"
        yield f"{read.what}: before {before}, after {after} {_bracketed(read.note)}".rstrip()


def outcome_text(followup: FollowUp | None) -> str:
    """Word how a repair turned out."""
    if followup is None:
        return ""
    words = f"{followup.looked or ''} {_OUTCOMES[followup.turned_out]}".strip()
    told = _joined(followup.what, followup.cause)
    if told:
        words += f": {told}"
    if followup.since:
        words += f", began {followup.since}"
    if followup.by_phone:
        words += ", told by phone"
    if followup.redo_hours is not None:
        words += f", done again free in {followup.redo_hours:g} h"
    return f"{words} {_bracketed(followup.note)}".rstrip()


def _consent(consent: Consent) -> str:
    to_what = f" to {consent.to_what}" if consent.to_what else ""
    up_to = f"up to {consent.up_to}" if consent.up_to else ""
    pays = f"{consent.pays} pays" if consent.pays else ""
    more = _joined(_on(consent.given_on), consent.who, consent.how, up_to, pays, consent.note)
    return f"{_SAID[consent.said]}{to_what}{f': {more}' if more else ''}"


def _wait(wait: Wait) -> str:
    until = f"until {wait.until}{f' {wait.at}' if wait.at else ''}" if wait.until else ""
    ended = f"ended {wait.ended}" if wait.ended else ""
    damage = f"damage {wait.damage}" if wait.damage else ""
    since = f"since {wait.since}" if wait.since else ""
    return f"waits for {wait.what}: {_joined(damage, since, until, ended, wait.note)}".removesuffix(": ")


def _on(day: object, what: str = "", word: str = "") -> str:
    when = f"{word} {day}".strip() if day else ""
    return _joined(what, when) if word else _joined(when, what)


def _joined(*parts: str) -> str:
    return ", ".join(part for part in parts if part)


def _bracketed(text: str) -> str:
    return f"({text.strip()})" if text.strip() else ""


def hours_text(damage: Damage) -> str:
    """Word the bench hours, those of every free redo counted in; empty where none were written down."""
    spent = damage.hours_in_all
    if spent is None:
        return ""
    again = spent - (damage.hours or 0)
    return f"{spent:g} hours{f', {again:g} of them done again free' if again else ''}"
