"""A thread's figures by its name; or, of a worn one, which standard threads it may be."""

from __future__ import annotations

from typing import Literal

from casebook.figures.drawer import SHELVES, choose_thread
from casebook.figures.inputs import BadInput, Input, Inputs, Span
from casebook.figures.thread_match import Worn, candidates, rows
from casebook.figures.worksheet import COMMON_PRACTICE, Check, Formula, Result, Worksheet
from casebook.quantity import INCH, Reading, Thread

INPUTS = (
    Input("thread", "thread", "what it is called: 3-48, 1/4-20, M2.5, 6BA, or a major diameter by pitch"),
    Input(
        "length", "length", "length of thread in which full threads are counted", low="0.1 mm", high="100 mm"
    ),
    Input("outside", "length", "worn thread: outside diameter over the crests", low="0.3 mm", high="30 mm"),
    Input("hole", "length", "worn thread: core diameter of the tapped hole", low="0.3 mm", high="30 mm"),
    Input("pitch", "pitch", "worn thread: by gauge, 48 tpi or 0.53 mm", low="0.08 mm", high="5 mm"),
    Input("crests", "count", "worn thread: crests counted over the span, both ends in", low="2", high="400"),
    Input("span", "length", "worn thread: from the first crest to the last", low="0.1 mm", high="100 mm"),
    Input("engaged", "length", "length over which the two threads go together", low="0.1 mm", high="100 mm"),
    Input("neighbour", "thread", "worn thread: that of a sound neighbour of the same instrument"),
    Input(
        "goes_in",
        "choice",
        "worn thread: whether the neighbour's post screws in by hand, or its hole takes it",
        choices=("yes", "no"),
    ),
    Input("turns", "count", "full turns from first bite to seat", high="100"),
    Input("least_turns", "count", "full turns that hold", default="2", low="1", high="20", measured=False),
    SHELVES["taps"].item,
    SHELVES["dies"].item,
)
_WITHOUT = "screw-cut it in the lathe, or ask where it can be had"

PITCH_OVER_SPAN = Formula(lambda span, crests: span / (crests - 1), rises="span", falls="crests")
FULL_THREADS = Formula(lambda length, pitch: length / pitch, rises="length", falls="pitch")
THREADS_SPARE = Formula(
    lambda length, pitch, least_turns: length / pitch - least_turns, rises="length", falls="pitch least_turns"
)
TURNS_SPARE = Formula(lambda turns, least_turns: turns - least_turns, rises="turns", falls="least_turns")
LENGTH_NEEDED = Formula(lambda pitch, least_turns: pitch * least_turns, rises="pitch least_turns")


def run(inputs: Inputs) -> Result:
    """Give the figures of a named thread, or the candidates for a worn one.

    Raises:
        BadInput: a name and a pitch, a pitch in two ways, an outside and a hole, or a pitch lost in doubt.
    """
    result = Result("thread", inputs)
    thread = inputs.thread()
    _take_pitch(inputs, thread)
    if thread is not None:
        _figures_of(result, thread)
        for shelf in ("taps", "dies"):
            choose_thread(result, SHELVES[shelf].item, thread, _WITHOUT)
    elif "pitch" in inputs.spans:
        result.figure(
            "pitch",
            Formula(lambda pitch: pitch, rises="pitch"),
            how="span from first to last crest / (crests - 1)" if "crests" in inputs else "as read",
            source="counting crests" if "crests" in inputs else "the reading",
        )
    if thread is None:
        _identify(result)
    if "length" not in inputs.spans and "engaged" in inputs.spans:
        inputs.derive("length", inputs.spans["engaged"], "length")
    _judge_length(result)
    return result


def _take_pitch(inputs: Inputs, thread: Thread | None) -> None:
    """Put the pitch (mm) among the numbers, from the one place it was given in."""
    counted = [name for name in ("crests", "span") if name in inputs]
    if thread is not None:
        for name in ("pitch", *counted):
            if name in inputs:
                raise BadInput(
                    name, f"{thread.designation} already says its pitch: leave one of the two away"
                )
        inputs.derive("pitch", Span.exact(float(thread.pitch)), "thread")
        return
    inputs.read_as["pitch"] = "pitch"
    if "pitch" in inputs and counted:
        raise BadInput(counted[0], "a pitch is given too: leave one of the two away")
    pitch = PITCH_OVER_SPAN(inputs.spans)
    if pitch is not None:
        if pitch.low <= 0:
            raise BadInput("span", "is no longer than its own doubt: count over more crests")
        inputs.derive("pitch", pitch, "span")


def _figures_of(result: Result, thread: Thread) -> None:
    form = thread.angle_words

    def keep(name: str, value: float, how: str, unit: str = "mm") -> None:
        result.table_figure(name, value, unit=unit, how=how, source=thread.source, checked=thread.checked)

    keep("major", float(thread.major), f"basic major diameter of {thread.designation}")
    keep(
        "pitch",
        float(thread.pitch),
        f"distance from thread to thread, {float(INCH / thread.pitch):.4g} an inch",
    )
    keep("pitch_diameter", float(thread.pitch_diameter), f"basic pitch diameter, {form}")
    keep("minor_diameter", float(thread.minor_diameter), f"basic minor diameter, {form}")
    keep("angle", float(thread.angle), "angle between the flanks", "deg")
    keep("stress_area", thread.stress_area, _area_words(thread), "mm2")


def _area_words(thread: Thread) -> str:
    if thread.area_pitches is None:
        return "circle of the mean of pitch and minor diameter"
    return f"circle of major - {float(thread.area_pitches):.6g} pitch"


def _identify(result: Result) -> None:
    """Rank the standard threads that a worn one may be."""
    inputs = result.inputs
    if "outside" in inputs and "hole" in inputs:
        raise BadInput("hole", "an outside is given too: ask about one of the two at a time")
    dimension = next((name for name in ("outside", "hole") if name in inputs), None)
    if dimension is None:
        return
    pitch = inputs.spans.get("pitch")
    if pitch is None:
        says = "needs pitch first, or crests and span"
        result.checks["standard"] = Check("unknown", None, None, None, "number", says, (), ("pitch",))
        return
    engaged = inputs.spans.get("engaged")
    typed = inputs.values.get("pitch")
    neighbour = inputs.thread("neighbour")
    worn = Worn(
        diameter=inputs.spans[dimension],
        pitch=pitch,
        in_hole=dimension == "hole",
        counted="crests" in inputs or (isinstance(typed, Reading) and typed.own_error),
        engaged=engaged.low if engaged else None,
        ruled_out=neighbour.designation if neighbour and inputs.word("goes_in") == "no" else "",
    )
    result.rows = rows(worn)
    _beside_neighbour(result, worn)
    result.checks["standard"] = _standard(result, worn)


def _beside_neighbour(result: Result, worn: Worn) -> None:
    """Judge whether it may be its neighbour's thread; if so, it comes first: they were made together."""
    neighbour = result.inputs.thread("neighbour")
    if neighbour is None:
        return
    called, goes_in = neighbour.designation, result.inputs.word("goes_in")
    holds: Literal["yes", "no"] = "no"
    if worn.ruled_out:
        says = f"not {called}, as its neighbour is: that one does not go in"
    elif any(row["thread"] == called for row in result.rows):
        result.rows.sort(key=lambda row: row["thread"] != called)
        tried = "" if goes_in else "; try the neighbour's post by hand"
        holds, says = "yes", f"may well be {called}, as its neighbour is{tried}"
    elif goes_in:
        says = f"the readings do not go with {called}, but the neighbour's goes in: one of the two is wrong"
    else:
        says = f"the readings do not go with {called}, as its neighbour is"
    ways = ("measure again over more crests", "an old hole tapped anew, or a post from another instrument")
    result.checks["as_neighbour"] = Check(
        holds, None, None, None, "number", says, () if holds == "yes" else ways
    )


def _standard(result: Result, worn: Worn) -> Check:
    best = candidates(worn)[0]
    spare = 1 - best.score
    named = [row["thread"] for row in result.rows]
    if not named:
        says = (
            f"non-standard: fits no table within wear and reading; nearest is {best.thread.designation}, "
            f"out by {best.diameter_misfit:+.2f} mm in diameter and {best.pitch_misfit:+.3f} mm in pitch"
        )
        ways = ("make the screw to the hole, or line the hole to the screw", "measure again over more crests")
        return Check("no", spare, spare, spare, "number", says, ways)
    says = f"fits {named[0]}"
    twins = result.rows[0]["twins"]
    if twins:
        told = "; ".join(result.rows[0]["tell_apart"])
        says += f", but cannot be told from {', '.join(twins)} by these readings. To tell it {told}"
    elif len(named) > 1:
        says += (
            f"; {', '.join(named[1:])} also fit in size, but their crests would show over the engaged length"
        )
    return Check("yes", spare, spare, spare, "number", says)


def _judge_length(result: Result) -> None:
    """Count full threads in a length, and judge turns counted and threads that there is room for."""
    result.figure(
        "full_threads",
        FULL_THREADS,
        unit="count",
        how="length / pitch",
        source="geometry",
    )
    if "pitch" in result.inputs.spans:
        result.figure(
            "length_needed",
            LENGTH_NEEDED,
            how="pitch x least turns that hold",
            source=COMMON_PRACTICE,
            checked="common practice",
        )
    if "length" in result.inputs.spans:
        result.check(
            "threads_in_length",
            THREADS_SPARE,
            unit="count",
            yes="there is room for the full threads that hold",
            no="too short for the full threads that hold",
            ways_out=("engage a longer part of the thread", "a finer thread"),
        )
    if "turns" in result.inputs.spans:
        result.check(
            "threads_hold",
            TURNS_SPARE,
            unit="count",
            yes="as many full turns as hold, or more",
            no="fewer full turns than hold: treat it as stripped",
            ways_out=("line the old thread with metal", "cut a new thread in fresh metal or wood"),
        )


WORKSHEET = Worksheet(
    id="thread",
    title="a thread's sizes by its name, or which one a worn thread may be",
    inputs=INPUTS,
    run=run,
    example="thread=3-48 length=4mm",
)
