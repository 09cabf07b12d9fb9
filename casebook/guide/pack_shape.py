"""The shape of a rule pack: which keys it may hold, checked at reading and described to editors."""

from __future__ import annotations

from typing import Any

from casebook.guide.pack import (
    EFFORTS,
    ENDS_LOOK,
    LEVELS,
    RANKED_BY,
    SCALES,
    STAGES,
    TOOLS,
    WAITS_FOR,
    Clause,
    Place,
    Source,
)
from casebook.shape import Anything, Flag, Line, ListOf, MapOf, Name, Number, OneOf, Record, Shape
from casebook.strict_yaml import BrokenFile, Mapping, Text, line_of

_CONDITION = Anything("a condition: question or finding -> answer(s); all, any, not, not_known")


class _ClauseShape:
    """A condition, alone or as `when` with a `because`."""

    _full = Record({"when": _CONDITION}, {"because": Line()})

    def read(self, node: Any, file: str, what: str) -> Clause:
        at = Place(file, line_of(node))
        if isinstance(node, Mapping) and "when" in node:
            got = self._full.read(node, file, what)
            return Clause(at, got["when"], got.get("because"))
        return Clause(at, node)

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [_CONDITION.schema(), self._full.schema()]}


class _SourceShape:
    """Where a worksheet input comes from: a question's id, or a record saying more."""

    _full = Record({}, {"question": Name(), "finding": Name(), "words": MapOf(Name()), "optional": Flag()})

    def read(self, node: Any, file: str, what: str) -> Source:
        if isinstance(node, Text):
            return Source(str(Name().read(node, file, what)))
        got = self._full.read(node, file, what)
        if ("question" in got) == ("finding" in got):
            raise BrokenFile(file, line_of(node), f"{what}: either question or finding is wanted here")
        words = {str(key): str(value) for key, value in got.get("words", {}).items()}
        if "finding" in got:
            return Source(str(got["finding"]), figure=True, optional=got.get("optional", False))
        return Source(str(got["question"]), words=words, optional=got.get("optional", False))

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [Name().schema(), self._full.schema()]}


_CLAUSES = ListOf(_ClauseShape())
_WORDS = ListOf(Name())
_CONTRADICTION: dict[str, Shape] = {"when": _CONDITION, "questions": _WORDS, "because": Line()}

SHAPE = Record(
    {"pack": Name(), "version": Line(), "title": Line(), "scope": Line()},
    {
        "questions": MapOf(
            Record(
                {
                    "name": Line(),
                    "ask": Line(),
                    "look": Line(),
                    "kind": OneOf("choice", "several", "yes_no", "length", "count"),
                    "stage": OneOf(*STAGES),
                },
                {
                    "answers": MapOf(Line()),
                    "apart": ListOf(_WORDS),
                    "alone": _WORDS,
                    "asked_when": _CONDITION,
                    "effort": OneOf(*EFFORTS),
                    "tool": OneOf(*TOOLS),
                    "of": OneOf("size", "thread_diameter", "thread_pitch"),
                    "least": Line(),
                    "most": Line(),
                    "for_the_record": Flag(),
                    "was": _WORDS,
                    "answers_were": MapOf(Name()),
                },
            )
        ),
        "findings": MapOf(
            Record(
                {
                    "name": Line(),
                    "yes": Line(),
                    "no": Line(),
                    "worksheet": Name(),
                    "check": _WORDS,
                    "inputs": MapOf(_SourceShape()),
                },
                {"turned": Flag(), "figure": Name(), "settings": MapOf(Line())},
            )
        ),
        "terms": MapOf(_ClauseShape()),
        "never_together": _CLAUSES,
        "contradictions": MapOf(Record(_CONTRADICTION)),
        "doubts": MapOf(Record(_CONTRADICTION, {"lifted_by": _WORDS})),
        "strategies": MapOf(
            Record(
                {
                    "title": Line(),
                    "what": Line(),
                    "keeps_original": Line(),
                    "hours": Record({"low": Number(), "likely": Number(), "high": Number()}),
                    "steps": ListOf(Line()),
                    **{scale: OneOf(*places) for scale, places in SCALES.items()},
                },
                {
                    "fits_when": _CLAUSES,
                    "not_when": _CLAUSES,
                    "tools": ListOf(Line()),
                    "materials": ListOf(Line()),
                    "worksheets": _WORDS,
                    "involves": _WORDS,
                    "on_call": Flag(),
                    "ends_look": OneOf(*ENDS_LOOK),
                    "instead_of": Name(),
                    "only_in": _WORDS,
                    "leads_to": Name(),
                    "waits": ListOf(
                        Record({"what": OneOf(*WAITS_FOR), "least": Line()}, {"most": Line(), "of": Line()})
                    ),
                },
            )
        ),
        "cautions": MapOf(
            Record(
                {"level": OneOf(*LEVELS), "text": Line()},
                {"when": _CONDITION, "involves": _WORDS, "shop_rule": Flag()},
            )
        ),
        "stops": MapOf(Record({"says": Line(), "do": Line()}, {"when": _CONDITION, "by_hand": Flag()})),
        "stops_when": MapOf(_ClauseShape()),
        "ranking": ListOf(
            Record({"scales": ListOf(OneOf(*RANKED_BY)), "because": Line()}, {"when": _CONDITION})
        ),
        "order_of_work": ListOf(
            Record({"because": Line()}, {"family": Name(), "ends_look": OneOf(*ENDS_LOOK)})
        ),
        "mind_together": ListOf(
            Record({"one": _WORDS, "other": _WORDS, "says": Line()}, {"same_joint": Flag()})
        ),
        "record": MapOf(ListOf(Line())),
    },
)


def json_schema() -> dict[str, Any]:
    """Describe a rule pack as JSON Schema, for editors that check while one types."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "rule pack", **SHAPE.schema()}
