"""Known instruments, found by what somebody remembers of them."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.known import matching
from casebook.records.case import Instrument, InstrumentRow

CLARINET = InstrumentRow(
    Instrument("clarinet", "B flat, about fifty years old", "grenadilla", "No. 7"),
    "card 4", None, ("B-0301",), ("Throat A key post loose",),
)  # fmt: skip
OBOE = InstrumentRow(Instrument("oboe", "ring keys"), "card 12", None, ("B-0302",), ("Crack",))
ROWS = [CLARINET, OBOE]


def test_a_beginning_an_owner_a_number_and_a_slip_find_it() -> None:
    """Every word typed must stand there; capitals are nothing."""
    assert matching(ROWS, "Clar fift") == [CLARINET]
    assert matching(ROWS, "card 12") == [OBOE]
    assert matching(ROWS, "b-0301") == [CLARINET]
    assert matching(ROWS, "throat clarinte") == [CLARINET]
    assert matching(ROWS, "clarinet crack") == []
    assert matching(ROWS, " ") == ROWS


@given(
    st.sampled_from(["clarinet", "flat", "fifty", "grenadilla", "card", "throat", "post", "loose"]),
    st.integers(1, 10),
)
def test_any_beginning_of_a_word_keeps_the_instrument(word: str, letters: int) -> None:
    """Letter by letter, as it is typed, it never drops out of the list."""
    assert CLARINET in matching(ROWS, word[:letters])


@given(st.text(max_size=30))
def test_whatever_is_typed_keeps_some_of_the_list_in_its_order(typed: str) -> None:
    """Nothing typed is a syntax."""
    assert [row for row in ROWS if row in matching(ROWS, typed)] == matching(ROWS, typed)
