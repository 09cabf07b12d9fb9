"""Dates that cannot be: repaired before it came in, looked at before it was repaired, and the like."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from casebook.records.case import Case
from casebook.safe_text import one_line

# Where a date stands in a case file: keys and places in lists, from the case down.
Path = tuple[str | int, ...]


def impossible(case: Case) -> Iterator[tuple[Path, str]]:
    """Find every date of a case that comes before one it must follow: where it stands, and what is wrong."""
    for earlier, before, path, later in _pairs(case):
        if before is not None and later is not None and later < before:
            what = one_line(str(path[-1])).replace("_", " ")
            where = f"damage {case.damages[path[1]].number}: " if path[0] == "damages" else ""  # type: ignore[index]
            yield path, f"{where}{what} {later} is before {earlier} {before}: mend one of the two dates"


def _pairs(case: Case) -> Iterator[tuple[str, date | None, Path, date | None]]:
    """Give dates in pairs: name and day of the earlier, place and day of what must not come before it."""
    visit, came = case.visit, ("it was taken in on", case.taken_in)
    for key in ("needed_by", "ready_on", "told_on", "collected_on"):
        yield *came, (key,), getattr(visit, key)
    yield "it was ready on", visit.ready_on, ("collected_on",), visit.collected_on
    yield "it was lent on", visit.loaned_since, ("loaned_until",), visit.loaned_until
    for at, wait in enumerate(case.waits):
        for key in ("until", "ended"):
            yield "the wait began on", wait.since, ("waits", at, key), getattr(wait, key)
    for at, damage in enumerate(case.damages):
        here: Path = ("damages", at)
        yield *came, (*here, "repaired_on"), damage.repaired_on
        for place, step in enumerate(damage.steps):
            yield *came, (*here, "steps", place, "done_on"), step.done_on
        for place, followup in enumerate(damage.followups):
            path = (*here, "followups", place)
            yield "it was repaired on", damage.repaired_on, (*path, "looked"), followup.looked
            yield "it was repaired on", damage.repaired_on, (*path, "since"), followup.since
            yield "it started on", followup.since, (*path, "looked"), followup.looked


def node_at(node: Any, path: Path) -> Any:
    """Give the node of a case file at a place, or the nearest one above it that is there."""
    for step in path:
        if step == "followups" and "outcome" in node:
            return node["outcome"]
        try:
            node = node[step]
        except (KeyError, IndexError, TypeError):
            return node
    return node
