"""A worksheet's result as plain data for scripts: lengths in mm, whatever unit the shop shows."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from casebook.figures.worksheet import Result
from casebook.quantity import Reading, Thread


def result_json(result: Result) -> dict[str, Any]:
    """Give the result as dicts, lists, text and numbers.

    Inputs are as typed, with their value: ``{"typed": "0.190in", "mm": 4.826, "low": ..., "high": ...}``;
    what is no length has ``value`` and ``unit`` instead of ``mm``, a thread has its ``designation``, a choice
    is its word. ``drawer``, where the shop keeps one, says what was taken from it, by the input that
    lists it, and what is lacking there.
    """
    from_drawer = {
        name: {"take": chosen.piece.name, "size": float(chosen.piece.size), "lacks": chosen.says}
        for name, chosen in result.chosen.items()
        if chosen.kept
    }
    return {
        "worksheet": result.worksheet,
        "inputs": {name: _input(value) for name, value in result.inputs.values.items()},
        "figures": {name: figure._asdict() for name, figure in result.figures.items()},
        "checks": {name: _plain(check._asdict()) for name, check in result.checks.items()},
        "rows": _plain(result.rows),
        "steps": list(result.steps),
        "drawing": _plain(result.drawing),
    } | ({"drawer": from_drawer} if from_drawer else {})


def _input(value: Reading | Thread | str) -> Any:
    if isinstance(value, str):
        return value
    if isinstance(value, Thread):
        return {
            "designation": value.designation,
            "system": value.system,
            "major_mm": float(value.major),
            "pitch_mm": float(value.pitch),
        }
    number = (
        {"mm": float(value.value)}
        if value.unit == "mm"
        else {"value": float(value.value), "unit": value.unit}
    )
    return {"typed": value.typed, **number, "low": float(value.low), "high": float(value.high)}


def _plain(value: Any) -> Any:
    if isinstance(value, Fraction):
        return float(value)
    if isinstance(value, Mapping):
        return {str(key): _plain(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(part) for part in value]
    return value
