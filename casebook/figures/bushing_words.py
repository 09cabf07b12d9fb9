"""What the figures and checks of a bushing mean, in the words of the bench, with their sources."""

from __future__ import annotations

from casebook.figures.round_body import GEOMETRY
from casebook.figures.worksheet import COMMON_PRACTICE, Checked

# Figure: its unit, the formula in words, its source, how far that was checked.
SAID: dict[str, tuple[str, str, str, Checked]] = {
    "trued_hole": ("mm", "widest hole + 2 x off-centre + clean-up", COMMON_PRACTICE, "common practice"),
    "outside_min": (
        "mm", "the larger of thread + 2 x (least metal + groove) and trued hole - 2 x gap",
        COMMON_PRACTICE, "common practice",
    ),
    "outside_max": ("mm", "flange - hide margin", COMMON_PRACTICE, "common practice"),
    "outside": (
        "mm", "the smallest size that cleans the hole and leaves metal round the thread; turn it to the hole"
        " as cut less 2 x gap", COMMON_PRACTICE, "common practice",
    ),
    "wood_hole": ("mm", "outside + 2 x gap", COMMON_PRACTICE, "common practice"),
    "length": ("mm", "engaged thread + spare length", COMMON_PRACTICE, "common practice"),
    "seat_depth": ("mm", "", GEOMETRY, "formula"),
    "depth": ("mm", "seat depth + length, from the high line of the body", GEOMETRY, "formula"),
    "point_depth": (
        "mm", "depth + 0.3 x wood hole: where the point of a common drill (118 degrees) would end",
        GEOMETRY, "formula",
    ),
    "wood_to_bore": ("mm", "wall - depth, on the axis of a flat-bottomed hole", GEOMETRY, "formula"),
    "wood_at_edge": (
        "mm", "sqrt((r + wood to bore)^2 + (wood hole / 2)^2) - r at the hole's edge, r half the bore",
        GEOMETRY, "formula",
    ),
    "wood_to_tone_hole": (
        "mm", "wood to the next opening - (wood hole - hole) / 2 - off-centre", GEOMETRY, "formula",
    ),
    "full_threads": ("count", "engaged length / pitch", GEOMETRY, "formula"),
}  # fmt: skip

# Check: unit of its margin, what it means when it holds, and when it does not.
MEANS = {
    "hidden_by_flange": (
        "mm", "a bushing that cleans the hole hides under the flange, glue and all",
        "a bushing that cleans the hole would show beside the flange",
    ),
    "hole_cleaned": (
        "mm", "the hole as cut cleans the old one all round",
        "the cutter leaves a part of the old hole uncut",
    ),
    "wood_to_bore": (
        "mm", "enough wood is left to the bore", "too little wood is left to the bore",
    ),
    "wood_to_tone_hole": (
        "mm", "enough wood is left to the next opening", "too little wood is left to the next opening",
    ),
    "metal_around_thread": (
        "mm", "there is metal enough round the thread, under the grooves",
        "too little metal would be left round the thread under a flange of this size",
    ),
    "threads_engaged": (
        "count", "enough turns of thread are engaged to hold in metal",
        "too few turns of thread are engaged to hold in metal",
    ),
}  # fmt: skip
