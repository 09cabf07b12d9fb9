"""Random numbers for formulas: a range for every name, and which numbers can stand together."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator

import casebook.figures
from casebook.figures.bushing import WORKSHEET as BUSHING
from casebook.figures.bushing_sizes import sizes
from casebook.figures.formula import Formula
from casebook.figures.inputs import Inputs, Span, read
from casebook.figures.joint_strength import WORKSHEET as JOINT
from casebook.figures.shank_thread import derive_thread
from casebook.figures.strength_links import derive_sizes, links, margin, times
from casebook.figures.strengths import derive_strengths

# In mm, degrees, newtons, MPa: generous ranges of the bench.
RANGES = {
    "body": (15.0, 60.0), "bore": (4.0, 30.0), "wall": (1.0, 15.0), "measured": (1.0, 15.0),
    "other_body": (15.0, 60.0), "flange": (2.0, 12.0), "flange_thickness": (0.2, 2.0), "set_down": (0.0, 0.3),
    "seat_depth": (0.0, 4.0), "old_seat": (0.0, 4.0), "hinge_height": (1.0, 15.0), "spacing": (2.0, 60.0),
    "hole": (1.0, 9.0), "hole_bottom": (1.0, 9.0), "depth": (1.0, 12.0), "off_centre": (0.0, 1.0),
    "clean_up": (0.0, 0.5), "gap": (0.0, 0.2), "groove": (0.0, 0.5), "least_metal": (0.2, 1.0),
    "hide_margin": (0.0, 0.6), "engaged": (0.5, 8.0), "extra": (0.0, 1.5), "engaged_threads": (1.0, 12.0),
    "major": (1.0, 5.0), "minor": (0.8, 4.0), "pitch": (0.2, 1.0), "cutter": (2.0, 10.0),
    "crests": (2.0, 60.0),
    "bore_runs_off": (-0.5, 0.5), "waste": (0.0, 100.0), "percent": (20.0, 100.0), "offset": (0.0, 2.0),
    "load": (0.1, 20.0), "factor": (1.0, 6.0), "surface_speed": (5.0, 100.0), "diameter": (0.5, 20.0),
    "rolling_ratio": (0.1, 0.4), "hole_root": (1.6, 2.2), "crest": (2.3, 2.6), "pitch_shank": (2.2, 2.3),
    "pitch_hole": (2.2, 2.3), "flank": (0.577, 0.577), "stress_area": (1.0, 10.0),
    "span": (1.0, 15.0), "temperature_now": (-1.0, 60.0), "temperature_then": (-1.0, 60.0),
    "humidity_now": (5.0, 95.0), "humidity_then": (5.0, 95.0), "tangential_strain": (-0.03, 0.03),
    "radial_strain": (-0.03, 0.03), "grip": (0.0, 0.2), "socket": (10.0, 40.0), "groove_diameter": (8.0, 38.0),
    "least_surface_speed": (5.0, 100.0), "fastest": (500.0, 5000.0),
}  # fmt: skip
OTHERWISE = (0.5, 15.0)


def sensible(n: dict[str, float]) -> bool:
    """Whether these numbers can stand together on a bench, as the worksheets themselves demand it."""

    def below(smaller: str, larger: str, share: float = 1.0) -> bool:
        return smaller not in n or larger not in n or n[smaller] < share * n[larger]

    if "spacing" in n and "body" in n and n["spacing"] >= n["body"] + 2 * n.get("hinge_height", 0.0):
        return False
    coned = "depth" not in n or "clean_up" not in n or below("hole_bottom", "hole")
    cut = below("pitch_hole", "crest") and below("hole_root", "pitch_shank")
    return (
        coned
        and cut
        and below("pitch", "major", 0.45)
        and below("flange", "body")
        and below("bore", "body", 0.95)
        and below("depth", "body", 0.5)
        and below("wall", "body", 0.5)
        and below("groove_diameter", "socket")
    )


def all_formulas() -> Iterator[tuple[str, Formula]]:
    """Give every formula of every worksheet: those of the modules and those joined for given inputs."""
    for module in pkgutil.iter_modules(casebook.figures.__path__):
        for name, value in vars(importlib.import_module(f"casebook.figures.{module.name}")).items():
            yield from ((f"{module.name}.{name}", formula) for formula in _inside(value))
    for given in _GIVEN_TO_BUSHING:
        inputs = read(BUSHING.inputs, given)
        derive_thread(inputs)
        if "cutters" in given:
            inputs.derive("cutter", Span.exact(5.5), "cutters")
        chosen = sizes(inputs)
        label = " ".join(sorted(given))
        yield from ((f"bushing with {label}: {name}", f) for name, f in chosen.figures.items())
        for name, margins in chosen.margins.items():
            yield from ((f"bushing with {label}: {name} margin {i}", f) for i, f in enumerate(margins))
    for given in _GIVEN_TO_JOINT:
        inputs = read(JOINT.inputs, given)
        for name, capacity, demand in _links_of(inputs):
            label = f"joint with {' '.join(sorted(given))}: {name}"
            yield label, capacity
            yield f"{label} times", times(capacity, demand)
            yield f"{label} margin", margin(capacity, demand)


_GIVEN_TO_BUSHING: tuple[dict[str, str], ...] = (
    {"seat": "recessed", "body": "27mm", "bore": "14mm"},
    {"seat": "proud", "wall": "6mm"},
    {"seat_depth": "1mm", "wall": "6mm", "cutters": "5.5mm", "engaged_threads": "3"},
)
_GIVEN_TO_JOINT: tuple[dict[str, str], ...] = (
    {"thread": "3-48", "bushing_metal": "brass", "outside": "5mm", "metal": "silver", "flange": "6mm"},
    {"shank": "2.5mm", "pitch": "0.53mm", "engaged_threads": "3"},
    {"shank": "2.5mm", "pitch": "0.53mm", "engaged": "3mm", "metal": "brass"},
)


def _links_of(inputs: Inputs) -> Iterator[tuple[str, Formula, Formula]]:
    derive_thread(inputs)
    derive_sizes(inputs)
    for link in links(inputs, derive_strengths(inputs)):
        yield link.name, link.capacity, link.demand


def _inside(value: object) -> Iterator[Formula]:
    if isinstance(value, Formula):
        yield value
    elif isinstance(value, dict):
        for part in value.values():
            yield from _inside(part)
    elif isinstance(value, tuple):
        for part in value:
            yield from _inside(part)
