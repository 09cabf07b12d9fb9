"""The thread of a post's shank as the formulas need it: major diameter, pitch and what is engaged of it."""

from __future__ import annotations

from casebook.figures.formula import Formula, term
from casebook.figures.inputs import BadInput, Inputs, Span
from casebook.figures.round_body import keep_below
from casebook.quantity import Thread

FULL_THREADS = Formula(lambda engaged, pitch: engaged / pitch, rises="engaged", falls="pitch")


def derive_thread(inputs: Inputs) -> None:
    """Put ``major``, ``pitch`` and ``engaged`` (mm) among the numbers, from whatever was given for them.

    A named thread gives its basic sizes without doubt; else they come from the measured ``shank`` and
    ``pitch``. ``engaged_threads`` gives the engaged length where that was not measured.

    Raises:
        BadInput: a pitch that no thread of that diameter has, or a shank that cannot carry the named thread.
    """
    thread = inputs.thread()
    inputs.read_as |= {"major": "shank"}
    if thread is not None:
        inputs.derive("major", Span.exact(float(thread.major)), "thread")
        inputs.derive("pitch", Span.exact(float(thread.pitch)), "thread")
        _keep_shank_near(inputs, thread)
    elif "shank" in inputs.spans:
        inputs.derive("major", inputs.spans["shank"], "shank")
        keep_below(inputs, "pitch", "shank", 0.5)
    pitch = inputs.spans.get("pitch")
    if pitch is not None and pitch.low <= 0:
        raise BadInput("pitch", "is no larger than its own doubt: measure over more crests")
    turns = inputs.spans.get("engaged_threads")
    if "engaged" not in inputs.spans and turns is not None and pitch is not None:
        engaged = Span(turns.low * pitch.low, turns.value * pitch.value, turns.high * pitch.high)
        inputs.derive("engaged", engaged, "pitch")


def _keep_shank_near(inputs: Inputs, thread: Thread) -> None:
    """Refuse a measured shank that is no such thread, however worn."""
    shank = inputs.spans.get("shank")
    least, most = float(thread.pitch_diameter), float(thread.major + thread.pitch / 2)
    if shank is not None and not least < shank.value < most:
        raise BadInput(
            "shank",
            f"{shank.value:.4g} mm is no {thread.designation}, however worn: leave one of the two away"
            f" (sensible: {least:.2f} to {most:.2f} mm)",
        )


def full_threads_formula(inputs: Inputs) -> Formula:
    """Give the turns of thread engaged: as counted, or the engaged length over the pitch."""
    counted = "engaged_threads" in inputs.spans and "engaged" not in inputs.given
    return term("engaged_threads") if counted else FULL_THREADS
