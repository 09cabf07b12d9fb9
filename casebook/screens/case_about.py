"""A case in words: what came in, what it waits for, what was agreed, how far each damage has come."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from casebook.bench.case_text import answer_text
from casebook.bench.consent import PAYER_CAUTIONS, payer_of
from casebook.bench.desk import Desk
from casebook.bench.stage import STAGES, stage_of
from casebook.bench.wood_rest import day_words
from casebook.records.case import Case, Damage
from casebook.screens.plain import BOLD, FAINT, WRONG, cell, joined, line, lines, plain

_MARKS = {"taken in": "□", "looked at": "?", "decided": "=", "done": "■", "looked after": "■"}


def about(desk: Desk, case: Case) -> Content:
    """Word a case; what calls for something to be done stands first."""
    shown = [joined(cell(plain(name, FAINT), 13), " ", text) for name, text in _facts(desk, case) if text]
    intake = desk.library.intake()
    known = [
        f"{intake.questions[id].name}: {answer_text(intake, id, answer)}"
        for id, answer in case.answers.items()
        if id in intake.questions
    ]
    parts = (
        ("In the owner's words", case.owner_words),
        ("Intake", "; ".join(known) or "nothing answered yet: i asks"),
    )
    shown += [joined(plain(f"{name}  ", FAINT), plain(text)) for name, text in parts if text]
    return lines(shown)


def _facts(desk: Desk, case: Case) -> Iterator[tuple[str, Content]]:
    visit, seen = case.visit, case.instrument
    for held in desk.held_up(case):
        late = not held.over and held.day is not None and held.day < desk.today
        yield "Waits for", line(f"{'! ' * late}{held.what}: {held.says}", WRONG if late else "")
    if visit.needed_by and not case.finished:
        late = visit.needed_by < desk.today
        text = f"{day_words(visit.needed_by)}{f', {visit.needed_for}' if visit.needed_for else ''}"
        yield "Needed by", line(f"{'! late: ' * late}{text}", WRONG if late else "")
    for caution in dict.fromkeys(PAYER_CAUTIONS.get(payer, "") for payer in _payers(case)):
        yield "Mind", plain(caution, "$text-warning") if caution else plain("")
    yield "Instrument", plain(", ".join(filter(None, (seen.kind, seen.description))))
    yield "Materials", plain(seen.materials)
    yield "Marks", plain(seen.marks)
    yield "Taken in", plain(f"{case.taken_in or '(no date)'}{f', {case.owner}' if case.owner else ''}")
    yield "Came in with", plain(visit.came_in_with)
    lent = f", until {day_words(visit.loaned_until)}" if visit.loaned_until else ""
    yield "Lent", plain(f"{visit.loaned_out}{lent}" if visit.loaned_out else "")
    yield "Comes back", plain(f"from {visit.comes_back_from}" if visit.comes_back_from else "")
    handed = (("ready", visit.ready_on), ("owner told", visit.told_on), ("fetched", visit.collected_on))
    told = [f"{what} {day_words(day)}" for what, day in handed if day]
    if visit.paid:
        told.append(f"paid {visit.paid}{f', {visit.paid_how}' if visit.paid_how else ''}")
    yield "Handed back", plain(", ".join(told))


def _payers(case: Case) -> list[str]:
    return [case.visit.pays, *(payer_of(case, damage) for damage in case.damages)]


def damage_cells(desk: Desk, damage: Damage) -> list[Content | str]:
    """Word a damage as a row: on what, where, how far, what was agreed, what was chosen."""
    stage = stage_of(desk.library, damage)
    family = desk.library.packs.get(damage.family)
    chosen = ""
    if damage.choice:
        strategy = desk.strategy(damage.family, damage.choice.strategy) if family else None
        chosen = strategy.title if strategy else damage.choice.strategy
    style = FAINT if STAGES.index(stage) > STAGES.index("decided") else BOLD
    return [
        family.title if family else damage.family,
        damage.place or damage.story,
        line(f"{_MARKS[stage]} {stage}", style),
        agreed(damage),
        chosen,
    ]


def agreed(damage: Damage) -> str:
    """Word what was said to a damage last: ``yes 90``, ``declined``, ``later``; empty while nobody asked."""
    if not damage.consents:
        return ""
    last = damage.consents[-1]
    return "declined" if last.said == "no" else f"{last.said} {last.up_to}".strip()
