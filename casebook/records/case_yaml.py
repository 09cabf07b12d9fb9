"""Writing cases as YAML: every key in its order, nothing that is empty, short forms where they say it all."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

import yaml

from casebook.records.case import Case, Damage, FiguresUsed, FollowUp, Look
from casebook.records.flat import file_values

_Fields = dict[str, Any]
_BASE: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


class _Dumper(_BASE):  # type: ignore[misc]
    """Long texts stand as blocks, so that a story can be read and edited in the file."""

    def ignore_aliases(self, data: object) -> bool:  # noqa: ARG002
        return True


def _text(dumper: Any, text: str) -> Any:
    # A block keeps line feeds only where no line is odd at its ends; else the quoted form is right.
    plain = "\n" in text and text.strip() and all(row == row.rstrip() for row in text.split("\n"))
    style = "|" if plain and not text.startswith((" ", "\n")) else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=style)


_Dumper.add_representer(str, _text)


def write(cases: Iterable[Case]) -> str:
    """Give cases as the text of a case file, which reads back to equal cases.

    Advice and results are JSON and stand as one text each, because a number in YAML would come back as text.
    """
    document = {"cases": [_case(case) for case in cases]}
    return str(yaml.dump(document, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100, indent=2))


def _case(case: Case) -> _Fields:
    thing = case.instrument
    instrument = _filled(
        uid=thing.uid,
        kind=thing.kind,
        description=thing.description,
        materials=thing.materials,
        marks=thing.marks,
    )
    return _filled(
        number=case.number,
        uid=case.uid,
        title=case.title,
        taken_in=case.taken_in,
        finished=case.finished,
        instrument=instrument,
        owner=case.owner,
        owner_words=case.owner_words,
        **file_values(case.visit),
        answers=case.answers,
        waits=_flat(case.waits),
        wood_readings=_flat(case.wood_readings),
        confirmed=_flat(case.confirmed),
        damages=_damages(case.damages),
    )


def _damages(damages: Iterable[Damage]) -> list[_Fields]:
    """Write a number only where reading would not give the same one."""
    written: list[_Fields] = []
    highest = 0
    for damage in damages:
        number = damage.number if damage.number != highest + 1 else 0
        highest = max(highest + (damage.number == 0), damage.number)
        written.append(_damage(damage, number))
    return written


def _damage(damage: Damage, number: int) -> _Fields:
    single = len(damage.looks) == 1 and damage.looks[0] == Look(damage.looks[0].answers)
    once = len(damage.followups) == 1
    choice = damage.choice
    return _filled(
        number=number,
        family=damage.family,
        place=damage.place,
        story=damage.story,
        answers=damage.looks[0].answers if single else {},
        looks=[] if single else [_look(look) for look in damage.looks],
        chosen=choice.strategy if choice else "",
        chosen_on=choice.on if choice else None,
        reason=choice.reason if choice else "",
        advice=_json(choice.advice if choice else None),
        figures=[_figures(used) for used in damage.figures],
        consents=_flat(damage.consents),
        steps=_flat(damage.steps),
        departures=_flat(damage.departures),
        measured=_flat(damage.measured),
        before_after=_flat(damage.before_after),
        done=damage.done,
        hours=damage.hours,
        repaired_on=damage.repaired_on,
        outcome=_followup(damage.followups[0]) if once else {},
        followups=[] if once else [_followup(followup) for followup in damage.followups],
        learned=damage.learned,
        urgency=damage.urgency,
    )


def _look(look: Look) -> _Fields:
    return _filled(taken=look.taken, ended_by=look.ended_by, note=look.note, answers=look.answers)


def _figures(used: FiguresUsed) -> _Fields:
    return _filled(worksheet=used.worksheet, inputs=used.inputs, result=_json(used.result))


def _followup(followup: FollowUp) -> _Fields:
    values = file_values(followup)
    return _filled(looked=values.pop("looked"), **values)


def _flat(values: Iterable[Any]) -> list[_Fields]:
    return [_filled(**file_values(value)) for value in values]


def _json(value: Any) -> str:
    return "" if value is None else json.dumps(value, ensure_ascii=False)


def _filled(**fields: Any) -> _Fields:
    """Keep what says something; everything becomes text, lists and mappings."""
    return {key: _plain(value) for key, value in fields.items() if not _empty(value)}


def _empty(value: Any) -> bool:
    return value is None or value is False or (not isinstance(value, float) and not value)


def _plain(value: Any) -> Any:
    if value is True:
        return "yes"
    if isinstance(value, dict):
        return {str(key): _plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    if isinstance(value, float):
        return repr(value).removesuffix(".0")
    return str(value)
