"""Two people on one case: nothing of either is lost, and what both changed is shown and decided."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as some

from casebook.bench.at_desk import NotPossible
from casebook.bench.both_sides import BothChanged
from casebook.bench.desk import Desk
from casebook.records.case import Case, Choice, Instrument
from tests.bench.shop_days import LIBRARY, Days


def _taken_in(desk: Desk) -> Case:
    number = desk.take_in("Crack in the barrel", Instrument("clarinet", marks="No. 7")).number
    desk.add_damage(number, "cracks", "barrel")
    return desk.book.case(number)


def test_what_each_changed_alone_is_kept_from_both(days: Days) -> None:
    """Another damage, an intake answer and a mark of theirs stay beside my title, owner's words and answer."""
    desk = days.on("2026-02-01")
    base = _taken_in(desk)
    desk.add_damage(base.number, "springs", "low E")
    desk.book.save_intake_answer(base.number, "white_part", "none_seen")
    theirs = desk.book.case(base.number)
    desk.amend(theirs, replace(theirs, instrument=replace(theirs.instrument, marks="No. 8")))
    mine = replace(
        base, title="Crack, barrel", owner_words="It was cold.", answers={"instrument_kind": "clarinet"}
    )
    stored = desk.amend(base, replace(mine, instrument=replace(mine.instrument, materials="grenadilla")))
    assert (stored.title, stored.owner_words) == ("Crack, barrel", "It was cold.")
    assert (stored.instrument.marks, stored.instrument.materials) == ("No. 8", "grenadilla")
    assert stored.answers == {"white_part": "none_seen", "instrument_kind": "clarinet"}
    assert [one.family for one in stored.damages] == ["cracks", "springs"]


def test_what_both_changed_is_told_in_words_and_nothing_is_written(days: Days) -> None:
    """Where, theirs and mine; what only one changed is no question."""
    desk = days.on("2026-02-01")
    base = _taken_in(desk)
    desk.record_work(base.number, 1, done="Pinned", hours=2.0)
    crack = base.damages[0]
    mine = replace(
        base, title="Crack, barrel", damages=(replace(crack, done="Banded", learned="Look earlier"),)
    )
    before = desk.book.case(base.number)
    with pytest.raises(BothChanged, match="somebody else changed this too: damage 1, done") as clash:
        desk.amend(base, mine)
    [differs] = clash.value.differs
    assert (differs.where, differs.theirs, differs.mine) == ("damage 1, done", "Pinned", "Banded")
    assert desk.book.case(base.number) == before
    kept = desk.settle(clash.value, "theirs")
    assert (kept.title, kept.damages[0].done, kept.damages[0].learned, kept.damages[0].hours) == (
        "Crack, barrel", "Pinned", "Look earlier", 2.0,
    )  # fmt: skip


def test_mine_replaces_only_what_both_changed_and_not_what_was_changed_once_more(days: Days) -> None:
    """Keeping mine leaves their other damage; a third edit after both sides were shown is shown again."""
    desk = days.on("2026-02-01")
    base = _taken_in(desk)
    desk.amend(base, replace(base, title="Crack in barrel and joint"))
    desk.add_damage(base.number, "springs", "low E")
    with pytest.raises(BothChanged) as first:
        desk.amend(base, replace(base, title="Crack, barrel"))
    now = desk.book.case(base.number)
    desk.amend(now, replace(now, title="Two cracks"))
    with pytest.raises(BothChanged) as second:
        desk.settle(first.value, "mine")
    assert [one.theirs for one in second.value.differs] == ["Two cracks"]
    kept = desk.settle(second.value, "mine")
    assert (kept.title, len(kept.damages)) == ("Crack, barrel", 2)


def test_an_answer_and_a_decision_are_never_put_together_out_of_two(days: Days) -> None:
    """A reading is one person's, with its unit and error; so is a decision with its reason."""
    desk = days.on("2026-02-01")
    base = _taken_in(desk)
    number, crack = base.number, base.damages[0]
    desk.book.choose(number, 1, Choice("pin", reason="it moves"))
    desk.book.save_intake_answer(number, "width", {"value": "5.2", "unit": "mm"})
    mine = replace(
        base,
        answers={"width": {"value": "5.4", "unit": "mm", "error": "0.1"}},
        damages=(replace(crack, choice=Choice("band")),),
    )
    with pytest.raises(BothChanged) as clash:
        desk.amend(base, mine)
    told = {one.where: (one.theirs, one.mine) for one in clash.value.differs}
    assert told["intake, width"] == ("value 5.2, unit mm", "value 5.4, unit mm, error 0.1")
    assert told["damage 1, choice"] == ("strategy pin, reason it moves", "strategy band")
    assert desk.settle(clash.value, "mine").damages[0].choice == Choice("band")


def test_a_date_that_cannot_be_is_refused_also_when_amending(days: Days) -> None:
    """Nothing is written."""
    desk = days.on("2026-02-01")
    base = _taken_in(desk)
    early = replace(base.damages[0], repaired_on=days.on("2026-01-01").today)
    with pytest.raises(NotPossible, match="is before it was taken in"):
        desk.amend(base, replace(base, damages=(early,)))
    assert desk.book.case(base.number) == base


_TEXT = some.sampled_from(("", "a", "b", "c"))


@given(base=some.tuples(_TEXT, _TEXT), theirs=some.tuples(_TEXT, _TEXT), mine=some.tuples(_TEXT, _TEXT))
def test_each_text_is_decided_by_itself(
    base: tuple[str, str], theirs: tuple[str, str], mine: tuple[str, str]
) -> None:
    """Who changed it alone wins; both to the same is no question; both otherwise is one, and either may stand."""

    def case(texts: tuple[str, str]) -> Case:
        return Case("D-1", owner=texts[0], damages=(), owner_words=texts[1])

    stored = {"case": case(theirs)}
    desk = Desk(_OneCase(stored), LIBRARY, date(2026, 2, 1))  # type: ignore[arg-type]
    clashes = [m not in (b, t) and t != b for b, t, m in zip(base, theirs, mine, strict=True)]
    alone = [m if t == b or m == t else t for b, t, m in zip(base, theirs, mine, strict=True)]
    if any(clashes):
        with pytest.raises(BothChanged) as clash:
            desk.amend(case(base), case(mine))
        assert len(clash.value.differs) == sum(clashes)
        assert stored["case"] == case(theirs)
        desk.settle(clash.value, "mine")
    else:
        desk.amend(case(base), case(mine))
    wanted = [m if both else a for m, both, a in zip(mine, clashes, alone, strict=True)]
    assert [stored["case"].owner, stored["case"].owner_words] == wanted


class _OneCase:
    """A book of one case, without a file."""

    def __init__(self, stored: dict[str, Case]) -> None:
        self._stored = stored

    def change(self, _: str, change: Callable[[Case], Case]) -> Case:
        self._stored["case"] = change(self._stored["case"])
        return self._stored["case"]
