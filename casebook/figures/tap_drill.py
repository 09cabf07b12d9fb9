"""The hole to tap: what a wanted percent of thread asks for, and which real drills come near it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from typing import Any

from casebook.figures.drawer import Chosen, Piece, choose_thread, on_hand, pick
from casebook.figures.inputs import Input, Inputs, Span
from casebook.figures.shared_inputs import DRILLS, TAPS
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
NO_TAP = "cut it from the sister post's thread, screw-cut it, or cast the thread round the waxed shank"

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
    DRILLS,
    TAPS,
    Input(
        "drilled", "length", "diameter of the drill that was really used; the percent follows it",
        low="0.1 mm", high="40 mm", measured=False,
    ),
)  # fmt: skip


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


def pick_drill(
    thread: Thread, percent: Fraction, sets: Iterable[str] = SETS, have: Iterable[Piece] | None = None
) -> Chosen:
    """Choose the drill for a thread: from the drawer, else of the sets on hand.

    Args:
        thread: what is tapped.
        percent: percent of thread wanted, by the thread's own convention.
        sets: which sets are on hand, where no drawer is kept.
        have: the drills of the drawer.
    """
    return _pick_drill(thread, percent, tuple(dict.fromkeys(sets)), None if have is None else tuple(have))


@cache
def _pick_drill(
    thread: Thread, percent: Fraction, sets: tuple[str, ...], have: tuple[Piece, ...] | None
) -> Chosen:
    ideal = thread.hole(percent)
    own = _own(sets, thread.system)

    def misfit(piece: Piece) -> tuple[float, ...]:
        off = max(abs(thread.percent(piece.size) - percent) - NEAR_ENOUGH, Fraction(0))
        # Of two as near, the larger breaks fewer taps.
        return float(off), piece not in own, float(abs(piece.size - ideal)), -piece.mm

    near = _nearest(ideal, [piece for piece, _ in _made(sets)], own)
    chosen = pick("drills", misfit, near, None if have is None else _nearest(ideal, have, frozenset()))
    assert chosen is not None
    return chosen


def _nearest(ideal: Fraction, drills: Iterable[Piece], own: frozenset[Piece]) -> list[Piece]:
    """Give the few drills nearest to the ideal hole: the whole series need not be reckoned through."""
    wanted = float(ideal)
    ordered = sorted(drills, key=lambda piece: (abs(piece.mm - wanted), -piece.mm))
    return ordered[: 2 * SHOWN] + [piece for piece in ordered if piece in own][:SHOWN]


@cache
def _own(sets: tuple[str, ...], system: str) -> frozenset[Piece]:
    """Give the drills of the thread's own measure."""
    return frozenset(piece for piece, which in _made(sets) if which in _OWN_SETS[system])


@cache
def _made(sets: tuple[str, ...]) -> tuple[tuple[Piece, str], ...]:
    return tuple((Piece(name, size), which) for which in sets for name, size in drills(which))


def near_drills(
    thread: Thread,
    percent: Fraction,
    sets: Iterable[str] = SETS,
    have: Iterable[Piece] | None = None,
    chosen: Chosen | None = None,
) -> list[dict[str, Any]]:
    """List the real drills nearest to the ideal hole, nearest first, the choice marked.

    Args:
        thread: what is tapped.
        percent: percent of thread wanted, by the thread's own convention.
        sets: which sets are on hand, where no drawer is kept.
        have: the drills of the drawer.
        chosen: the choice, where it was made before.

    Returns:
        Rows ``drill``, ``set``, ``diameter`` (mm), ``percent`` (what it leaves), ``chosen`` and ``warning``
        (empty where there is none).
    """
    sets = tuple(dict.fromkeys(sets))
    choice = (chosen or pick_drill(thread, percent, sets, have)).piece
    ideal = thread.hole(percent)
    found = [(piece, "drawer") for piece in have] if have is not None else list(_made(sets))
    # Of two as near, the larger breaks fewer taps.
    wanted = float(ideal)
    near = sorted(found, key=lambda drill: abs(drill[0].mm - wanted))[: 2 * SHOWN]
    near.sort(key=lambda drill: (abs(drill[0].size - ideal), -drill[0].size))
    shown = near[:SHOWN]
    if choice not in [piece for piece, _ in shown]:
        shown = [next(drill for drill in found if drill[0] == choice), *near[: SHOWN - 1]]
    marked = next(drill for drill in shown if drill[0] == choice)
    return [
        {
            "drill": piece.name,
            "set": which,
            "diameter": piece.mm,
            "percent": round(float(thread.percent(piece.size)), 1),
            "chosen": (piece, which) == marked,
            "warning": _warning(thread, piece.size),
        }
        for piece, which in shown
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
    # Sets that are typed come before the drawer.
    have = None if "sets" in inputs.given and "drills" not in inputs.given else on_hand(result, DRILLS)
    sets = inputs.word("sets").split(",")
    chosen = result.chosen["drills"] = pick_drill(thread, percent, sets, have)
    result.rows = near_drills(thread, percent, sets, have, chosen)
    choose_thread(result, TAPS, thread, NO_TAP)
    _judge(result, thread)
    return result


def _judge(result: Result, thread: Thread) -> None:
    """Judge the drill as chosen or as drilled: neither too much thread for the tap nor too little to hold."""
    drill = result.chosen["drills"].piece
    drilled = result.inputs.values.get("drilled")
    if isinstance(drilled, Reading):
        drill = Piece(drilled.typed, drilled.value)
    left = float(thread.percent(drill.size))
    result.inputs.spans.update(
        percent_left=Span.exact(left),
        drill=Span.exact(drill.mm),
        minor=Span.exact(float(thread.minor_diameter)),
        most=Span.exact(MOST_PERCENT),
        least=Span.exact(LEAST_PERCENT),
    )
    name, percent = drill.name, round(left, 1)
    if isinstance(drilled, Reading):
        result.table_figure(
            "percent_left",
            left,
            unit="percent",
            how=f"(major - drill) / full thread, with {name} as drilled; {convention(thread)}",
            source=thread.source,
            checked=thread.checked,
        )
    result.check(
        "not_too_tight",
        _NOT_OVER,
        unit="percent",
        yes=f"{name} leaves {percent:g} percent of thread, not over {MOST_PERCENT}",
        no=f"{name} leaves over {MOST_PERCENT} percent of thread: the tap may break",
        ways_out=("ask for less percent", "take the next larger drill"),
    )
    result.check(
        "not_too_loose",
        _NOT_UNDER,
        unit="percent",
        yes=f"{name} leaves {percent:g} percent of thread, not under {LEAST_PERCENT}",
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
