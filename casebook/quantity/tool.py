"""The tool a size was read with, and how far the true size may lie from what it shows."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple


class ToolError(NamedTuple):
    """How far the true size may lie from the reading, in mm; a tool that reads small has more above.

    Attributes:
        below: how much less than the reading the true size may be.
        above: how much more.
    """

    below: Fraction
    above: Fraction

    @classmethod
    def either_way(cls, error: Fraction) -> ToolError:
        """The same error up and down."""
        return cls(error, error)


# Common practice, no source; a shop sets its own. Jaws do not reach the widest of a small hole: they read
# small, so the true size lies further above the reading than below it.
TOOL_ERRORS: Mapping[str, ToolError] = MappingProxyType({
    "micrometer": ToolError.either_way(Fraction("0.01")),
    "caliper": ToolError.either_way(Fraction("0.03")),
    "inside_jaws": ToolError(Fraction("0.03"), Fraction("0.1")),
    "depth_rod": ToolError.either_way(Fraction("0.1")),
    "past_undercut": ToolError.either_way(Fraction("0.3")),
})  # fmt: skip

# Other tools that a question or a reading may name; their error is the usual one until a shop sets its own.
TOOLS = (*TOOL_ERRORS, "gauge", "rod", "feeler", "scale", "eye")

_CALLED = {
    "calipers": "caliper", "jaws": "inside_jaws", "inside caliper": "inside_jaws", "mic": "micrometer",
    "undercut": "past_undercut", "bore gauge": "gauge", "feelers": "feeler",
}  # fmt: skip


def tool_called(words: str) -> str | None:
    """Give the tool's id for what somebody calls it, or None when there is none of that name."""
    name = " ".join(words.replace("_", " ").replace("-", " ").split())
    id = _CALLED.get(name, name.replace(" ", "_"))
    return id if id in TOOLS else None
