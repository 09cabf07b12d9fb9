"""Two people on one case: what differs between theirs and mine, and a clear choice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from casebook.bench.at_desk import AtDesk
from casebook.bench.case_text import case_data
from casebook.records.case import Case

_NOT_COMPARED = ("version", "uid", "number")


@dataclass(frozen=True, slots=True)
class Differs:
    """One thing that two people wrote differently: where, and each one's words (empty: nothing)."""

    where: str
    theirs: str
    mine: str


class Settling(AtDesk):
    """Acts when somebody else changed the case in between."""

    def both_sides(self, mine: Case) -> list[Differs]:
        """List what differs between the case as it now stands in the book and `mine`.

        Raises:
            NoSuchCase: it is not in the book any more.
        """
        return list(_differences(case_data(self.book.case(mine.number)), case_data(mine), ""))

    def keep_mine(self, mine: Case) -> Case:
        """Replace what somebody else wrote by `mine`, knowingly; leaving it keeps theirs.

        Raises:
            ChangedElsewhere: it was changed once more meanwhile.
        """
        theirs = self.book.case(mine.number)
        return self.book.update(replace(mine, version=theirs.version))


def _differences(theirs: Any, mine: Any, where: str) -> Iterator[Differs]:
    if isinstance(theirs, dict) and isinstance(mine, dict):
        for key in dict.fromkeys([*theirs, *mine]):
            if key not in _NOT_COMPARED:
                path = f"{where}, {_words(key)}" if where else _words(key)
                yield from _differences(theirs.get(key), mine.get(key), path)
    elif isinstance(theirs, list) and isinstance(mine, list):
        for at in range(max(len(theirs), len(mine))):
            one, other = (side[at] if at < len(side) else None for side in (theirs, mine))
            yield from _differences(one, other, f"{where} {at + 1}")
    elif theirs != mine:
        yield Differs(where, _said(theirs), _said(mine))


def _words(key: str) -> str:
    return key.replace("_", " ")


def _said(value: Any) -> str:
    """Word one side; a whole part that the other has not is told by what stands in it."""
    if isinstance(value, dict):
        told = {key: inner for key, inner in value.items() if inner not in ("", None, [], {})}
        return ", ".join(f"{_words(key)} {_said(inner)}" for key, inner in told.items())
    if isinstance(value, list):
        return "; ".join(_said(inner) for inner in value)
    return "" if value is None else str(value)
