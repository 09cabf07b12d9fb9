"""What a repairer types, as exact quantities: lengths, threads, drills, counts, temperatures, forces."""

from casebook.quantity.designation import read_thread
from casebook.quantity.kinds import read_count, read_quantity, read_temperature
from casebook.quantity.length import read_length
from casebook.quantity.reading import NotUnderstood, Reading
from casebook.quantity.size import INCH, UNITS, Unit, drills, show_length
from casebook.quantity.thread import Thread, standard_threads

__all__ = [
    "INCH",
    "UNITS",
    "NotUnderstood",
    "Reading",
    "Thread",
    "Unit",
    "drills",
    "read_count",
    "read_length",
    "read_quantity",
    "read_temperature",
    "read_thread",
    "show_length",
    "standard_threads",
]
