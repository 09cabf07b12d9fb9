"""One damage in words: what was decided, what was measured and done, hours, and how it turned out."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from casebook.bench.visit_text import hours_text, outcome_text
from casebook.guide.pack import Strategy
from casebook.records.case import Damage, FollowUp
from casebook.screens.plain import BOLD, FAINT, joined, lines, plain


def decided_text(damage: Damage, strategy: Strategy | None, ends_look: bool) -> Content:
    """Word what was decided, why, and whether one looks again after it."""
    choice = damage.choice
    if choice is None:
        return plain("Nothing is decided yet: p shows the proposals.", BOLD)
    said = [plain(strategy.title if strategy else choice.strategy, BOLD)]
    if choice.reason:
        said.append(joined(plain("because  ", FAINT), choice.reason))
    if ends_look:
        said.append(plain("This ends the look: when it is done, o takes the second look.", "$text-warning"))
    return lines(said)


def record_text(damage: Damage) -> Content:
    """Word the record, what came last standing first."""
    parts = list(_parts(damage))
    return lines(parts or [plain("Nothing recorded yet: r records what was done.", FAINT)])


def _parts(damage: Damage) -> Iterator[Content]:
    for seen in reversed(damage.followups):
        yield joined(_verdict(seen), plain(outcome_text(seen)))
    if damage.done:
        yield _named("done", damage.done)
    told = ", ".join(filter(None, (hours_text(damage), _repaired(damage))))
    if told:
        yield plain(told)
    if damage.learned:
        yield _named("learned", damage.learned)
    for read in damage.before_after:
        before = f"{read.before} before" if read.before else "not read before"
        after = f"{read.after} after" if read.after else "not read after yet"
        yield _named("read", f"{read.what} {before}, {after}{f' ({read.note})' if read.note else ''}")
    for one in damage.measured:
        yield _named("as made", f"{one.what} {one.value}{f' ({one.note})' if one.note else ''}")
    if damage.figures:
        yield _named("figures", ", ".join(used.worksheet.replace("_", " ") for used in damage.figures))


def _repaired(damage: Damage) -> str:
    return f"repaired on {damage.repaired_on}" if damage.repaired_on else ""


def _verdict(seen: FollowUp) -> Content:
    """Say what a look after it says of the repair: glyph, word and colour."""
    if seen.against:
        return plain("x against the repair  ", "$text-error")
    if seen.turned_out == "holding":
        return plain("+ holds  ", "$text-success")
    return plain("- not against it  " if seen.ends_observation else "? says nothing yet  ", FAINT)


def _named(name: str, text: str) -> Content:
    return joined(plain(f"{name}  ", FAINT), plain(text, BOLD if name == "done" else ""))
