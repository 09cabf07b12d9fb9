"""What a worksheet is: inputs as read, figures and checks out, with the reading error run through.

A figure or a check's margin is a `Formula`: one function of the inputs, which each input moves one way
only. Its bounds are therefore found at two corners of the readings, and they are tight.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, Literal, NamedTuple

from casebook.figures.drawer import Chosen
from casebook.figures.formula import Formula as Formula
from casebook.figures.inputs import Input, Inputs, Span
from casebook.tables import Checked as Checked

Holds = Literal["yes", "no", "unknown"]

# A margin smaller than a millionth of a millimetre is the arithmetic's own noise, not the bench's.
_NOISE = 1e-9
COMMON_PRACTICE = "common practice, no source"


class Figure(NamedTuple):
    """One number a worksheet made.

    Attributes:
        value: in `unit`; None when it cannot be known, `how` then says why.
        low: lower bound from the reading error.
        high: upper bound.
        unit: ``mm``, ``mm2``, ``mm3``, ``deg``, ``count``, ``percent``, ``N``, ``MPa`` ...
        how: the formula in words.
        source: where formula or constant come from.
        checked: how far that source was checked.
    """

    value: float | None
    low: float | None
    high: float | None
    unit: str
    how: str
    source: str
    checked: Checked


class Check(NamedTuple):
    """Whether something the worksheet asks for holds.

    Attributes:
        holds: yes when the whole interval of the margin is at or above zero, no when below, else unknown.
        margin: how much is to spare (negative: lacking), in `unit`; None while an input is missing.
        low: lower bound of the margin.
        high: upper bound of the margin.
        unit: unit of the margin.
        says: what that means, in the words of the bench.
        ways_out: what can be done when it does not hold.
        waits_on: inputs still missing, or the readings whose doubt decides.
    """

    holds: Holds
    margin: float | None
    low: float | None
    high: float | None
    unit: str
    says: str
    ways_out: tuple[str, ...] = ()
    waits_on: tuple[str, ...] = ()


class Result:
    """What one calculation gave.

    `drawing` holds shapes in mm for paper and screens to render; `chosen` the real sizes taken, by the input
    that lists what there is.
    """

    def __init__(self, worksheet: str, inputs: Inputs) -> None:
        self.worksheet = worksheet
        self.inputs = inputs
        self.figures: dict[str, Figure] = {}
        self.checks: dict[str, Check] = {}
        self.rows: list[dict[str, Any]] = []
        self.steps: list[str] = []
        self.drawing: dict[str, Any] = {}
        self.chosen: dict[str, Chosen] = {}

    def figure(
        self,
        name: str,
        formula: Formula,
        *,
        unit: str = "mm",
        how: str,
        source: str,
        checked: Checked = "formula",
    ) -> Span | None:
        """Compute a figure and keep it; nothing is kept while an input is missing.

        Later formulas go back to the inputs, not to this figure: an interval made of intervals would be
        wider than the truth.

        Returns:
            The figure's span, or None while an input is missing.
        """
        span = formula(self.inputs.spans)
        if span is not None:
            self.figures[name] = Figure(span.value, span.low, span.high, unit, how, source, checked)
        return span

    def table_figure(
        self, name: str, value: float, *, unit: str = "mm", how: str, source: str, checked: Checked
    ) -> None:
        """Keep a figure without doubt of its own: one that a table or a setting fixes."""
        self.figures[name] = Figure(value, value, value, unit, how, source, checked)

    def chosen_figure(self, name: str, chosen: Chosen | None, *, how: str) -> None:
        """Keep a real size, in mm, that was chosen; nothing where the piece chosen does not do."""
        if chosen is not None and chosen.does:
            self.table_figure(
                name,
                chosen.piece.mm,
                how=f"{chosen.piece.name}: {how}",
                source=COMMON_PRACTICE,
                checked="common practice",
            )

    def unknown_figure(self, name: str, *, unit: str, why: str, source: str) -> None:
        """Keep a figure that nobody can know, saying why instead of guessing."""
        self.figures[name] = Figure(None, None, None, unit, f"not known: {why}", source, "memory")

    def check(
        self,
        name: str,
        *margins: Formula,
        unit: str = "mm",
        yes: str,
        no: str,
        ways_out: Iterable[str] = (),
    ) -> Check:
        """Judge a check by its margins (all of them must be at or above zero) and keep it.

        Args:
            name: the check's id.
            margins: one formula, or several that must all hold.
            unit: unit of the margins.
            yes: what it means when it holds.
            no: what it means when it does not.
            ways_out: what can be done when it does not hold; kept only then.
        """
        spans = self.inputs.spans
        got = [margin(spans) for margin in margins]
        known = [span for span in got if span is not None]
        missing = self.inputs.to_read(n for margin in margins for n in margin.missing(spans))
        failed = [span for span in known if span.high < -_NOISE]
        if failed:
            worst = min(failed, key=lambda span: span.value)
            check = Check("no", worst.value, worst.low, worst.high, unit, no, tuple(ways_out))
        elif missing:
            given = all(name in self.inputs for name in missing)
            says = f"not known: no trustworthy value for this {_listed(missing)}"
            says = says if given else f"needs {_listed(missing)} first"
            check = Check("unknown", None, None, None, unit, says, (), missing)
        else:
            low, value, high = (min(getattr(s, part) for s in known) for part in ("low", "value", "high"))
            if low >= -_NOISE:
                check = Check("yes", value, low, high, unit, yes)
            else:
                deciding = self.inputs.to_read(self._deciding(margins))
                taken = all(name in self.inputs for name in deciding)
                do = (
                    f"take {_listed(deciding)} again, finer"
                    if taken
                    else f"measure {_listed(deciding)} itself"
                )
                says = f"too close to call with these readings: {do}"
                check = Check("unknown", value, low, high, unit, says, tuple(ways_out), deciding)
        self.checks[name] = check
        return check

    def _deciding(self, margins: Iterable[Formula]) -> tuple[str, ...]:
        """Name the reading whose doubt widens the undecided margin most."""
        spans = self.inputs.spans
        widths: dict[str, float] = {}
        for margin in margins:
            whole = margin(spans)
            if whole is None or whole.low >= -_NOISE:
                continue
            for name in margin.names:
                sharp = margin({**spans, name: Span.exact(spans[name].value)})
                if sharp is not None:
                    gain = (whole.high - whole.low) - (sharp.high - sharp.low)
                    widths[name] = max(gain, widths.get(name, 0.0))
        best = max(widths.values(), default=0.0)
        return tuple(name for name, gain in widths.items() if best > 0 and gain >= 0.999 * best)


def _listed(names: tuple[str, ...]) -> str:
    return ", ".join(name.replace("_", " ") for name in names)


class Worksheet(NamedTuple):
    """A shop calculation: its inputs and the pure function that computes it.

    Attributes:
        id: the name on the command line and in rule packs.
        title: what it works out, in a line.
        inputs: what it takes.
        run: inputs in, result out; raises BadInput for readings that cannot go together.
        example: a command-line example, ``name=value ...``.
    """

    id: str
    title: str
    inputs: tuple[Input, ...]
    run: Callable[[Inputs], Result]
    example: str
