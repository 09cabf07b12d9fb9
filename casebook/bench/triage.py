"""Triage: answers in, proposals out, for one damage or for several on one instrument."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from casebook.bench.library import Library
from casebook.guide.advice import Advice, advise
from casebook.guide.knowledge import read_answers
from casebook.strict_yaml import BrokenFile, Text, line_of, parse
from casebook.strict_yaml import Mapping as YamlMapping
from casebook.strict_yaml import Sequence as YamlSequence


@dataclass(frozen=True, slots=True)
class Bench:
    """The damages of one instrument with what is advised on each.

    Attributes:
        advices: one for each damage, in the order of the file.
        places: where each is, as the file says.
        several: whether the file lists damages, even if only one.
    """

    advices: tuple[Advice, ...]
    places: tuple[str, ...]
    several: bool


def triage(library: Library, text: str, file: str) -> Bench:
    """Read an answers file and advise on every damage in it.

    Raises:
        BrokenFile: not such a file, an unknown family, question or answer, or a senseless size.
    """
    node = parse(text, file)
    if not isinstance(node, YamlMapping):
        raise BrokenFile(
            file, line_of(node), "family: and answers: are wanted (or damages: with a list of them)"
        )
    if "damages" in node:
        _only(node, ("damages", "answers", "title", "instrument"), file)
        damages = node["damages"]
        if not isinstance(damages, YamlSequence) or not damages:
            raise BrokenFile(
                file, line_of(damages, node.line), "damages: a list with at least one damage is wanted"
            )
        parts = [_damage(library, damage, node.get("answers"), file) for damage in damages]
        return Bench(tuple(a for a, _ in parts), tuple(p for _, p in parts), several=True)
    advice, place = _damage(library, node, None, file)
    return Bench((advice,), (place,), several=False)


def _only(node: YamlMapping, known: tuple[str, ...], file: str) -> None:
    for key in node:
        if key not in known:
            raise BrokenFile(file, line_of(key), f"unknown key {str(key)!r} (known: {', '.join(known)})")


def _damage(library: Library, node: Any, shared: Any, file: str) -> tuple[Advice, str]:
    if not isinstance(node, YamlMapping):
        raise BrokenFile(file, line_of(node), "a damage wants family: and answers:")
    _only(node, ("family", "answers", "place", "story"), file)
    family = node.get("family")
    if not isinstance(family, Text) or family.is_null:
        raise BrokenFile(file, line_of(node), "family: is missing (posts, for example)")
    try:
        guide = library.guide(str(family))
    except KeyError as error:
        raise BrokenFile(file, family.line, str(error.args[0])) from None
    knowledge, _ = read_answers(guide, merged(shared, node.get("answers"), file), file)
    return advise(guide, knowledge), str(node.get("place", ""))


def merged(shared: Any, own: Any, file: str) -> Mapping[Any, Any] | None:
    """Lay a damage's answers over those for the whole instrument; an answer given again must be the same."""
    both = YamlMapping()
    both.line = line_of(own, line_of(shared, 0)) or 0
    for node in (shared, own):
        if node is None or (isinstance(node, Text) and node.is_null):
            continue
        if not isinstance(node, dict):
            raise BrokenFile(file, line_of(node), "answers: a mapping of question ids to answers is wanted")
        for key, value in node.items():
            if key in both and both[key] != value:
                raise BrokenFile(file, line_of(key), f"{key} is answered twice, and not alike")
            both[key] = value
    return both


__all__ = ["Bench", "merged", "triage"]
