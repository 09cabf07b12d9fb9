"""Inputs that several worksheets take, so that each default and each sensible range stands once.

Defaults are decisions of the bench and all common practice, no source; a measured size never has one.
"""

from __future__ import annotations

from casebook.figures.drawer import SHELVES
from casebook.figures.inputs import Input

# Sizes that are measured.
BODY = Input("body", "length", "outside diameter of the body there", low="4 mm", high="200 mm")
BORE = Input("bore", "length", "bore diameter there", low="1 mm", high="120 mm")
WALL = Input("wall", "length", "wall thickness there, as measured", low="0.3 mm", high="60 mm")
FLANGE = Input("flange", "length", "diameter of the flange", low="1 mm", high="40 mm")
FLANGE_THICKNESS = Input(
    "flange_thickness", "length", "thickness of the flange at its edge", low="0.05 mm", high="10 mm"
)
HOLE = Input("hole", "length", "diameter of the hole at its widest", low="0.3 mm", high="40 mm")
THREAD = Input("thread", "thread", "thread of the shank, as 3-48, 6BA or M2.5x0.45")
SHANK = Input(
    "shank", "length", "outside diameter of the shank's thread, where no thread is named",
    low="0.3 mm", high="12 mm",
)  # fmt: skip
PITCH = Input(
    "pitch", "pitch", "distance from thread to thread, where no thread is named", low="0.08 mm", high="4 mm"
)
ENGAGED = Input(
    "engaged", "length", "length of the shank that is in the thread, not the whole shank",
    low="0.1 mm", high="60 mm",
)  # fmt: skip
ENGAGED_THREADS = Input(
    "engaged_threads", "number", "turns of thread engaged, instead of their length",
    low="0.5", high="60", measured=False,
)  # fmt: skip
HINGE_HEIGHT = Input(
    "hinge_height", "length", "height of the rod's middle above the wood", low="0.5 mm", high="60 mm"
)

# How the flange sits. Crushed or unclear seats are measured: seat_depth.
SEAT = Input(
    "seat", "choice", "how the flange sits: recessed in a turned seat, or proud on the wood",
    choices=("recessed", "proud"),
)  # fmt: skip
SEAT_DEPTH = Input(
    "seat_depth", "length", "depth of the seat from the high line of the body, as measured",
    low="0 mm", high="20 mm",
)  # fmt: skip

# Decisions of the bench.
SET_DOWN = Input(
    "set_down", "length", "how far a recessed flange's edge is set below the wood",
    default="0.05 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
OFF_MIDDLE = Input(
    "off_middle", "length", "how far an old bore may run off the middle of the body",
    default="0.3 mm", low="0 mm", high="5 mm", measured=False,
)  # fmt: skip
LEAST_WOOD = Input(
    "least_wood", "length", "least wood to leave towards the bore",
    default="1.0 mm", low="0 mm", high="20 mm", measured=False,
)  # fmt: skip
LEAST_WOOD_SIDEWAYS = Input(
    "least_wood_sideways", "length", "least wood to leave towards a tone hole",
    default="1.5 mm", low="0 mm", high="20 mm", measured=False,
)  # fmt: skip
CLEAN_UP = Input(
    "clean_up", "length", "what truing takes off the widest hole, on the diameter",
    default="0.1 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip
OFF_CENTRE = Input(
    "off_centre", "length", "how far the middle of the hole lies off the old seat's middle",
    default="0 mm", low="0 mm", high="10 mm",
)  # fmt: skip
GAP = Input(
    "gap", "length", "room for the glue, a side",
    default="0.05 mm", low="0 mm", high="1 mm", measured=False,
)  # fmt: skip

# What the shop has: filled from its drawer where nothing is typed.
TAPS, DIES, DRILLS, CUTTERS, COLLETS, ROD, SPEEDS = (
    SHELVES[name].item for name in ("taps", "dies", "drills", "cutters", "collets", "rod", "speeds")
)

# As made: what follows is worked out anew from it.
HOLE_AS_CUT = Input(
    "hole_as_cut", "length", "diameter of the hole as it was really cut, measured; the rest follows it",
    low="0.3 mm", high="40 mm",
)  # fmt: skip
