"""How far a damage and its case have come, and what they wait for, in bench words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Literal

from casebook.bench.library import Library
from casebook.guide.pack import Strategy
from casebook.records.case import Case, Damage
from casebook.strict_yaml import BrokenFile

if TYPE_CHECKING:
    from casebook.bench.desk import Desk

Stage = Literal["taken in", "looked at", "decided", "done", "looked after"]
STAGES: tuple[Stage, ...] = ("taken in", "looked at", "decided", "done", "looked after")


def stage_of(library: Library, damage: Damage) -> Stage:
    """Give the stage a damage has reached; a look begun after the decision puts it back to looking."""
    if damage.followups:
        return "looked after"
    if damage.done or damage.repaired_on:
        return "done"
    if damage.choice and not looks_again(library, damage):
        return "decided"
    return "looked at" if len(damage.looks) > 1 or damage.looks[-1].answers else "taken in"


def ends_look(library: Library, damage: Damage) -> bool:
    """Whether the chosen strategy changes the instrument so that one looks again after it."""
    strategy = _chosen(library, damage)
    return strategy is not None and strategy.ends_look is not None


def act_of(library: Library, damage: Damage) -> str:
    """Name the chosen strategy as the act that ends a look."""
    strategy = _chosen(library, damage)
    return strategy.title if strategy else damage.choice.strategy if damage.choice else ""


def looks_again(library: Library, damage: Damage) -> bool:
    """Whether the last decision was work that ends a look, and the next look has begun."""
    return (
        ends_look(library, damage)
        and len(damage.looks) > 1
        and damage.looks[-2].ended_by.startswith(act_of(library, damage))
    )


def _chosen(library: Library, damage: Damage) -> Strategy | None:
    if damage.choice is None:
        return None
    try:
        ruled = library.guide(damage.family).strategies.get(damage.choice.strategy)
    except (KeyError, BrokenFile):
        return None
    return ruled.strategy if ruled else None


@dataclass(frozen=True, slots=True)
class BenchRow:
    """A case as a row of the first screen.

    Attributes:
        number: the case's number.
        instrument: kind and description.
        title: its title.
        waits_for: what comes next.
        taken_in: the day it came in.
    """

    number: str
    instrument: str
    title: str
    waits_for: str
    taken_in: date | None


def bench_rows(desk: Desk, finished: bool | None = False, limit: int = 200) -> list[BenchRow]:
    """List cases with what each waits for, the latest taken in first.

    Args:
        desk: the desk.
        finished: False for those on the bench, True for finished ones, None for all.
        limit: how many at most.

    Raises:
        StorageError: the book cannot be read.
    """
    waiting = {
        case.number: waits_for(desk.library, case)
        for case in (() if finished else desk.book.every_case(finished=False))
    }
    return [
        BenchRow(row.number, row.instrument, row.title, waiting.get(row.number, "finished"), row.taken_in)
        for row in desk.book.cases(limit, finished=finished)
    ]


def waits_for(library: Library, case: Case) -> str:
    """Say in a few words what a case waits for."""
    stages = [stage_of(library, damage) for damage in case.damages]
    if not stages:
        return "a damage"
    if "taken in" in stages:
        return "a look" if len(stages) == 1 else _of("look", stages.count("taken in"), len(stages))
    if "looked at" in stages:
        return _of("decision", stages.count("looked at"), len(stages))
    if "decided" in stages:
        return _of("work", stages.count("decided"), len(stages))
    return "handing back"


def _of(what: str, some: int, all: int) -> str:
    return what if all == 1 else f"{what}, {some} of {all}"
