"""A worksheet's result in plain words for a terminal, lengths in the unit the shop shows."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from casebook.figures.drawer import lacking
from casebook.figures.worksheet import Check, Figure, Result
from casebook.quantity import Unit, show_length

_SIGN = {"percent": " percent", "deg": " degrees", "count": "", "number": "", "celsius": " C", "money": ""}
_HOLDS = {"yes": "yes    ", "no": "NO     ", "unknown": "unknown"}

# Bounds further apart than this share of the number leave it two, or three, figures.
_ROUGH, _FAIR = 0.1, 0.01

# A length known better than this is worth one place more.
_FINE_MM = 0.01
# ... and one known no better than this, as metres of thread, is shown to the millimetre.
_ROUGH_MM = 2.0

# A column wider than this does not fit a terminal.
_WIDEST = 48

# Ends of the keys of rows that hold lengths in mm; other numbers are shown as they are.
_LENGTHS = ("diameter", "misfit", "length", "depth", "size", "margin", "outside")

# A length within a sentence: worksheets write them in mm, with a point and a blank.
# Width of the longest figure's name but a few.
_NAME = 21
_IN_SENTENCE = re.compile(r"(?<![\w.])([0-9]+\.[0-9]+) mm\b")


def result_text(result: Result, unit: Unit = "mm") -> str:
    """Give the result as lines of text: figures with formula and source, checks, rows, steps.

    Args:
        result: what a worksheet gave.
        unit: what lengths are shown in.
    """
    parts = [
        "\n".join(_figure(name, figure, unit) for name, figure in result.figures.items()),
        "\n".join(line for name, check in result.checks.items() for line in _check(name, check, unit)),
        "\n".join(f"Drawer: {line}." for line in lacking(result)),
        "\n".join(_table(result.rows, unit)),
        "\n".join(f"{number}. {in_unit(step, unit)}" for number, step in enumerate(result.steps, 1)),
    ]
    said = "\n\n".join(part for part in parts if part)
    return said or "nothing can be said yet: no input given that a figure needs"


def worth(figure: Figure) -> int:
    """Say how many figures a number is worth: two where its bounds lie wide apart, at most four."""
    if figure.value is None or figure.low is None or figure.high is None:
        return 4
    apart = (figure.high - figure.low) / abs(figure.value or 1)
    return 2 if apart > _ROUGH else 3 if apart > _FAIR else 4


def places(figure: Figure) -> int:
    """Say how many places more than usual a length is worth by its bounds."""
    if figure.low is None or figure.high is None:
        return 0
    apart = figure.high - figure.low
    return 1 if apart < _FINE_MM else -2 if apart >= _ROUGH_MM else 0


def amount(value: float, unit: str, shown: Unit, *, fine: int = 0, figures: int = 4) -> str:
    """Write one number with its unit, lengths in `shown`, areas in mm2.

    Args:
        value: the number, in `unit`.
        unit: the unit of a figure or margin.
        shown: what lengths are shown in.
        fine: for a length: places more than usual.
        figures: how many figures a force, a volume and the like are worth (see `worth`).
    """
    if unit == "mm":
        return show_length(value, shown, fine=fine)
    digits = {"percent": 1, "deg": 1, "count": 1, "celsius": 1, "money": 2, "hours": 2}.get(unit)
    if unit == "percent" and 0 < abs(value) < 1:
        digits = 2
    # Nobody sets a spindle closer than two figures. No power of ten for a volume or a speed.
    figures = 2 if unit == "rpm" else figures
    text = f"{float(f'{value:.{figures}g}'):.10g}" if digits is None else f"{value:.{digits}f}"
    return f"{text.removesuffix('.0')}{_SIGN.get(unit, f' {unit}')}"


def in_unit(sentence: str, unit: Unit) -> str:
    """Write the lengths of a worksheet's sentence, which stand there in mm, in the shop's unit."""
    if unit == "mm":
        return sentence
    return _IN_SENTENCE.sub(lambda found: show_length(float(found.group(1)), unit), sentence)


def words(name: str) -> str:
    """Give a figure's or check's id as words."""
    return name.replace("_", " ")


def row_text(row: Mapping[str, Any], unit: Unit) -> str:
    """Word one row of a result on one line, without where it comes from and what is empty."""
    cells = {
        name: _cell(name, value, unit) for name, value in row.items() if name not in ("source", "checked")
    }
    said = ", ".join(f"{words(name)} {cell}" for name, cell in cells.items() if cell)
    return f"{said}, UNVERIFIED" if row.get("checked") == "memory" else said


def _figure(name: str, figure: Figure, unit: Unit) -> str:
    if figure.value is None or figure.low is None or figure.high is None:
        return f"{words(name):<{_NAME}} {figure.how}  [{figure.source}]"
    shown, low, high = (
        amount(number, figure.unit, unit, fine=places(figure), figures=worth(figure))
        for number in (figure.value, figure.low, figure.high)
    )
    between = "" if low == high else f"  ({low} to {high})"
    doubt = ", UNVERIFIED" if figure.checked == "memory" else ""
    return f"{words(name):<{_NAME}} {shown}{between}  = {figure.how}  [{figure.source}{doubt}]"


def _check(name: str, check: Check, unit: Unit) -> Iterable[str]:
    spare = ""
    if check.margin is not None and check.unit != "number":
        spare = f" ({'lacks' if check.margin < 0 else 'spare'} {amount(abs(check.margin), check.unit, unit)})"
    yield f"{_HOLDS[check.holds]} {words(name)}{spare}: {in_unit(check.says, unit)}"
    for way in check.ways_out:
        yield f"        - {in_unit(way, unit)}"


def _table(rows: list[dict[str, Any]], unit: Unit) -> Iterable[str]:
    if not rows:
        return
    columns = {name: [_cell(name, row.get(name), unit) for row in rows] for name in rows[0]}
    # Empty columns say nothing, and long text has been said in the checks.
    shown = {name: cells for name, cells in columns.items() if 0 < len(max(cells, key=len)) <= _WIDEST}
    wide = {name: max(len(words(name)), *map(len, cells)) for name, cells in shown.items()}
    yield "  ".join(words(name).ljust(wide[name]) for name in shown).rstrip()
    for number in range(len(rows)):
        yield "  ".join(cells[number].ljust(wide[name]) for name, cells in shown.items()).rstrip()


def _cell(name: str, value: Any, unit: Unit) -> str:
    if isinstance(value, bool):
        return "<==" if value else ""
    if isinstance(value, (list, tuple)):
        return ", ".join(str(part) for part in value)
    if isinstance(value, (int, float)):
        length = any(name.endswith(word) for word in _LENGTHS)
        return show_length(value, unit, fine=True) if length else f"{value:.4g}"
    return str(value if value is not None else "")
