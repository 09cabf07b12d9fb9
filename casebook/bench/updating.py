"""Bringing a known case up to date from a file: what the file says replaces, what it leaves out stays."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import fields as fields_of
from dataclasses import replace
from typing import Any

from casebook.records.case import Case, Damage, Look
from casebook.records.flat import key_of
from casebook.records.workshop import Visit

_OF_CASE = (
    "title", "taken_in", "finished", "owner", "owner_words", "waits", "wood_readings", "confirmed",
)  # fmt: skip
_OF_VISIT = {key_of(field): field.name for field in fields_of(Visit)}
# Key of a damage in a case file -> field of the value object.
_OF_DAMAGE = {
    "family": "family",
    "place": "place",
    "story": "story",
    "looks": "looks",
    "chosen": "choice",
    "figures": "figures",
    "steps": "steps",
    "measured": "measured",
    "done": "done",
    "hours": "hours",
    "repaired_on": "repaired_on",
    "followups": "followups",
    "learned": "learned",
    "consents": "consents",
    "departures": "departures",
    "before_after": "before_after",
    "urgency": "urgency",
}


def updated(stored: Case, said: Case, node: Mapping[str, Any]) -> Case:
    """Lay what a file says of a case over what is stored of it.

    Args:
        stored: the case of the book.
        said: the case as read from the file.
        node: the case's mapping in the file, which tells what the file says and what it leaves out.

    Returns:
        The case to store. Damages are matched by number, else by their order; those the file does not
        name stay. Answers are laid over one by one; `looks:` replaces all looks. An `outcome` of the same
        day replaces that follow-up, of another day it is added.
    """
    fields: dict[str, Any] = {key: getattr(said, key) for key in _OF_CASE if key in node}
    if "instrument" in node:
        fields["instrument"] = replace(
            stored.instrument, **{str(key): getattr(said.instrument, str(key)) for key in node["instrument"]}
        )
    if "answers" in node:
        fields["answers"] = {**stored.answers, **said.answers}
    told = {field: getattr(said.visit, field) for key, field in _OF_VISIT.items() if key in node}
    fields["visit"] = replace(stored.visit, **told)
    if "damages" in node:
        fields["damages"] = tuple(_damages(stored.damages, said.damages, node["damages"]))
    return replace(stored, **fields)


def _damages(stored: Iterable[Damage], said: Iterable[Damage], nodes: Iterable[Any]) -> list[Damage]:
    kept = {damage.number: damage for damage in stored}
    for damage, node in zip(said, nodes, strict=True):
        before = kept.get(damage.number)
        kept[damage.number] = damage if before is None else _damage(before, damage, node)
    return list(kept.values())


def _damage(stored: Damage, said: Damage, node: Mapping[str, Any]) -> Damage:
    fields: dict[str, Any] = {
        _OF_DAMAGE[key]: getattr(said, _OF_DAMAGE[key]) for key in node if key in _OF_DAMAGE
    }
    if "answers" in node:
        last = stored.looks[-1] if stored.looks else Look()
        fields["looks"] = (
            *stored.looks[:-1],
            replace(last, answers={**last.answers, **said.looks[-1].answers}),
        )
    if "outcome" in node:
        days = {followup.looked for followup in said.followups}
        before = tuple(followup for followup in stored.followups if followup.looked not in days)
        fields["followups"] = before + said.followups
    return replace(stored, **fields)
