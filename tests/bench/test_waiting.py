"""Waiting times put together: nothing lost, nothing too early, never longer than one after the other."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.waiting import Waits, waiting_times
from casebook.guide.pack import Wait


def _wait(what: str, least: int, most: int) -> Wait:
    return Wait(what, "", Fraction(least), Fraction(most))


def test_what_is_on_order_comes_meanwhile() -> None:
    """A part is ordered at once and holds nothing up but its own damage."""
    times = waiting_times(
        [Waits(1, True, (_wait("cure", 24, 24),)), Waits(2, True, (_wait("part", 100, 300),))],
        lambda *_: True,
    )
    assert [one.damage for one in times.on_order] == [2]
    assert [times.least, times.most] == [100, 300]


WAITS = st.lists(
    st.builds(
        lambda what, least, more: _wait(what, least, least + more),
        st.sampled_from(["cure", "rest", "dry", "part"]), st.integers(1, 500), st.integers(0, 500),
    ), max_size=3,
)  # fmt: skip


@given(st.lists(WAITS, min_size=1, max_size=6), st.sets(st.tuples(st.integers(1, 6), st.integers(1, 6))))
def test_waiting_together_never_takes_longer(lists: list[list[Wait]], pairs: set[tuple[int, int]]) -> None:
    """Every wait stands in exactly one place, nothing before what it waits for, and the whole is no longer
    than one after the other and no shorter than the longest damage."""
    damages = [Waits(n, True, tuple(waits)) for n, waits in enumerate(lists, 1)]
    times = waiting_times(damages, lambda later, earlier: (later, earlier) in pairs)
    placed = {one.damage: place for place, r in enumerate(times.rounds) for one in r.damages}
    listed = [w for r in times.rounds for one in r.damages for w in one.waits]
    listed += [w for one in times.on_order for w in one.waits]
    assert sorted(map(repr, listed)) == sorted(repr(w) for waits in lists for w in waits)
    assert all(
        placed[later] > placed[earlier]
        for later, earlier in pairs
        if later > earlier and later in placed and earlier in placed
    )
    hands = [[w for w in waits if w.what != "part"] for waits in lists]
    longest = max(sum((w.least for w in waits), Fraction(0)) for waits in hands)
    one_by_one = sum((w.least for waits in lists for w in waits), Fraction(0))
    assert longest <= times.least <= one_by_one
    assert times.least <= times.most
