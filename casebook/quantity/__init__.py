"""What a repairer types, as exact quantities: lengths, threads, drills, counts, temperatures, forces."""

from casebook.quantity.designation import read_thread
from casebook.quantity.kinds import read_count, read_quantity, read_temperature
from casebook.quantity.length import read_length
from casebook.quantity.reading import NotUnderstood, Reading, shortened
from casebook.quantity.size import INCH, UNITS, Unit, drills, show_length
from casebook.quantity.thread import Thread, standard_threads
from casebook.quantity.time_span import read_time_span, show_time_span
from casebook.quantity.tool import TOOL_ERRORS, ToolError

__all__ = [
    "INCH",
    "TOOL_ERRORS",
    "UNITS",
    "NotUnderstood",
    "Reading",
    "Thread",
    "ToolError",
    "Unit",
    "drills",
    "read_count",
    "read_length",
    "read_quantity",
    "read_temperature",
    "read_thread",
    "read_time_span",
    "shortened",
    "show_length",
    "show_time_span",
    "standard_threads",
]
