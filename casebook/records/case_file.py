"""Case files: cases as YAML, read with a line for every complaint and written so that they read back equal.

Question and answer ids are not judged here; each text keeps the line it stands on, so that whoever knows
the rule packs can name it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields as fields_of
from dataclasses import replace
from typing import Any

from casebook.records import case_keys as keys
from casebook.records.case import (
    HELD,
    Case,
    Choice,
    Damage,
    FiguresUsed,
    FollowUp,
    Instrument,
    Look,
    Measured,
    StepDone,
)
from casebook.records.case_yaml import write
from casebook.records.check import BadCase, check
from casebook.records.fields import FieldReader, Fields, is_null
from casebook.records.flat import key_of
from casebook.records.workshop import (
    OUTCOMES,
    BeforeAfter,
    Confirmed,
    Consent,
    Departure,
    Visit,
    Wait,
    WoodReading,
)
from casebook.strict_yaml import BrokenFile, Mapping, Text, line_of, parse

__all__ = ["read", "write"]


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
        fields = self.mapping(node, "a case", keys.CASE)
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
            visit=self.visit(fields),
            waits=self.list_of(fields, "waits", Wait, "a wait", keys.WAIT),
            wood_readings=self.list_of(
                fields, "wood_readings", WoodReading, "a reading of wood", keys.WOOD_READING
            ),
            confirmed=self.list_of(fields, "confirmed", Confirmed, "a danger confirmed", keys.CONFIRMED),
        )
        try:
            check(case)
        except BadCase as bad:
            raise BrokenFile(self.file, line_of(fields), str(bad)) from None
        return case

    def list_of(
        self, node: Fields, key: str, kind: type[Any], what: str, known: Iterable[str]
    ) -> tuple[Any, ...]:
        return self.each(node, key, lambda entry: self.flat(kind, entry, what, known))

    def visit(self, node: Fields) -> Visit:
        """Take what stands beside the damages, out of the case's own mapping."""
        part = _part(node, {key: node[key] for key in map(key_of, fields_of(Visit)) if key in node})
        visit: Visit = self.flat(Visit, part, "a case", part)
        return visit

    def instrument(self, node: Any) -> Instrument:
        if node is None or is_null(node):
            return Instrument()
        fields = self.mapping(node, "instrument", keys.INSTRUMENT)
        return Instrument(*(self.text(fields, key) for key in keys.INSTRUMENT))

    def damage(self, node: Any) -> Damage:
        fields = self.mapping(node, "a damage", keys.DAMAGE, ("family",))
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
            urgency=self.text(fields, "urgency"),
            consents=self.list_of(fields, "consents", Consent, "a consent", keys.CONSENT),
            departures=self.list_of(fields, "departures", Departure, "a departure", keys.DEPARTURE),
            before_after=self.list_of(
                fields, "before_after", BeforeAfter, "a reading before and after", keys.BEFORE_AFTER
            ),
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
        fields = self.mapping(node, "a look", keys.LOOK)
        ended_by, note = self.text(fields, "ended_by"), self.text(fields, "note")
        return Look(self.answers(fields), self.day(fields, "taken"), ended_by, note)

    def figures(self, node: Any) -> FiguresUsed:
        fields = self.mapping(node, "figures", keys.FIGURES, ("worksheet",))
        inputs = fields.get("inputs") or {}
        if not isinstance(inputs, dict):
            self.refuse(inputs, "inputs must be a mapping of names to values as typed")
        typed = {name: self.text(inputs, name) for name in inputs}
        return FiguresUsed(self.text(fields, "worksheet"), typed, self.json(fields, "result"))

    def step(self, node: Any) -> StepDone:
        if isinstance(node, Text):
            return StepDone(node)
        step: StepDone = self.flat(StepDone, node, "a step", keys.STEP)
        return step

    def measured(self, node: Any) -> Measured:
        made: Measured = self.flat(Measured, node, "measured", keys.MEASURED)
        return made

    def followup(self, node: Any) -> FollowUp:
        """Take a follow-up; `held` may be left out where the kind says it."""
        fields = self.mapping(node, "a follow-up", keys.FOLLOW_UP)
        held, kind = self.text(fields, "held"), self.text(fields, "kind")
        if held and held not in HELD:
            self.refuse(held, f"held: {held!s}: write one of {', '.join(HELD)}")
        if not held and not kind:
            self.refuse(fields, "a follow-up needs the key held (or kind)")
        if not held and kind in OUTCOMES:
            held = Text(OUTCOMES[kind], line_of(kind) or 0)
        fields = _part(fields, {**fields, "held": held or Text("yes", 0)})
        followup: FollowUp = self.flat(FollowUp, fields, "a follow-up", keys.FOLLOW_UP)
        return followup


def _part(node: Fields, values: Fields) -> Mapping:
    """Make a mapping that stands where `node` stands in the file."""
    part = Mapping(values)
    part.line = line_of(node) or 0
    return part


def _numbered(damages: Iterable[Damage]) -> tuple[Damage, ...]:
    """Give every damage a number: the one written, else one more than the highest before it."""
    numbered: list[Damage] = []
    highest = 0
    for damage in damages:
        number = damage.number or highest + 1
        highest = max(highest, number)
        numbered.append(replace(damage, number=number))
    return tuple(numbered)
