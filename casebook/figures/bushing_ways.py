"""Ways out where a bushing does not fit: each is tried by the same formulas with other settings."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from casebook.figures.formula import Formula
from casebook.figures.inputs import BadInput, Inputs, Span
from casebook.quantity import standard_threads

Spans = Mapping[str, Span]
Change = Callable[[Spans], dict[str, float] | None]

# Thread kept in a short bushing (two to three hold in metal), and what a bottoming tap wants beyond it
# (common practice, no source).
_SHORT_THREADS = 3
_TAP_SPARE_PITCHES = 1.5
# Metal round the thread that is enough in nickel silver, mm (common practice, no source).
_NICKEL_SILVER_METAL = 0.4


class _Way(NamedTuple):
    """A way out: its words, and the numbers it changes; None where it would change nothing or is no sum."""

    words: str
    change: Change | None = None


def _drop_spare(spans: Spans) -> dict[str, float] | None:
    return {"extra": 0.0} if spans["extra"].value > 0 else None


def _short(spare_pitches: float) -> Change:
    def change(spans: Spans) -> dict[str, float] | None:
        if "pitch" not in spans:
            return None
        pitch = spans["pitch"].value
        short = _SHORT_THREADS * pitch
        if "engaged" in spans and spans["engaged"].value <= short:
            return None
        return {"engaged": short, "engaged_threads": _SHORT_THREADS, "extra": spare_pitches * pitch}

    return change


def _in_wood_of_plug(spans: Spans) -> dict[str, float] | None:
    if "major" not in spans:
        return None
    major = spans["major"].value
    changed = {"hole": major, "off_centre": 0.0, "clean_up": 0.0}
    if "tone_hole" in spans and "hole" in spans:
        # The plug is wood again: what lies between the thread and the next opening grows by it.
        changed["tone_hole"] = spans["tone_hole"].value + (spans["hole"].value - major) / 2
    return changed


def _no_clean_up(spans: Spans) -> dict[str, float] | None:
    return {"clean_up": 0.0} if spans["clean_up"].value > 0 else None


def _no_grooves(spans: Spans) -> dict[str, float] | None:
    return {"groove": 0.0} if spans["groove"].value > 0 else None


def _thin_nickel_silver(spans: Spans) -> dict[str, float] | None:
    if spans["least_metal"].value <= _NICKEL_SILVER_METAL:
        return None
    return {"least_metal": _NICKEL_SILVER_METAL, "groove": 0.0}


def _deeper(spans: Spans) -> dict[str, float] | None:
    if "pitch" not in spans:
        return None
    turns = spans["least_threads"].value
    return {"engaged": turns * spans["pitch"].value, "engaged_threads": turns}


_PLUG_AND_BUSH = _Way("plug with like wood, grain along the body, and bush inside the plug", _in_wood_of_plug)
_PLUG = _Way("plug with like wood, grain along the body, and cut the thread in the wood")
_PLATE = _Way("a plate, which shows: the last resort")

_WAYS: dict[str, tuple[_Way, ...]] = {
    "hidden_by_flange": (
        _Way("take no clean-up beyond the widest hole", _no_clean_up), _PLUG_AND_BUSH, _PLUG, _PLATE,
    ),
    "hole_cleaned": (_Way("bore it with a single-point tool, or buy the cutter"), _PLUG_AND_BUSH),
    "wood_to_bore": (
        _Way("drop the spare length, so that the shank itself just finds room", _drop_spare),
        _Way(
            "short closed bushing of three full threads, tapped right through and closed with a turned disc",
            _short(0.0),
        ),
        _Way(
            "short closed bushing of three full threads by a bottoming tap, one and a half pitches spare",
            _short(_TAP_SPARE_PITCHES),
        ),
        _Way("stepped bushing: full size only as deep as the hole is wide, thinner below it"),
        _Way("plug with like wood through the wall and bore it again"),
        _PLATE,
    ),
    "wood_to_tone_hole": (
        _Way("cut no grooves, roughen the outside instead", _no_grooves),
        _PLUG_AND_BUSH,
        _Way("stepped bushing: full size only as deep as the hole is wide, thinner below it"),
        _PLUG,
    ),
    "metal_around_thread": (
        _Way("cut no grooves, roughen the outside instead", _no_grooves),
        _Way("nickel silver, 0.4 mm round the thread and no grooves", _thin_nickel_silver),
        _PLUG,
    ),
    "threads_engaged": (
        _Way("let the thread in deeper", _deeper),
        _Way("a longer stud in a copy post, never in an original one"),
    ),
}  # fmt: skip


def ways_out(check: str, inputs: Inputs, margins: Mapping[str, tuple[Formula, ...]]) -> Iterator[str]:
    """Word the ways out of a check that fails, each with whether it would do, as they are asked for.

    Args:
        check: the check's name.
        inputs: the inputs of the calculation.
        margins: the margins of all checks: a way that mends one check must not break another.
    """
    spans = inputs.spans
    for way in _WAYS[check]:
        change = way.change(spans) if way.change else None
        if change is not None:
            yield f"{way.words}: {_verdict(check, {**spans, **_exact(change)}, margins)}"
        elif way.change is None:
            yield way.words
    if check == "metal_around_thread":
        yield from _smaller_thread(spans)


def _exact(change: Mapping[str, float]) -> dict[str, Span]:
    return {name: Span.exact(value) for name, value in change.items()}


def _verdict(check: str, spans: Spans, margins: Mapping[str, tuple[Formula, ...]]) -> str:
    """Say whether the check would hold under other settings, and what else would then fail."""
    try:
        got = {name: [m for margin in parts if (m := margin(spans))] for name, parts in margins.items()}
    except BadInput:
        return "does not go together with these readings"
    mine = min(got[check], key=lambda span: span.value, default=None)
    if mine is None:
        return "not known with these readings"
    unit = "threads" if check == "threads_engaged" else "mm"
    if mine.value < 0:
        return f"still {-mine.value:.2f} {unit} short"
    broken = [name for name, parts in got.items() if name != check and any(s.value < 0 for s in parts)]
    close = "" if mine.low >= 0 else ", too close to call"
    but = f", but then {' and '.join(name.replace('_', ' ') for name in broken)} fails" if broken else ""
    return f"would do, {mine.value:.2f} {unit} to spare{close}{but}"


def _smaller_thread(spans: Spans) -> list[str]:
    """Name the largest standard thread that leaves metal enough, for a copy post."""
    if "flange" not in spans or "major" not in spans:
        return []
    room = spans["flange"].low - spans["hide_margin"].value
    room -= 2 * (spans["least_metal"].value + spans["groove"].value)
    fitting = [thread for thread in standard_threads().values() if float(thread.major) <= room]
    if not fitting:
        return []
    best = max(fitting, key=lambda thread: (thread.major, thread.pitch))
    return [f"a smaller thread on a copy post, never on an original one: {best.designation} or less would do"]
