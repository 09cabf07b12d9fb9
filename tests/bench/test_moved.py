"""What an answer moved: what turned, and what changed its place alone."""

from __future__ import annotations

import pytest

from casebook.bench.look import LookSession, Moved
from tests.guide.shipped import guide_of, panel


def _look(name: str) -> LookSession:
    """A look with the answers of a panel case."""
    case = next(case for case in panel() if case.name == name)
    answers = {str(question): answer for question, answer in case.answers.items()}
    return LookSession(guide_of(case.family), answers, lambda *_: None)


def test_another_aim_tells_what_changed_its_place_alone() -> None:
    """Two strategies that fit change places when the owner only shows the thing, and change back."""
    look = _look("A stripped round hole with little slack takes a packing on the eve of a concert")
    look.answer("owner_aim", "sell_it")
    look.answer("owner_aim", "display_only")
    assert look.moved == (
        Moved("post_leave_and_document", "fits", "fits", up=1),
        Moved("post_shim_pack", "fits", "fits", up=-1),
    )
    assert look.undo() == "owner_aim"
    assert {(one.strategy, one.up) for one in look.moved} == {
        ("post_leave_and_document", -1),
        ("post_shim_pack", 1),
    }


@pytest.mark.parametrize("aim", ["play_daily", "display_only", "sell_it"])
def test_what_moved_is_what_differs(aim: str) -> None:
    """What turned is told with both standings; places are counted among those that stand as they stood."""
    look = _look("Solder that is soft or not known is handled as leaded and possibly worse")
    before = {p.id: p.standing for p in look.advice.proposals}
    order = [p.id for p in look.advice.proposals]
    look.answer("owner_aim", aim)
    after = {p.id: p.standing for p in look.advice.proposals}
    turned = {one.strategy: (one.before, one.after) for one in look.moved if one.turned}
    assert turned == {id: (before[id], after[id]) for id in before if before[id] != after[id]}
    kept = [id for id in order if before[id] == after[id] != "ruled_out"]
    risen = {one.strategy: one.up for one in look.moved if not one.turned}
    was_at = {kept.index(id) - risen.get(id, 0): id for id in kept}
    now = [p.id for p in look.advice.proposals if p.id in kept]
    assert [was_at[place] for place in range(len(kept))] == now
