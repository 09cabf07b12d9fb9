"""Case files: cases as YAML, read with a line for every complaint and written so that they read back equal.

Question and answer ids are not judged here; each text keeps the line it stands on, so that whoever knows
the rule packs can name it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from casebook.records.case import (
    HELD,
    Case,
    Choice,
    Damage,
    FiguresUsed,
    FollowUp,
    Held,
    Instrument,
    Look,
    Measured,
    StepDone,
)
from casebook.records.case_yaml import write
from casebook.records.check import BadCase, check
from casebook.records.fields import FieldReader, Fields, is_null
from casebook.strict_yaml import BrokenFile, Text, line_of, parse

__all__ = ["read", "write"]


_CASE = (
    "number", "uid", "title", "taken_in", "finished", "instrument", "owner", "owner_words", "answers",
    "damages",
)  # fmt: skip
_DAMAGE = (
    "number", "family", "place", "story", "answers", "looks", "chosen", "chosen_on", "reason", "advice",
    "figures", "steps", "measured", "done", "hours", "repaired_on", "outcome", "followups", "learned",
)  # fmt: skip


def read(text: str, file: str) -> list[Case]:
    """Read the cases of a file.

    Args:
        text: the whole text of the file.
        file: how messages call the file.

    Returns:
        The cases in the order of the file. Texts in them are `strict_yaml.Text` and know their line.

    Raises:
        BrokenFile: the file cannot be taken as it is; says where, what and what to do.
    """
    reader = _CaseReader(file)
    top = reader.mapping(parse(text, file), "the file", ("cases",), ("cases",))
    cases: list[Case] = []
    seen: dict[str, str] = {}
    for node in reader.sequence(top["cases"], "cases"):
        case = reader.case(node)
        for what, value in (("number", case.number), ("uid", case.uid)):
            known = seen.setdefault(f"{what} {value.casefold()}", value)
            if value and known is not value:
                first = line_of(known)
                reader.refuse(value, f"{what} {value} stands here twice (first on line {first})")
        cases.append(case)
    return cases


class _CaseReader(FieldReader):
    def case(self, node: Any) -> Case:
        fields = self.mapping(node, "a case", _CASE)
        case = Case(
            number=self.text(fields, "number"),
            uid=self.text(fields, "uid"),
            title=self.text(fields, "title"),
            taken_in=self.day(fields, "taken_in"),
            finished=self.flag(fields, "finished"),
            instrument=self.instrument(fields.get("instrument")),
            owner=self.text(fields, "owner"),
            owner_words=self.text(fields, "owner_words"),
            answers=self.answers(fields),
            damages=_numbered(self.each(fields, "damages", self.damage)),
        )
        try:
            check(case)
        except BadCase as bad:
            raise BrokenFile(self.file, line_of(fields), str(bad)) from None
        return case

    def instrument(self, node: Any) -> Instrument:
        if node is None or is_null(node):
            return Instrument()
        keys = ("kind", "description", "materials", "marks", "uid")
        fields = self.mapping(node, "instrument", keys)
        return Instrument(*(self.text(fields, key) for key in keys))

    def damage(self, node: Any) -> Damage:
        fields = self.mapping(node, "a damage", _DAMAGE, ("family",))
        for short, long in (("answers", "looks"), ("outcome", "followups")):
            if short in fields and long in fields:
                self.refuse(fields[long], f"give either {short} or {long}, not both")
        looks = self.each(fields, "looks", self.look) or (Look(self.answers(fields)),)
        if "outcome" in fields and not is_null(fields["outcome"]):
            followups: tuple[FollowUp, ...] = (self.followup(fields["outcome"]),)
        else:
            followups = self.each(fields, "followups", self.followup)
        return Damage(
            family=self.text(fields, "family"),
            number=self.count(fields, "number"),
            place=self.text(fields, "place"),
            story=self.text(fields, "story"),
            looks=looks,
            choice=self.choice(fields),
            figures=self.each(fields, "figures", self.figures),
            steps=self.each(fields, "steps", self.step),
            measured=self.each(fields, "measured", self.measured),
            done=self.text(fields, "done"),
            hours=self.hours(fields),
            repaired_on=self.day(fields, "repaired_on"),
            followups=followups,
            learned=self.text(fields, "learned"),
        )

    def choice(self, node: Fields) -> Choice | None:
        if not self.text(node, "chosen"):
            for key in ("chosen_on", "reason", "advice"):
                if key in node and not is_null(node[key]):
                    self.refuse(node[key], f"{key} without chosen: say which strategy was chosen")
            return None
        reason, advice = self.text(node, "reason"), self.json(node, "advice")
        return Choice(self.text(node, "chosen"), self.day(node, "chosen_on"), reason, advice)

    def look(self, node: Any) -> Look:
        fields = self.mapping(node, "a look", ("taken", "ended_by", "note", "answers"))
        ended_by, note = self.text(fields, "ended_by"), self.text(fields, "note")
        return Look(self.answers(fields), self.day(fields, "taken"), ended_by, note)

    def figures(self, node: Any) -> FiguresUsed:
        fields = self.mapping(node, "figures", ("worksheet", "inputs", "result"), ("worksheet",))
        inputs = fields.get("inputs") or {}
        if not isinstance(inputs, dict):
            self.refuse(inputs, "inputs must be a mapping of names to values as typed")
        typed = {name: self.text(inputs, name) for name in inputs}
        return FiguresUsed(self.text(fields, "worksheet"), typed, self.json(fields, "result"))

    def step(self, node: Any) -> StepDone:
        if isinstance(node, Text):
            return StepDone(node)
        fields = self.mapping(node, "a step", ("text", "done_on", "by", "hours", "note"), ("text",))
        by, note = self.text(fields, "by"), self.text(fields, "note")
        return StepDone(self.text(fields, "text"), self.day(fields, "done_on"), by, self.hours(fields), note)

    def measured(self, node: Any) -> Measured:
        keys = ("what", "value", "note")
        fields = self.mapping(node, "measured", keys, ("what", "value"))
        return Measured(*(self.text(fields, key) for key in keys))

    def followup(self, node: Any) -> FollowUp:
        keys = ("looked", "held", "cause", "by_phone", "note")
        fields = self.mapping(node, "a follow-up", keys, ("held",))
        typed = self.text(fields, "held")
        held: Held | None = next((h for h in HELD if h == typed), None)
        if held is None:
            raise BrokenFile(self.file, line_of(typed), f"held: {typed!s}: write one of {', '.join(HELD)}")
        cause, note = self.text(fields, "cause"), self.text(fields, "note")
        return FollowUp(held, self.day(fields, "looked"), cause, self.flag(fields, "by_phone"), note)


def _numbered(damages: Iterable[Damage]) -> tuple[Damage, ...]:
    """Give every damage a number: the one written, else one more than the highest before it."""
    numbered: list[Damage] = []
    highest = 0
    for damage in damages:
        number = damage.number or highest + 1
        highest = max(highest, number)
        numbered.append(replace(damage, number=number))
    return tuple(numbered)
