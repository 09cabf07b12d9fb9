"""A formula: one function of named inputs, each of which moves it one way only.

Because of that its bounds are found at two corners of the readings, and they are as narrow as can be.
Formulas are joined into longer ones (a depth is a seat and a length), so that a figure and the check that
judges it share their parts, and every input is still moved to its own corner once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from casebook.figures.inputs import BadInput, Span


class Formula:
    """One function of named inputs with the direction in which each input moves it.

    Args:
        compute: the function; its parameter names are input names.
        rises: names (space separated) that move the result up when they grow.
        falls: names that move it down. A parameter in neither must be given without doubt.
        names: the names of the inputs, where `compute` takes them as keywords without naming them.
    """

    def __init__(
        self,
        compute: Callable[..., float],
        *,
        rises: str = "",
        falls: str = "",
        names: Iterable[str] | None = None,
    ) -> None:
        self.compute = compute
        self.names = tuple(_parameters(compute) if names is None else names)
        self.rises = frozenset(rises.split())
        self.falls = frozenset(falls.split())
        unknown = (self.rises | self.falls) - set(self.names)
        if unknown or self.rises & self.falls:
            raise ValueError(f"directions of {self.names} do not fit: {unknown or self.rises & self.falls}")

    def __add__(self, other: Formula) -> Formula:
        return joined(lambda a, b: a + b, "++", self, other)

    def __sub__(self, other: Formula) -> Formula:
        return joined(lambda a, b: a - b, "+-", self, other)

    def missing(self, inputs: Mapping[str, Span]) -> list[str]:
        """Name the inputs that have not been given."""
        return [name for name in self.names if name not in inputs]

    def __call__(self, inputs: Mapping[str, Span]) -> Span | None:
        """Give the result with its bounds, or None while an input is missing.

        Raises:
            BadInput: the inputs as read leave the range in which the formula means anything.
        """
        try:
            given = {name: inputs[name] for name in self.names}
        except KeyError:
            return None
        for name in set(self.names) - self.rises - self.falls:
            if given[name].low != given[name].high:
                raise ValueError(f"{name} has a doubt, but no direction is declared for it")
        low = {n: s.high if n in self.falls else s.low for n, s in given.items()}
        high = {n: s.low if n in self.falls else s.high for n, s in given.items()}
        try:
            value = self.compute(**{n: s.value for n, s in given.items()})
            bounds = self.compute(**low), self.compute(**high)
        except (ValueError, ZeroDivisionError, OverflowError):
            names = ", ".join(self.names)
            raise BadInput(self.names[0], f"does not go together with the others ({names})") from None
        return Span(min(bounds[0], value), value, max(bounds[1], value))


def _parameters(function: Callable[..., float]) -> tuple[str, ...]:
    # What inspect.signature would say of a plain function, at a fraction of the cost.
    code = function.__code__
    return code.co_varnames[: code.co_argcount]


def term(name: str) -> Formula:
    """The input `name` itself, as a part of longer formulas."""
    return Formula(lambda **given: given[name], rises=name, names=(name,))


def joined(function: Callable[..., float], signs: str, *parts: Formula) -> Formula:
    """Make one formula of several.

    Args:
        function: takes the parts' results, in order.
        signs: one sign a part: ``+`` where the whole rises with the part, ``-`` where it falls.
        parts: the formulas.

    Raises:
        ValueError: an input would move the whole up by one part and down by another: write that out as one
            function, since only that shows which way it goes.
    """
    names = tuple(dict.fromkeys(name for part in parts for name in part.names))
    rises: set[str] = set()
    falls: set[str] = set()
    for sign, part in zip(signs, parts, strict=True):
        rises |= part.rises if sign == "+" else part.falls
        falls |= part.falls if sign == "+" else part.rises

    def compute(**given: float) -> float:
        return function(*(part.compute(**{n: given[n] for n in part.names}) for part in parts))

    return Formula(compute, rises=" ".join(rises), falls=" ".join(falls), names=names)
