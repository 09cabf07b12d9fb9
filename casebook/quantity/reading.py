"""A reading: what a tool showed, as an exact number between two exact bounds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from casebook.quantity.tool import TOOL_ERRORS, ToolError


class NotUnderstood(ValueError):
    """Something typed that is no quantity, or could be two: what was typed, why, what to type instead."""

    def __init__(self, typed: str, why: str, instead: str = "") -> None:
        super().__init__(typed, why, instead)
        self.typed = typed
        self.why = why
        self.instead = instead

    def __str__(self) -> str:
        shown = self.typed if len(self.typed) <= 40 else self.typed[:37] + "..."
        return f"{shown!r}: {self.why}" + (f"; {self.instead}" if self.instead else "")


@dataclass(frozen=True, slots=True)
class Reading:
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

    low: Fraction
    value: Fraction
    high: Fraction
    typed: str = field(default="", compare=False)
    own_error: bool = False
    unit: str = "mm"
    tool: str = ""
    parts: int = 1

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            raise ValueError(f"bounds out of order: {self.low}, {self.value}, {self.high}")

    @classmethod
    def exact(cls, value: Fraction | int, typed: str = "", *, unit: str = "mm") -> Reading:
        """A number with no doubt: a count, a setting, a table's figure."""
        number = Fraction(value)
        return cls(number, number, number, typed, unit=unit)

    def blurred(self, error: Fraction | ToolError, tools: Mapping[str, ToolError] = TOOL_ERRORS) -> Reading:
        """Give this reading widened by its error, unless it carries one of its own.

        Args:
            error: in mm, either way; or that of a tool.
            tools: the errors by tool: where the text names one of these, its error counts instead.
        """
        if self.own_error:
            return self
        usual = error if isinstance(error, ToolError) else ToolError.either_way(error)
        by = tools.get(self.tool, usual)
        return replace(self, low=self.low - by.below / self.parts, high=self.high + by.above / self.parts)
