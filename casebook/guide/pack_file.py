"""Reading one rule pack from its YAML.

Conditions stay as nodes here; they are compiled when packs come together in a `Guide`, which knows every
id they may name.
"""

from __future__ import annotations

from hashlib import sha256
from typing import Any

from casebook.guide.pack import (
    SCALES,
    Caution,
    Disagreement,
    Finding,
    MindRule,
    Pack,
    Place,
    Profile,
    Question,
    Stop,
    Strategy,
    Wait,
    WorkRule,
)  # fmt: skip
from casebook.guide.pack_shape import SHAPE
from casebook.quantity import NotUnderstood, Reading, read_count, read_length, read_time_span
from casebook.strict_yaml import BrokenFile, Text, line_of, parse

# Ten times the longest shipped pack: what is longer would take its time only to be refused in the end.
_MAX_CHARACTERS = 1_000_000


def read_pack(text: str, file: str) -> Pack:
    """Read one rule pack.

    Args:
        text: the YAML.
        file: how messages call the file.

    Raises:
        BrokenFile: not YAML, or not the shape of a pack.
    """
    if len(text) > _MAX_CHARACTERS:
        raise BrokenFile(file, None, f"longer than {_MAX_CHARACTERS:,} characters: a rule pack is wanted")
    node = parse(text, file)
    if node is None:
        raise BrokenFile(file, None, "is empty: a rule pack is wanted")
    got = SHAPE.read(node, file, "pack")
    return Pack(
        id=str(got["pack"]),
        version=str(got["version"]),
        title=str(got["title"]),
        scope=str(got["scope"]),
        file=file,
        text=text,
        digest=sha256(text.encode()).hexdigest(),
        questions={str(id): _question(id, body, file) for id, body in got.get("questions", {}).items()},
        findings={str(id): _finding(id, body, file) for id, body in got.get("findings", {}).items()},
        terms={str(id): clause for id, clause in got.get("terms", {}).items()},
        never_together=tuple(got.get("never_together", ())),
        contradictions=_disagreements(got.get("contradictions", {}), file),
        doubts=_disagreements(got.get("doubts", {}), file),
        strategies={str(id): _strategy(id, body, file) for id, body in got.get("strategies", {}).items()},
        cautions={str(id): _caution(id, body, file) for id, body in got.get("cautions", {}).items()},
        stops={str(id): _stop(id, body, file) for id, body in got.get("stops", {}).items()},
        stops_when={str(id): clause for id, clause in got.get("stops_when", {}).items()},
        ranking=tuple(_profile(body, file) for body in got.get("ranking", ())),
        order_of_work=tuple(_work_rule(body, file) for body in got.get("order_of_work", ())),
        mind_together=tuple(_mind_rule(body) for body in got.get("mind_together", ())),
        record={str(id): _texts(lines) for id, lines in got.get("record", {}).items()},
    )  # fmt: skip


def _profile(body: dict[str, Any], file: str) -> Profile:
    at = Place(file, line_of(body["because"]))
    return Profile(at, body.get("when"), tuple(body["scales"]), str(body["because"]))


def _work_rule(body: dict[str, Any], file: str) -> WorkRule:
    if ("family" in body) == ("ends_look" in body):
        line = line_of(body["because"])
        raise BrokenFile(file, line, "order_of_work: either family or ends_look is wanted here")
    family = str(body["family"]) if "family" in body else None
    return WorkRule(family, str(body["because"]), body.get("ends_look"))


def _mind_rule(body: dict[str, Any]) -> MindRule:
    one, other = (frozenset(_texts(body[side])) for side in ("one", "other"))
    return MindRule(one, other, str(body["says"]), body.get("same_joint", False))


def _texts(lines: list[Text]) -> tuple[str, ...]:
    return tuple(str(line) for line in lines)


def _question(id: Text, body: dict[str, Any], file: str) -> Question:
    kind = body["kind"]
    answers = {str(key): str(label) for key, label in body.get("answers", {}).items()}
    if kind == "yes_no":
        answers = answers or {"yes": "yes", "no": "no"}
        if list(answers) != ["yes", "no"]:
            raise BrokenFile(file, id.line, f"{id}: a yes_no question is answered yes and no")
    elif kind in ("choice", "several") and len(answers) < 2:
        raise BrokenFile(file, id.line, f"{id}: at least two answers are wanted")
    elif kind in ("length", "count") and answers:
        raise BrokenFile(file, id.line, f"{id}: a measured question has no answers to choose from")
    apart = tuple(frozenset(_texts(group)) for group in _groups(body.get("apart")))
    alone = frozenset(_texts(body.get("alone", [])))
    for word in frozenset().union(alone, *apart):
        if kind != "several" or word not in answers:
            raise BrokenFile(file, id.line, f"{id}: apart or alone names {word}, no answer of several here")
    return Question(
        id=str(id),
        at=Place(file, id.line),
        name=str(body["name"]),
        ask=str(body["ask"]),
        look=str(body["look"]),
        kind=kind,
        answers=answers,
        stage=body["stage"],
        effort=body.get("effort", "measure" if kind == "length" else "look"),
        tool=body.get("tool", "caliper" if kind == "length" else "eye"),
        apart=apart,
        alone=alone,
        asked_when=body.get("asked_when"),
        of=body.get("of", "size"),
        low=_size(body.get("least"), kind, file, str(id)),
        high=_size(body.get("most"), kind, file, str(id)),
        for_the_record=body.get("for_the_record", False),
        was=_texts(body.get("was", [])),
        answers_were={str(key): str(value) for key, value in body.get("answers_were", {}).items()},
    )


def _groups(groups: list[Any] | None) -> list[list[Text]]:
    """Read `apart`: a list of lists, or one list that is the only group."""
    groups = groups or []
    if groups and all(len(group) == 1 for group in groups):
        return [[group[0] for group in groups]]
    return groups


def _size(typed: Text | None, kind: str, file: str, id: str) -> Reading | None:
    if typed is None:
        return None
    try:
        return read_length(typed) if kind == "length" else read_count(typed)
    except NotUnderstood as error:
        raise BrokenFile(file, typed.line, f"{id}: {error}") from None


def _finding(id: Text, body: dict[str, Any], file: str) -> Finding:
    figure = body.get("figure")
    return Finding(
        id=str(id),
        at=Place(file, id.line),
        name=str(body["name"]),
        says_yes=str(body["yes"]),
        says_no=str(body["no"]),
        worksheet=str(body["worksheet"]),
        checks=_texts(body["check"]),
        turned=body.get("turned", False),
        figure=None if figure is None else str(figure),
        inputs={str(name): source for name, source in body["inputs"].items()},
        settings={str(name): str(typed) for name, typed in body.get("settings", {}).items()},
    )


def _strategy(id: Text, body: dict[str, Any], file: str) -> Strategy:
    low, likely, high = (body["hours"][part] for part in ("low", "likely", "high"))
    if not low <= likely <= high:
        raise BrokenFile(file, id.line, f"{id}: hours want low <= likely <= high")
    strategy = Strategy(
        id=str(id),
        at=Place(file, id.line),
        title=str(body["title"]),
        what=str(body["what"]),
        keeps_original=str(body["keeps_original"]),
        scales={scale: body[scale] for scale in SCALES},
        hours=(low, likely, high),
        fits_when=tuple(body.get("fits_when", ())),
        not_when=tuple(body.get("not_when", ())),
        steps=_texts(body["steps"]),
        tools=_texts(body.get("tools", [])),
        materials=_texts(body.get("materials", [])),
        worksheets=_texts(body.get("worksheets", [])),
        involves=frozenset(_texts(body.get("involves", []))),
        on_call=body.get("on_call", False),
        ends_look=body.get("ends_look"),
        only_in=frozenset(_texts(body.get("only_in", []))),
        instead_of=None if "instead_of" not in body else str(body["instead_of"]),
        leads_to=None if "leads_to" not in body else str(body["leads_to"]),
        waits=tuple(_wait(wait, file, str(id)) for wait in body.get("waits", ())),
    )
    if strategy.leads_to and strategy.removes_material:
        problem = f"{id}: what only leads_to another family removes nothing: original all, reversible yes"
        raise BrokenFile(file, id.line, problem)
    return strategy


def _wait(body: dict[str, Any], file: str, id: str) -> Wait:
    least_typed = body["least"]
    try:
        least = read_time_span(least_typed)
        most = read_time_span(body["most"]) if "most" in body else least
    except NotUnderstood as error:
        raise BrokenFile(file, least_typed.line, f"{id}: waits: {error}") from None
    if most < least:
        raise BrokenFile(file, least_typed.line, f"{id}: waits: most is shorter than least")
    return Wait(body["what"], str(body.get("of", "")), least, most)


def _caution(id: Text, body: dict[str, Any], file: str) -> Caution:
    involves = frozenset(_texts(body.get("involves", [])))
    if body.get("when") is None and not involves:
        raise BrokenFile(file, id.line, f"{id}: a caution wants when, or what a strategy involves, or both")
    return Caution(
        id=str(id),
        at=Place(file, id.line),
        level=body["level"],
        text=str(body["text"]),
        when=body.get("when"),
        involves=involves,
        shop_rule=body.get("shop_rule", False),
    )


def _stop(id: Text, body: dict[str, Any], file: str) -> Stop:
    when = body.get("when")
    if (when is None) != body.get("by_hand", False):
        raise BrokenFile(file, id.line, f"{id}: a stop wants either when, or by_hand: yes")
    return Stop(str(id), Place(file, id.line), str(body["says"]), str(body["do"]), when)


def _disagreements(bodies: dict[Text, Any], file: str) -> dict[str, Disagreement]:
    return {
        str(id): Disagreement(
            id=str(id),
            at=Place(file, id.line),
            when=body["when"],
            questions=_texts(body["questions"]),
            because=str(body["because"]),
            lifted_by=_texts(body.get("lifted_by", [])),
        )
        for id, body in bodies.items()
    }
