"""A worksheet's result for the screen: figures in the shop's unit and another, checks in words."""

from __future__ import annotations

from textual.content import Content

from casebook.figures.as_text import amount, in_unit, places, row_text, words, worth
from casebook.figures.drawer import lacking
from casebook.figures.worksheet import Check, Figure, Holds, Result
from casebook.quantity import Unit
from casebook.screens.plain import BOLD, FAINT, cell, joined, lines, plain

_GLYPHS: dict[Holds, tuple[str, str]] = {
    "yes": ("+", "$text-success"),
    "no": ("x", "$text-error"),
    "unknown": ("?", "$text-warning"),
}
# Figures that have a word of their own at the bench.
_BENCH_WORDS = {"sagitta": "fall-away", "chord": "straight across", "arc": "round the body"}
_OTHER: dict[Unit, Unit] = {"mm": "in", "in": "mm", "thou": "mm"}


def result_content(result: Result | None, unit: Unit, *, whole: bool) -> Content:
    """Word a result; `whole` also says how each figure was made and where from."""
    if result is None or not (result.figures or result.checks or result.rows):
        return plain("Nothing can be worked out yet: give the sizes on the left.", FAINT)
    parts: list[Content] = []
    for name, check in result.checks.items():
        parts += _check(name, check, unit)
    parts += [plain(f"! {line}", "$text-warning") for line in lacking(result)]
    if parts:
        parts.append(plain(""))
    for name, figure in result.figures.items():
        parts += _figure(name, figure, unit, whole=whole)
    parts += [plain(row_text(row, unit)) for row in result.rows]
    if result.steps:
        parts += [
            plain(""),
            *[plain(f"{n}. {in_unit(step, unit)}") for n, step in enumerate(result.steps, 1)],
        ]
    return lines(parts)


def _figure(name: str, figure: Figure, unit: Unit, *, whole: bool) -> list[Content]:
    label = cell(plain(_BENCH_WORDS.get(name, words(name)), FAINT), 19)
    if figure.value is None or figure.low is None or figure.high is None:
        return [joined(label, " ", plain(figure.how))]
    fine, figures = places(figure), worth(figure)
    said = amount(figure.value, figure.unit, unit, fine=fine, figures=figures)
    if figure.unit == "mm":
        said += f" = {amount(figure.value, 'mm', _OTHER[unit], fine=fine)}"
    low, high = (
        amount(bound, figure.unit, unit, fine=fine, figures=figures) for bound in (figure.low, figure.high)
    )
    between = "" if low == high else f" ({low} to {high})"
    doubt = "  ? unverified" if figure.checked == "memory" else ""
    shown = [joined(label, " ", plain(said, BOLD), plain(between, FAINT), plain(doubt, "$text-warning"))]
    if whole:
        shown.append(plain(f"    {figure.how} [{figure.source}]", FAINT))
    return shown


def _check(name: str, check: Check, unit: Unit) -> list[Content]:
    glyph, colour = _GLYPHS[check.holds]
    spare = ""
    if check.margin is not None and check.unit != "number":
        word = "lacks" if check.margin < 0 else "to spare:"
        spare = f"  {word} {amount(abs(check.margin), check.unit, unit)}"
    shown = [
        joined(plain(f"{glyph} ", f"bold {colour}"), plain(words(name), BOLD), plain(spare)),
        plain(f"    {in_unit(check.says, unit)}", FAINT),
    ]
    return shown + [plain(f"    - {in_unit(way, unit)}") for way in check.ways_out]
