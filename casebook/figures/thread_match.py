"""Which standard threads a worn one may be: candidates over all systems, and what tells twins apart.

A thread is never rounded to the nearest: one that no table allows within wear and reading is called
non-standard, and threads that the readings cannot tell apart are all named.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from casebook.figures.inputs import Span
from casebook.quantity import Thread, standard_threads

# How far real threads lie from their basic sizes, in pitches. An outside is made under its basic size and
# wears smaller: the least outside of class 2A in ASME B1.1 is 0.2 to 0.3 P under. A tapped hole is made over
# its basic minor diameter, by up to 0.45 P where it was tapped to 50 percent. The other way there is only
# dirt, plating and a burr (common practice, no source).
OUTSIDE_UNDER = 0.3
HOLE_OVER = 0.45
WRONG_WAY = 0.1

# A gauge has no leaf for every pitch, so one read by gauge over the few turns of a post is good to this part
# of itself; one counted over a span to its reading and a little wear (common practice, no source).
GAUGE_SHARE = 0.05
WEAR_SHARE = 0.01

# Crests this far out of step beside a sound thread can be seen with a loupe (common practice, no source).
SEEN_MM = 0.1

_ORIGIN = {
    "unified": "American make",
    "metric": "continental or Japanese make",
    "ba": "British make",
    "whitworth": "old British make",
}


class Worn(NamedTuple):
    """A thread as measured: one diameter and the pitch, in mm, with their bounds.

    Attributes:
        diameter: over the crests, or the core of a tapped hole.
        pitch: the pitch.
        in_hole: whether the diameter is that of a hole.
        counted: whether the pitch was counted over a span (its bounds then say how good it is).
        engaged: length over which the two threads go together; None when nobody measured it.
        ruled_out: a thread that was tried and does not go in.
    """

    diameter: Span
    pitch: Span
    in_hole: bool
    counted: bool
    engaged: float | None
    ruled_out: str = ""


class Candidate(NamedTuple):
    """A standard thread beside the worn one. Misfits are measured less basic size, in mm.

    Attributes:
        thread: the standard thread.
        diameter_misfit: of the outside, or of the hole.
        pitch_misfit: of the pitch.
        score: 0 for a perfect fit, up to 1 for the last that fits.
    """

    thread: Thread
    diameter_misfit: float
    pitch_misfit: float
    score: float


def candidates(worn: Worn) -> list[Candidate]:
    """Give every standard thread by how well it fits, best first; with a score over 1 it does not fit."""
    found = [_beside(worn, thread) for name, thread in standard_threads().items() if name != worn.ruled_out]
    found.sort(key=lambda candidate: candidate.score)
    return found


def _beside(worn: Worn, thread: Thread) -> Candidate:
    pitch = float(thread.pitch)
    basic = float(thread.minor_diameter if worn.in_hole else thread.major)
    misfit = worn.diameter.value - basic
    under, over = (WRONG_WAY, HOLE_OVER) if worn.in_hole else (OUTSIDE_UNDER, WRONG_WAY)
    doubt = (worn.diameter.high - worn.diameter.low) / 2
    diameter_part = abs(misfit) / ((over if misfit > 0 else under) * pitch + doubt)
    pitch_misfit = worn.pitch.value - pitch
    pitch_doubt = (worn.pitch.high - worn.pitch.low) / 2
    allowed = pitch_doubt + pitch * (WEAR_SHARE if worn.counted else GAUGE_SHARE)
    return Candidate(thread, misfit, pitch_misfit, max(diameter_part, abs(pitch_misfit) / allowed))


def rows(worn: Worn) -> list[dict[str, Any]]:
    """Give the threads that fit as rows, best first; none for a non-standard one.

    Returns:
        Rows ``thread``, ``system``, ``outside_misfit`` or ``hole_misfit`` (mm), ``pitch_misfit`` (mm),
        ``angle`` (degrees), ``twins`` (those that the readings and the engaged length cannot tell from it),
        ``tell_apart`` (what would), ``source`` and ``checked``.
    """
    fit = [candidate for candidate in candidates(worn) if candidate.score <= 1]
    return [_row(worn, candidate, [other for other in fit if other is not candidate]) for candidate in fit]


def _row(worn: Worn, candidate: Candidate, others: list[Candidate]) -> dict[str, Any]:
    thread = candidate.thread
    twins = [other.thread for other in others if not _shows(thread, other.thread, worn.engaged)]
    return {
        "thread": thread.designation,
        "system": thread.system,
        ("hole_misfit" if worn.in_hole else "outside_misfit"): candidate.diameter_misfit,
        "pitch_misfit": candidate.pitch_misfit,
        "angle": float(thread.angle),
        "twins": [twin.designation for twin in twins],
        "tell_apart": [tell_apart(thread, other.thread) for other in others],
        "source": thread.source,
        "checked": thread.checked,
    }


def _shows(one: Thread, other: Thread, engaged: float | None) -> bool:
    """Whether the crests of the two are seen out of step over the engaged length."""
    length = length_to_tell(one, other)
    return engaged is not None and length is not None and engaged >= length


def length_to_tell(one: Thread, other: Thread) -> float | None:
    """Give the length in mm over which the crests of two threads come visibly out of step; None for never."""
    apart = abs(float(one.pitch) - float(other.pitch))
    return SEEN_MM * float(one.pitch) / apart if apart > 0 else None


def tell_apart(one: Thread, other: Thread) -> str:
    """Say what would tell `one` from `other`: the flank angle, a longer span, where it was made."""
    ways = []
    if one.angle != other.angle:
        ways.append(f"flank angle {float(one.angle):g} against {float(other.angle):g} degrees")
    length = length_to_tell(one, other)
    if length is None:
        ways.append("no length of thread, the pitch is the same")
    else:
        ways.append(f"crests beside a known screw over {length:.0f} mm or more")
    if one.system != other.system and one.system in _ORIGIN and other.system in _ORIGIN:
        ways.append(f"origin, {_ORIGIN[one.system]} against {_ORIGIN[other.system]}")
    return f"from {other.designation}: {'; '.join(ways)}"
