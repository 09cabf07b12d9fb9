"""Two people on one case: what only one of them changed is kept; what both changed, one of them decides."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field, fields, is_dataclass, replace
from typing import Any, Literal

from casebook.bench.at_desk import AtDesk
from casebook.records.case import Case, Damage, Instrument
from casebook.records.errors import ChangedElsewhere
from casebook.records.workshop import Visit

Side = Literal["theirs", "mine"]

_NOT_THERE = object()
# What people write part by part; anything else (an answer, a decision, a list) is theirs or mine as a whole.
_WRITTEN_BY_PARTS = (Case, Damage, Instrument, Visit)
_INTAKE = "intake"
# What a part of a case is called where its name in the record is no word of the bench.
_WORDS = {"answers": _INTAKE, "title": "in one line", "owner_words": "owner's words"}


@dataclass(frozen=True, slots=True)
class Differs:
    """One thing that two people wrote differently: where, and each one's words (empty: nothing)."""

    where: str
    theirs: str
    mine: str


class BothChanged(ChangedElsewhere):
    """Somebody else changed the same thing in between, and otherwise; nothing was written.

    Attributes:
        base: the case as it was when I began.
        theirs: the case as it stands now.
        mine: the case as I would have it.
        differs: what both changed.
    """

    def __init__(self, base: Case, theirs: Case, mine: Case, differs: Sequence[Differs]) -> None:
        super().__init__(theirs.number)
        where = ", ".join(one.where for one in differs)
        self.args = (f"case {theirs.number}: somebody else changed this too: {where}; choose whose is kept",)
        self.base, self.theirs, self.mine, self.differs = base, theirs, mine, tuple(differs)


class Settling(AtDesk):
    """Changing a whole case while others work on it."""

    def amend(self, base: Case, mine: Case) -> Case:
        """Put what I changed since I read `base` onto the case as it stands now.

        Raises:
            BothChanged: somebody changed one of these things too, and otherwise.
            NotPossible: dates that cannot be.
        """
        if mine == base:
            return base

        def change(theirs: Case) -> Case:
            put = _Put("mine")
            changed: Case = put.onto(theirs, base, mine)
            if put.differs:
                raise BothChanged(base, theirs, mine, put.differs)
            self._refuse_impossible(changed)
            return changed

        return self.book.change(base.number, change)

    def settle(self, clash: BothChanged, keep: Side) -> Case:
        """Keep one side of what both changed; what only one changed is kept anyway.

        Raises:
            BothChanged: it was changed once more since `clash` was shown.
        """
        settled: Case = _Put(keep).onto(clash.theirs, clash.base, clash.mine)
        return self.amend(clash.theirs, settled)


@dataclass(slots=True)
class _Put:
    """Puts what I changed onto what stands there, part by part, and notes what both changed."""

    keep: Side
    differs: list[Differs] = field(default_factory=list)

    def onto(self, theirs: Any, base: Any, mine: Any, where: str = "") -> Any:
        """Give theirs with my changes; where both changed the same, the side that is kept."""
        if mine in (base, theirs):
            return theirs
        if theirs == base:
            return mine
        if isinstance(theirs, _WRITTEN_BY_PARTS) and type(theirs) is type(base) is type(mine):
            return replace(theirs, **self._each(_parts(theirs), _parts(base), _parts(mine), where))
        if where == _INTAKE:
            return self._each(theirs, base, mine, where)
        if where == "damages":
            return tuple(self._each(_by_number(theirs), _by_number(base), _by_number(mine), "").values())
        self.differs.append(Differs(where, _said(theirs), _said(mine)))
        return mine if self.keep == "mine" else theirs

    def _each(
        self, theirs: Mapping[str, Any], base: Mapping[str, Any], mine: Mapping[str, Any], where: str
    ) -> dict[str, Any]:
        put = {}
        for key in dict.fromkeys([*theirs, *mine]):
            part = ", ".join(filter(None, (where, _WORDS.get(key, key.replace("_", " ")))))
            put[key] = self.onto(
                theirs.get(key, _NOT_THERE), base.get(key, _NOT_THERE), mine.get(key, _NOT_THERE), part
            )
        return {key: value for key, value in put.items() if value is not _NOT_THERE}


def _parts(value: Any) -> dict[str, Any]:
    return {one.name: getattr(value, one.name) for one in fields(value)}


def _by_number(damages: Sequence[Damage]) -> dict[str, Damage]:
    return {f"damage {one.number}": one for one in damages}


def _said(value: Any) -> str:
    """Word one side; a whole part that the other has not is told by what stands in it."""
    if is_dataclass(value) and not isinstance(value, type):
        value = asdict(value)
    if isinstance(value, Mapping):
        told = {key: _said(inner) for key, inner in value.items()}
        return ", ".join(f"{key.replace('_', ' ')} {text}" for key, text in told.items() if text)
    if isinstance(value, list | tuple):
        return "; ".join(filter(None, map(_said, value)))
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:g}"
    return "" if value is None or value is _NOT_THERE else str(value)
