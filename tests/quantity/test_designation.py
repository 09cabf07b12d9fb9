"""Threads by their names."""

import re
from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.quantity import NotUnderstood, read_thread, standard_threads

# Signs that quantities are typed with, so that random text comes near to meaning something.
SIGNS = "0123456789.,/ #-+±x*mMinthoudrlBASWtpi'\"½%°CFg"


@pytest.mark.parametrize(
    ("typed", "designation", "system"),
    [
        ("3-48", "3-48", "unified"),
        ("#3-48", "3-48", "unified"),
        ("No. 3-48", "3-48", "unified"),
        ("3 - 48", "3-48", "unified"),
        ("3-48 UNC", "3-48", "unified"),
        ("1/4-20", "1/4-20", "unified"),
        ('1/4"-20', "1/4-20", "unified"),
        ("00-90", "00-90", "unified"),
        ("M2.5", "M2.5x0.45", "metric"),
        ("m2,5", "M2.5x0.45", "metric"),
        ("M2.5x0.45", "M2.5x0.45", "metric"),
        ("M2.5 x 0.45", "M2.5x0.45", "metric"),
        ("M2.5×0,45 mm", "M2.5x0.45", "metric"),
        ("M6", "M6x1", "metric"),
        ("M2.5x0.4", "M2.5x0.4", "metric"),
        ("6BA", "6BA", "ba"),
        ("6 BA", "6BA", "ba"),
        ("No. 6 B.A.", "6BA", "ba"),
        ("1/8-40", "1/8-40 BSW", "whitworth"),
        ("1/4-20 Whit", "1/4-20 BSW", "whitworth"),
        ("2.8mm x 48tpi", "2.8mm x 48tpi", "other"),
        ("0.099in x 0.5mm", "0.099in x 0.5mm", "other"),
        ("#3 x 50 tpi", "#3 x 50 tpi", "other"),
    ],
)
def test_a_thread_is_known_by_any_of_its_names(typed: str, designation: str, system: str) -> None:
    thread = read_thread(typed)
    assert (thread.designation, thread.system) == (designation, system)


def test_a_major_diameter_by_pitch_keeps_both_exactly() -> None:
    thread = read_thread("2.8mm x 48tpi")
    assert (thread.major, thread.pitch) == (Fraction("2.8"), Fraction("25.4") / 48)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("3", "3-48 or 3-56"),
        ("#3", "3-48 or 3-56"),
        ("M7.3", "add the pitch"),
        ("M5.5", "M5.5x0.5"),
        ("48 tpi", "add the size"),
        ("3-50", "3-48, 3-56"),
        ("17BA", "0BA to 16BA"),
        ("1/4-20 UNF", "1/4-28"),
        ("2.8 x 0.53", "add the unit"),
        ("2.8 mm x 5 mm", "check both"),
        ("M2.5x9", "check both"),
        ("M0x0.2", "check both"),
        ("3/48", "type it as"),
        ("flute", "type it as"),
        ("", "type a value"),
    ],
)
def test_what_names_no_whole_thread_is_asked_back(typed: str, said: str) -> None:
    with pytest.raises(NotUnderstood, match=re.escape(said)):
        read_thread(typed)


@pytest.mark.parametrize("name", sorted(standard_threads()))
def test_every_thread_of_the_tables_is_found_by_its_own_name(name: str) -> None:
    assert read_thread(name) is standard_threads()[name]


@pytest.mark.parametrize("name", sorted(standard_threads()))
def test_every_thread_narrows_from_major_to_minor_and_says_where_it_is_from(name: str) -> None:
    thread = standard_threads()[name]
    assert thread.major > thread.pitch_diameter > thread.minor_diameter > 0
    assert thread.source
    assert 0 < thread.stress_area < float(thread.major) ** 2


@given(st.fractions(Fraction(40), Fraction(100)))
def test_the_hole_for_a_percent_leaves_that_percent(percent: Fraction) -> None:
    thread = read_thread("3-48")
    assert thread.percent(thread.hole(percent)) == percent


@given(st.text(max_size=70) | st.text(SIGNS, max_size=14))
def test_nothing_typed_ends_in_anything_but_a_thread_or_a_refusal(typed: str) -> None:
    with suppress(NotUnderstood):
        assert read_thread(typed).minor_diameter > 0
