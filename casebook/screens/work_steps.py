"""The steps of the work as rows: planned or one's own, ticked off by whom and when, done otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from textual.content import Content

from casebook.records.case import Damage, StepDone
from casebook.records.workshop import Departure
from casebook.screens.plain import BOLD, FAINT, line, lines, plain
from casebook.screens.rows import Row

# Tick, what, by whom, hours, day.
WIDTHS = (3, -1, 4, 6, 10)


@dataclass(frozen=True, slots=True)
class Step:
    """One row: the words of a step, whether the plan has it, how it was done, what was done otherwise."""

    text: str
    planned: bool
    done: StepDone | None = None
    departures: tuple[Departure, ...] = ()


def steps_of(damage: Damage, planned: Sequence[str]) -> list[Step]:
    """List the planned steps, and below them whatever was done besides, so that none is ever hidden."""
    left, otherwise = list(damage.steps), list(damage.departures)

    def step(text: str, done: StepDone | None, *, of_plan: bool = False) -> Step:
        told = tuple(one for one in otherwise if one.planned == text)
        otherwise[:] = [one for one in otherwise if one.planned != text]
        return Step(text, of_plan, done, told)

    def taken(text: str) -> StepDone | None:
        done = next((one for one in left if one.text == text), None)
        if done is not None:
            left.remove(done)
        return done

    rows = [step(text, taken(text), of_plan=True) for text in planned]
    rows += [step(done.text, done) for done in left]
    while otherwise:
        rows.append(step(otherwise[0].planned, None))
    return rows


def step_rows(steps: Iterable[Step]) -> list[Row]:
    """Word the steps as rows, each by its place."""
    return [(f"{place}", _cells(step)) for place, step in enumerate(steps)]


def done_text(done: StepDone) -> str:
    """Word by whom, in what time and when a step was done."""
    return ", ".join(filter(None, (*_about(done), done.note)))


def departure_text(one: Departure) -> str:
    """Word what was done otherwise."""
    because = f"because {one.why}" if one.why else ""
    return ", ".join(filter(None, (one.did, because)))


def _cells(step: Step) -> list[Content | str]:
    done = step.done
    note = f" ({done.note})" if done and done.note else ""
    said = line(f"{step.text}{note}", FAINT if done else "")
    told = (f"~ otherwise: {departure_text(one)}" for one in step.departures)
    said = lines([said, *(line(text, "$text-warning") for text in told)])
    if done is None:
        return ["[~]" if step.departures else "[ ]", said, "", "", ""]
    return [plain("[x]", BOLD), said, *(line(part, FAINT) for part in _about(done))]


def _about(done: StepDone) -> tuple[str, str, str]:
    hours = f"{done.hours:g} h" if done.hours is not None else ""
    return done.by, hours, str(done.done_on or "")
