"""The forms for what a job waits for, what the wood reads, what belongs to the visit, and handing it back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

from casebook.bench.desk import Desk
from casebook.bench.job_waits import wait_names
from casebook.bench.typed import NotTyped, read_coming, read_until
from casebook.records.case import Case
from casebook.screens.consent_form import PAYS
from casebook.screens.form import Entry, Form

_WAITS = (
    ("owner", "the owner's answer"),
    ("part", "a part"),
    ("wood", "wood to rest"),
    ("glue", "glue to cure"),
    ("me", "my hands"),
)
_WIDTHS = 3


def wait_form(desk: Desk, number: str, damage: int) -> Form:
    """Make the form that lets a case wait from now on; `damage` gives the cure or rest of its strategy."""
    ahead = desk.waits_of(number, damage)

    def take(written: dict[str, str]) -> None:
        until, hours = read_until(written["until"], desk.today)
        note = written["note"].strip()
        desk.wait(number, written["what"], until=until, hours=hours, note=note, damage=damage)

    entries = [
        Entry("what", "It waits for", "pick", choices=_WAITS, needed=True),
        Entry("until", "Until", hint="friday, in 10 days, 24 h; empty: as the plan says"),
        Entry("note", "Which, what", hint="which part, which glue, what was asked"),
    ]
    return Form(f"{number} waits", entries, take, f"The plan: {', then '.join(ahead)}." if ahead else "")


def over_form(desk: Desk, case: Case) -> Form:
    """Make the form that ends one of several waits."""

    def take(written: dict[str, str]) -> None:
        desk.stop_waiting(case.number, written["what"], written["note"].strip())

    waits = dict(_WAITS)
    entries = [
        Entry("what", "It is over", "pick", choices=tuple((one, waits[one]) for one in wait_names(case))),
        Entry("note", "Note", hint="what was answered, what came"),
    ]
    return Form(f"{case.number} waits no more", entries, take)


def weigh_form(desk: Desk, case: Case, then: Callable[[str], None]) -> Form:
    """Make the form for a reading of the wood; `then` gets whether it rests, in words."""
    last = case.wood_readings[-1] if case.wood_readings else None
    places = len(last.widths) if last else _WIDTHS
    before = ", ".join(filter(None, (last.weight, *last.widths))) if last else ""

    def take(written: dict[str, str]) -> None:
        widths = [written[f"width{place}"].strip() for place in range(1, _WIDTHS + 1)]
        if any(later and not earlier for earlier, later in pairwise(widths)):
            raise NotTyped("a width is left out: type them in the same order every time")
        rest = desk.weigh(
            case.number,
            written["weight"].strip(),
            humidity=written["humidity"].strip(),
            widths=tuple(filter(None, widths)),
            part=written["part"].strip(),
        )
        then(rest.says)

    entries = [
        Entry("weight", "Weight", hint="182.4 g"),
        Entry("humidity", "Room, percent", hint="48"),
        *[
            Entry(f"width{place}", f"Width {place}", hint=desk.unit if place <= places else "not before")
            for place in range(1, _WIDTHS + 1)
        ],
        Entry("part", "Which joint", value=last.part if last else "", hint="where more than one is watched"),
    ]
    note = f"Last on {last.read_on}: {before}" if last else "Always the same scale, the same places."
    return Form(f"{case.number}: the wood today", entries, take, note)


def visit_form(desk: Desk, case: Case) -> Form:
    """Make the form for what belongs to the visit: when it is needed, what came with it, what was lent."""
    visit = case.visit

    def take(written: dict[str, str]) -> None:
        lent = written["loaned_out"].strip()
        told = replace(
            visit,
            needed_by=read_coming(written["needed_by"], desk.today),
            needed_for=written["needed_for"].strip(),
            came_in_with=written["came_in_with"].strip(),
            pays=written["pays"],
            loaned_out=lent,
            loaned_since=(visit.loaned_since or desk.today) if lent else None,
            loaned_until=read_coming(written["loaned_until"], desk.today) if lent else None,
        )
        desk.amend(case, replace(case, visit=told))

    entries = [
        Entry("needed_by", "Needed by", value=str(visit.needed_by or ""), hint="friday, 2026-12-04"),
        Entry("needed_for", "What for", value=visit.needed_for, hint="a concert, school"),
        Entry("came_in_with", "Came in with", value=visit.came_in_with, hint="case, mouthpiece, loose parts"),
        Entry("loaned_out", "Lent meanwhile", value=visit.loaned_out),
        Entry("loaned_until", "Lent until", value=str(visit.loaned_until or "")),
        Entry("pays", "Who pays", "pick", value=visit.pays, choices=PAYS),
    ]
    return Form(f"{case.number}: the visit", entries, take)


def collected_form(desk: Desk, case: Case, then: Callable[[list[str]], None]) -> Form:
    """Make the form for handing it back; `then` gets what goes back with it and what comes back here."""
    visit = case.visit

    def take(written: dict[str, str]) -> None:
        paid = written["paid"].strip()
        if paid and (paid, written["how"].strip()) != (visit.paid, visit.paid_how):
            desk.paid(case.number, paid, written["how"].strip())
        then(desk.collected(case.number))

    goes = [f"Goes back with it: {visit.came_in_with}."] if visit.came_in_with else []
    goes += [f"Comes back to the shop: {visit.loaned_out}."] if visit.loaned_out else []
    entries = [
        Entry("paid", "Paid", value=visit.paid, hint="empty: nothing yet"),
        Entry("how", "How", value=visit.paid_how, hint="cash, card, by bill"),
    ]
    return Form(f"{case.number} is fetched", entries, take, " ".join(goes))
