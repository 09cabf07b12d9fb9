"""The page of an instrument in words: what is known of it, its visits as rows, and what was done where."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from textual.content import Content

from casebook.bench.case_text import answer_text
from casebook.bench.desk import Desk
from casebook.bench.visits import DoneThere, InstrumentPage, VisitOf
from casebook.records.case import Instrument
from casebook.screens.plain import BOLD, FAINT, cell, joined, line, lines, plain
from casebook.screens.rows import Row

# How it turned out -> glyph, word, colour. Only what let go by itself speaks against a repair.
_TURNED_OUT = {
    "holding": ("+", "holding", "$text-success"),
    "let_go": ("x", "let go", "$text-error"),
    "knocked_again": ("~", "knocked again", ""),
    "altered_by_others": ("~", "altered by others", ""),
    "new_fault_elsewhere": ("~", "new fault elsewhere", ""),
    "not_seen": ("?", "not seen since", "$text-warning"),
}


def thing_name(thing: Instrument) -> str:
    """Name an instrument in a few words."""
    return ", ".join(filter(None, (thing.kind or "instrument", thing.description)))


def known_of(desk: Desk, page: InstrumentPage) -> Content:
    """Word what stays true of an instrument from visit to visit."""
    intake = desk.library.intake()
    stays = "; ".join(
        f"{intake.questions[id].name}: {answer_text(intake, id, answer)}"
        for id, answer in page.known.items()
        if id in intake.questions
    )
    facts = (
        ("Materials", page.instrument.materials),
        ("Marks", page.instrument.marks),
        ("Brought by", page.owner),
        ("Stays true", stays or "nothing answered yet"),
    )
    return lines([joined(plain(f"{name:11}", FAINT), plain(text)) for name, text in facts if text])


def visit_rows(page: InstrumentPage) -> list[Row]:
    """Give the visits as rows, each with its repairs below it; a repair's id is the case and the damage."""
    rows: list[Row] = []
    for visit in page.visits:
        day = str(visit.taken_in or "(no date)")
        rows.append((visit.case, [visit.case, day, line(visit.title, BOLD), _came(visit)]))
        for done in visit.done:
            place = f"  {done.damage}  {done.place or done.family}"
            rows.append((f"{done.case} {done.damage}", ["", str(done.on or ""), place, _held(done)]))
    return rows


def by_place(page: InstrumentPage, case: str, damage: int) -> Content:
    """Word what was done place by place, the place of the marked repair or visit first."""

    def far(entry: tuple[str, list[DoneThere]]) -> int:
        here = [one for one in entry[1] if one.case == case]
        return 0 if any(one.damage == damage for one in here) else 1 if here else 2

    places = sorted(page.by_place.items(), key=far)
    parts: list[Content] = [plain("Done, place by place", BOLD)]
    for place, repairs in places:
        parts.append(line(place or "no place written down", BOLD))
        parts.extend(_told(repairs))
    if not places:
        parts = [plain("No damage was written down on it yet.", FAINT)]
    return lines(parts)


def _told(repairs: Iterable[DoneThere]) -> Iterator[Content]:
    for one in repairs:
        number = f"{one.case}{f'/{one.damage}' if one.damage > 1 else ''}"
        head = joined("  ", cell(number, 10), " ", cell(str(one.on or ""), 10), "  ")
        undone = "advised, declined" if one.declined else "nothing done yet"
        yield joined(head, plain(one.done or f"{one.family}: {undone}"))
        if one.outcome:
            glyph, _, colour = _TURNED_OUT[one.turned_out]
            yield joined(" " * 25, plain(f"{glyph} {one.outcome}", colour))


def _came(visit: VisitOf) -> Content:
    state = "finished" if visit.finished else "on the bench"
    if visit.comes_back_from:
        return line(f"back from {visit.comes_back_from}, {state}", "$text-warning")
    return line(state, FAINT)


def _held(done: DoneThere) -> Content:
    if done.turned_out:
        glyph, word, colour = _TURNED_OUT[done.turned_out]
        return line(f"{glyph} {word}", colour)
    if done.declined:
        return line("- declined", FAINT)
    return line("■ done" if done.on else "□ not done yet", FAINT)
