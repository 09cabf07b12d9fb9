"""Worksheets: the calculations of the shop, each a pure function. The only place where a number is made."""

from __future__ import annotations

from functools import cache
from importlib import import_module

from casebook.figures.worksheet import Worksheet

# One module each, loaded when it is asked for.
IDS = (
    "thread", "tap_drill", "bushing", "flange_seat", "post_angle", "plug", "joint_strength",
    "wall", "compare",
    "wood_movement", "tenon_fit", "crack_pin_layout", "spring_force", "lathe_speed", "hinge_fit",
    "pad_size", "ring_fit", "liner_fit", "tone_hole_insert", "tenon_graft", "band_depth", "clocking",
    "solder_choice", "bore_profile", "quote",
)  # fmt: skip


@cache
def worksheet(id: str) -> Worksheet:
    """Give the worksheet called `id` (``_`` and ``-`` are the same).

    Raises:
        KeyError: there is none of that name.
    """
    name = id.replace("-", "_")
    if name not in IDS:
        raise KeyError(id)
    sheet: Worksheet = import_module(f"casebook.figures.{name}").WORKSHEET
    return sheet
