"""The guides of the shipped rule packs, built once, and the panels of cases that go with them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from casebook.guide.build import build
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge, read_answers
from casebook.guide.pack import CROSS_CUTTING, Pack
from casebook.guide.pack_file import read_pack
from casebook.resources import folder, yaml_files
from casebook.strict_yaml import parse


@cache
def packs() -> dict[str, Pack]:
    """Every shipped pack by its id."""
    read = (read_pack(file.read_text(encoding="utf-8"), file.name) for file in yaml_files(folder("rules")))
    return {pack.id: pack for pack in read}


def families() -> list[str]:
    """The families with a pack."""
    return [id for id in packs() if id != CROSS_CUTTING]


@cache
def guide_of(family: str) -> Guide:
    """The guide of a family."""
    return build(packs()[CROSS_CUTTING], packs()[family])


@dataclass(frozen=True)
class Case:
    """One case of a panel: the answers, and what a master would say to them."""

    family: str
    name: str
    answers: Any
    expected: dict[str, Any]

    def knowledge(self) -> Knowledge:
        """The answers as the family's guide reads them."""
        return read_answers(guide_of(self.family), self.answers, self.family)[0]


@cache
def panel() -> tuple[Case, ...]:
    """Every case of every panel, those of families without a pack included."""
    cases: list[Case] = []
    for file in sorted(Path(__file__).parent.glob("panel_*.yaml")):
        node: Any = parse(file.read_text(encoding="utf-8"), file.name)
        for case in node["cases"]:
            expected = {str(key): value for key, value in case.items() if key not in ("name", "answers")}
            cases.append(Case(str(node["family"]), str(case["name"]), case["answers"], expected))
    return tuple(cases)
