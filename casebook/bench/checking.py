"""Checking rule packs: which ones, laid over which, and what their proof says."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from casebook.bench.library import Library, read_one
from casebook.guide.pack import CROSS_CUTTING
from casebook.guide.proof import Verdict, prove
from casebook.resources import yaml_files
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile


def lay_over(library: Library, paths: Sequence[Path]) -> list[str]:
    """Lay pack files (or folders of them) over the library's; gives the families to check.

    Without paths that is every family; with the cross-cutting pack among them too.

    Raises:
        BrokenFile: a file is no pack, or a folder holds none.
    """
    named: list[str] = []
    for path in paths:
        files = list(yaml_files(path)) if path.is_dir() else [path]
        if not files:
            raise BrokenFile(str(path), None, "holds no rule pack (*.yaml)")
        for file in files:
            shown = str(path / file.name) if path.is_dir() else str(path)
            pack = read_one(file, shown)
            library.packs[pack.id] = pack
            named.append(pack.id)
    if not named or CROSS_CUTTING in named:
        return [pack.id for pack in library.families]
    return named


def check_packs(library: Library, families: Sequence[str]) -> dict[str, list[Verdict]]:
    """Prove the guides of these families.

    Raises:
        BrokenFile: a pack does not hold together, shares an id with another family's pack, or leads to a
            family that has none.
    """
    _ids_apart(library)
    _leads_somewhere(library)
    return {family: prove(library.guide(family)) for family in families}


def _ids_apart(library: Library) -> None:
    """Refuse an id that two packs use for different things: a reader of records would be misled.

    A question or strategy may stand in several families (whether the rod is bent, taking solder off the
    wood) if it means the same in all: the same answers, the same title.
    """
    seen: dict[str, tuple[str, object]] = {}
    for pack in library.packs.values():
        for kind in ("questions", "findings", "strategies", "cautions", "stops"):
            for id, body in getattr(pack, kind).items():
                means = _meaning(kind, body)
                owner, meant = seen.setdefault(id, (pack.id, means))
                if owner != pack.id and meant != means:
                    problem = f"{id} means something else in pack {owner}: rename it"
                    raise BrokenFile(pack.file, body.at.line, problem)


def _leads_somewhere(library: Library) -> None:
    """Refuse a strategy that leads to a family without a pack, or to its own."""
    known = [pack.id for pack in library.families]
    for pack in library.packs.values():
        for strategy in pack.strategies.values():
            there = strategy.leads_to
            if there == pack.id or (there and there not in known):
                hint = nearest(there, [family for family in known if family != pack.id])
                problem = f"{strategy.id}: leads_to {there}: no other family of that name{hint}"
                raise BrokenFile(pack.file, strategy.at.line, problem)


def _meaning(kind: str, body: Any) -> object:
    """Give what must be alike where an id stands in two packs; nothing ever is for the other kinds."""
    if kind == "questions":
        return body.kind, body.answers
    return body.title if kind == "strategies" else object()
