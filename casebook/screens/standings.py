"""Where every strategy stands, changing with each answer: a glyph, a word and a colour together."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from casebook.bench.counter import SYMPTOMS
from casebook.bench.look import LookSession
from casebook.guide.advice import Proposal, Standing
from casebook.screens.plain import BOLD, COLOURS, FAINT, GLYPHS, WORDS, cell, joined, line, lines, plain

_HEADS: dict[Standing, str] = {
    "fits": "fits",
    "open": "open, waiting for",
    "ruled_out": "ruled out, because",
}
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six")


class Standings(Static):
    """The strategies of a look in three groups, as many as there is room for."""

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self._session: LookSession | None = None

    def say(self, session: LookSession) -> None:
        """Show where the strategies of a look stand."""
        self._session = session
        self._draw()

    def on_resize(self) -> None:
        """Draw to the new size."""
        self._draw()

    def _draw(self) -> None:
        if self._session is None or self.size.width < 8:
            return
        around = self.parent
        height = around.size.height if isinstance(around, Widget) else self.size.height
        self.update(standings(self._session, self.size.width, max(8, height)))


def standings(session: LookSession, width: int, height: int) -> Content:
    """Word the standings for so many columns and lines."""
    groups: dict[Standing, list[Proposal]] = {"fits": [], "open": [], "ruled_out": []}
    strategies = session.guide.strategies
    for proposal in session.advice.proposals:
        # What is only offered on call, and not called for, would be noise here.
        if proposal.standing != "open" or proposal.called_for or not strategies[proposal.id].strategy.on_call:
            groups[proposal.standing].append(proposal)
    moved = {one.strategy for one in session.moved if one.turned}
    foot = [_moved_line(session), _settled_line(session)]
    room = height - len(foot) - 2
    shares = _shared([len(group) for group in groups.values()], room)
    shown: list[Content] = [
        plain("Where to look first" if session.guide.family == SYMPTOMS else "What could be done", BOLD)
    ]
    for (standing, group), share in zip(groups.items(), shares, strict=True):
        if not group:
            continue
        head = f"{GLYPHS[standing]} {len(group)} {_HEADS[standing]}"
        shown.append(line(head, f"bold {COLOURS[standing]}"))
        # What has just moved is always among those shown.
        first = sorted(group, key=lambda p: p.id not in moved)[:share]
        shown += [_row(session, p, width, moved) for p in group if p in first]
        if share < len(group):
            shown.append(line(f"  ... {len(group) - share} more", FAINT))
    return lines([*shown, "", *[part for part in foot if part]])


def _shared(counts: Sequence[int], room: int) -> list[int]:
    """Share lines out: a head for each group, what fits first, then open, a few ruled out."""
    left = room - sum(2 for count in counts if count)
    shares = [0] * len(counts)
    least = min(counts[-1], 3, max(0, left // 4))
    for place in (0, 1):
        shares[place] = max(0, min(counts[place], left - least))
        left -= shares[place]
    shares[2] = max(0, min(counts[2], left))
    return shares


def _row(session: LookSession, proposal: Proposal, width: int, moved: set[str]) -> Content:
    style = COLOURS[proposal.standing]
    mark = plain(f"{GLYPHS[proposal.standing]}{'›' if proposal.id in moved else ' '}", f"bold {style}")
    short = _short(session, proposal)
    room = width - 2
    title = line(proposal.title, BOLD if proposal.id in moved else "")
    if not short:
        return joined(mark, cell(title, room))
    # The reason gets two parts of five, and what a short title leaves over.
    reason = min(len(short), max(12, room * 2 // 5, room - title.cell_length - 1))
    return joined(mark, cell(title, room - reason - 1), " ", cell(line(short, FAINT), reason))


def _short(session: LookSession, proposal: Proposal) -> str:
    if proposal.standing == "open" and proposal.waiting_on:
        more = len(proposal.waiting_on) - 1
        first = session.guide.questions[proposal.waiting_on[0]].name
        return f"{first} +{more}" if more else first
    if proposal.standing == "ruled_out" and proposal.because:
        return proposal.because[0]
    return ""


def _moved_line(session: LookSession) -> Content:
    counts: dict[Standing, int] = {}
    for one in session.moved:
        if one.turned:
            counts[one.after] = counts.get(one.after, 0) + 1
    said = [f"{count} {WORDS[after]}" for after, count in counts.items()]
    if replaced := sum(not one.turned for one in session.moved):
        said.append(f"{replaced} changed place")
    return line(f"› moved just now: {', '.join(said)}", BOLD) if said else plain("")


def _settled_line(session: LookSession) -> Content:
    if not session.is_asked_known:
        return plain("choosing the next question ...", FAINT)
    left = len(session.asked)
    if not left:
        return plain("= settled: nothing more would change it", "bold $text-success")
    if left < len(_NUMBERS):
        return plain(f"{_NUMBERS[left]} more would settle it", BOLD)
    return plain(f"{left} questions could still change it", FAINT)
