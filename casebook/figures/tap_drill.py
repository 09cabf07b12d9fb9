"""The hole to tap: what a wanted percent of thread asks for, and which real drills come near it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.worksheet import COMMON_PRACTICE, Formula, Result, Worksheet
from casebook.quantity import Reading, Thread, drills

SETS = ("number", "letter", "fraction", "metric")

# Percent of thread to aim at (common practice, no source): tough metal breaks taps earlier than soft.
PERCENT = {"brass": 75, "silver": 75, "wood": 75, "nickel_silver": 65, "steel": 65}
# Above, taps break for little strength; below, little thread is left (common practice, no source).
MOST_PERCENT = 80
LEAST_PERCENT = 50
# A drill this near to the wanted percent does; among such, the set of the thread's own measure comes first.
NEAR_ENOUGH = Fraction(5, 2)
SHOWN = 8

_OWN_SETS = {"unified": SETS[:3], "whitworth": SETS[:3], "metric": SETS[3:], "ba": SETS[3:], "other": SETS}
_NOT_OVER = Formula(lambda percent_left, most: most - percent_left, rises="most", falls="percent_left")
_NOT_UNDER = Formula(lambda percent_left, least: percent_left - least, rises="percent_left", falls="least")
_OVER_MINOR = Formula(lambda drill, minor: drill - minor, rises="drill", falls="minor")

INPUTS = (
    Input("thread", "thread", "the thread to tap: 3-48, M2.5, 6BA, or a major diameter by pitch"),
    Input(
        "percent",
        "percent",
        "percent of thread wanted; else by material",
        low="20",
        high="100",
        measured=False,
    ),
    Input("material", "choice", "what is tapped", default="brass", choices=tuple(PERCENT)),
    Input("sets", "sets", "drill sets on hand", default=",".join(SETS), choices=SETS),
)


def wanted_percent(inputs: Inputs) -> Fraction:
    """Give the percent of thread that was asked for, or the usual one for the material."""
    percent = inputs.values.get("percent")
    if isinstance(percent, Reading):
        return percent.value
    return Fraction(PERCENT[inputs.word("material")])


def convention(thread: Thread) -> str:
    """Say what 100 percent of thread means for this thread."""
    pitches = float(thread.full_depth / thread.pitch)
    return f"100 percent = {pitches:.4g} pitches off the diameter ({thread.angle_words})"


def _in_reach(
    every: list[tuple[str, str, Fraction]], ideal: Fraction, near: Fraction
) -> list[tuple[str, str, Fraction]]:
    """Leave out drills that can be neither shown nor chosen; exact numbers are slow to sort."""
    middle = float(ideal)
    off = [abs(float(size) - middle) for _, _, size in every]
    reach = max(sorted(off)[:SHOWN][-1], float(near)) + 1e-6
    return [drill for drill, far in zip(every, off, strict=True) if far <= reach]


def near_drills(thread: Thread, percent: Fraction, sets: Iterable[str] = SETS) -> list[dict[str, Any]]:
    """List the real drills nearest to the ideal hole, nearest first, the choice marked.

    Args:
        thread: what is tapped.
        percent: percent of thread wanted, by the thread's own convention.
        sets: which sets are on hand.

    Returns:
        Rows ``drill``, ``set``, ``diameter`` (mm), ``percent`` (what it leaves), ``chosen`` and ``warning``
        (empty where there is none).
    """
    ideal = thread.hole(percent)
    every = [(name, which, size) for which in dict.fromkeys(sets) for name, size in drills(which)]
    found = _in_reach(every, ideal, thread.full_depth * NEAR_ENOUGH / 100)
    # Of two as near, the larger breaks fewer taps.
    found.sort(key=lambda drill: (abs(drill[2] - ideal), -drill[2]))
    own = _OWN_SETS[thread.system]
    choice = next(
        (d for d in found if d[1] in own and abs(thread.percent(d[2]) - percent) <= NEAR_ENOUGH),
        found[0],
    )
    shown = found[:SHOWN] if choice in found[:SHOWN] else [choice, *found[: SHOWN - 1]]
    return [
        {
            "drill": name,
            "set": which,
            "diameter": float(size),
            "percent": round(float(thread.percent(size)), 1),
            "chosen": (name, which, size) == choice,
            "warning": _warning(thread, size),
        }
        for name, which, size in shown
    ]


def _warning(thread: Thread, size: Fraction) -> str:
    left = thread.percent(size)
    said = []
    if left > MOST_PERCENT:
        said.append(f"over {MOST_PERCENT} percent: the tap may break")
    if left < LEAST_PERCENT:
        said.append(f"under {LEAST_PERCENT} percent: little thread left")
    if size < thread.minor_diameter:
        said.append("below the basic minor diameter")
    return "; ".join(said)


def run(inputs: Inputs) -> Result:
    """Work out the ideal hole and the nearest drills; without a thread nothing can be said."""
    result = Result("tap_drill", inputs)
    thread = inputs.thread()
    if thread is None:
        return result
    percent = wanted_percent(inputs)
    result.table_figure(
        "ideal_hole",
        float(thread.hole(percent)),
        how=f"major diameter - {float(percent):g} percent of full thread; {convention(thread)}",
        source=thread.source,
        checked=thread.checked,
    )
    result.table_figure(
        "percent",
        float(percent),
        unit="percent",
        how="as asked for" if "percent" in inputs.given else f"usual for {inputs.word('material')}",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    result.table_figure(
        "minor_diameter",
        float(thread.minor_diameter),
        how="basic minor diameter of the thread",
        source=thread.source,
        checked=thread.checked,
    )
    result.rows = near_drills(thread, percent, inputs.word("sets").split(","))
    _judge(result, thread)
    return result


def _judge(result: Result, thread: Thread) -> None:
    """Judge the chosen drill: neither too much thread for the tap nor too little to hold."""
    chosen = next(row for row in result.rows if row["chosen"])
    result.inputs.spans.update(
        percent_left=Span.exact(float(thread.percent(Fraction(chosen["diameter"])))),
        drill=Span.exact(chosen["diameter"]),
        minor=Span.exact(float(thread.minor_diameter)),
        most=Span.exact(MOST_PERCENT),
        least=Span.exact(LEAST_PERCENT),
    )
    name = chosen["drill"]
    result.check(
        "not_too_tight",
        _NOT_OVER,
        unit="percent",
        yes=f"{name} leaves {chosen['percent']:g} percent of thread, not over {MOST_PERCENT}",
        no=f"{name} leaves over {MOST_PERCENT} percent of thread: the tap may break",
        ways_out=("ask for less percent", "take the next larger drill"),
    )
    result.check(
        "not_too_loose",
        _NOT_UNDER,
        unit="percent",
        yes=f"{name} leaves {chosen['percent']:g} percent of thread, not under {LEAST_PERCENT}",
        no=f"{name} leaves under {LEAST_PERCENT} percent of thread: little of it will hold",
        ways_out=("ask for more percent", "take the next smaller drill"),
    )
    result.check(
        "above_minor_diameter",
        _OVER_MINOR,
        yes=f"{name} is no smaller than the basic minor diameter",
        no=f"{name} is below the basic minor diameter: smaller than the standard allows a nut",
        ways_out=("take the next larger drill",),
    )


WORKSHEET = Worksheet(
    id="tap_drill",
    title="the hole to tap and the nearest real drills",
    inputs=INPUTS,
    run=run,
    example="thread=3-48 percent=75 sets=number,metric",
)
