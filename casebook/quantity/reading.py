"""A reading: what a tool showed, as an exact number between two exact bounds."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple, Self

from casebook.quantity.tool import TOOL_ERRORS, ToolError


def shortened(typed: str) -> str:
    """Give what was typed, cut to what a line can show."""
    return typed if len(typed) <= 40 else typed[:37] + "..."


class NotUnderstood(ValueError):
    """Something typed that is no quantity, or could be two: what was typed, why, what to type instead."""

    def __init__(self, typed: str, why: str, instead: str = "") -> None:
        super().__init__(typed, why, instead)
        self.typed = typed
        self.why = why
        self.instead = instead

    def __str__(self) -> str:
        return f"{shortened(self.typed)!r}: {self.why}" + (f"; {self.instead}" if self.instead else "")


class _Parts(NamedTuple):
    # A plain tuple underneath: making dataclasses costs every start several milliseconds.
    low: Fraction
    value: Fraction
    high: Fraction
    typed: str = ""
    own_error: bool = False
    unit: str = "mm"
    tool: str = ""
    parts: int = 1


class Reading(_Parts):
    """A measured or given quantity: the value, and the interval in which the true one lies.

    Attributes:
        low: lower bound, exact, in `unit`.
        value: the value itself, exact, between the bounds; the middle for a go / no-go pair.
        high: upper bound, exact.
        typed: the text it was read from, kept to be shown again as typed; two spellings of one length are
            equal readings.
        own_error: whether the text itself carried the error (``5.2mm+-0.05``, ``goes #21 not #20``), so
            that the error of the tool is not added again.
        unit: mm, count, percent, deg, celsius, N or number.
        tool: the tool that the text itself names (``5.2 mm by inside jaws``), or empty.
        parts: for a length read over several (a pitch over crests): how many; the error is shared among them.
    """

    __slots__ = ()

    def __new__(
        cls,
        low: Fraction,
        value: Fraction,
        high: Fraction,
        typed: str = "",
        own_error: bool = False,
        unit: str = "mm",
        tool: str = "",
        parts: int = 1,
    ) -> Self:
        if not low <= value <= high:
            raise ValueError(f"bounds out of order: {low}, {value}, {high}")
        return super().__new__(cls, low, value, high, typed, own_error, unit, tool, parts)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Reading) and self._compared() == other._compared()

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(self._compared())

    def _compared(self) -> tuple[object, ...]:
        return (*self[:3], *self[4:])

    @classmethod
    def exact(cls, value: Fraction | int, typed: str = "", *, unit: str = "mm") -> Self:
        """A number with no doubt: a count, a setting, a table's figure."""
        number = Fraction(value)
        return cls(number, number, number, typed, unit=unit)

    def blurred(self, error: Fraction | ToolError, tools: Mapping[str, ToolError] = TOOL_ERRORS) -> Self:
        """Give this reading widened by its error, unless it carries one of its own.

        Args:
            error: in mm, either way; or that of a tool.
            tools: the errors by tool: where the text names one of these, its error counts instead.
        """
        if self.own_error:
            return self
        usual = error if isinstance(error, ToolError) else ToolError.either_way(error)
        by = tools.get(self.tool, usual)
        return self._replace(low=self.low - by.below / self.parts, high=self.high + by.above / self.parts)
