"""Lengths as a repairer types them."""

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.quantity import NotUnderstood, Unit, read_length, show_length

SAME = Fraction("4.826")
# Signs that quantities are typed with, so that random text comes near to meaning something.
SIGNS = "0123456789.,/ #-+±x*mMinthoudrlBASWtpi'\"½%°CFg"


@pytest.mark.parametrize(
    "typed",
    [
        "0.190 in", ".190 in", '.190"', '0.190"', "0.19″", "0,190 in", "0.190 inch", "0.19in.", "190 thou",
        "190thou", "4.826 mm", "4,8260mm", "  4.826   MM ", "0.4826 cm", "19/100",
        "19/100 in", "４.826 mm", ".190''",
    ],
)  # fmt: skip
def test_every_spelling_of_a_length_gives_the_same_exact_value(typed: str) -> None:
    assert read_length(typed).value == SAME


def test_two_spellings_of_one_length_are_equal_readings_that_keep_what_was_typed() -> None:
    inch, metric = read_length("0.190 in"), read_length("4.826 mm")
    assert inch == metric
    assert (inch.typed, metric.typed) == ("0.190 in", "4.826 mm")


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("3/16", "3/16"),
        ("3 / 16", "3/16"),
        ("3⁄16", "3/16"),
        ("½", "1/2"),
        ("1 3/16 in", "19/16"),
        ("1-3/16 in", "19/16"),
        ("1 3/16", "19/16"),
        ("1½ in", "3/2"),
        ("4 ¾ in", "19/4"),
        ("1/48", "1/48"),
        ("3/16 drill", "3/16"),
    ],
)
def test_a_fraction_that_names_no_unit_is_inches(typed: str, inches: str) -> None:
    assert read_length(typed).value == Fraction(inches) * Fraction("25.4")


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("#47", "0.0785"),
        ("# 47", "0.0785"),
        ("No. 47", "0.0785"),
        ("no 47", "0.0785"),
        ("№ 47", "0.0785"),
        ("47 drill", "0.0785"),
        ("#3", "0.213"),
        ("letter F", "0.257"),
        ("F drill", "0.257"),
        ("drill f", "0.257"),
    ],
)
def test_drills_are_read_by_their_names(typed: str, inches: str) -> None:
    assert read_length(typed).value == Fraction(inches) * Fraction("25.4")


@pytest.mark.parametrize(
    ("typed", "low", "high"),
    [
        ("goes #21 not #20", "4.0386", "4.0894"),
        ("goes No. 21, not No. 20", "4.0386", "4.0894"),
        ("go #21 no-go #20", "4.0386", "4.0894"),
        ("goes 4.0 mm not 4.1 mm", "4", "4.1"),
        ("goes 4.0 not 4.1 mm", "4", "4.1"),
        ("5.2mm+-0.05", "5.15", "5.25"),
        ("5.2 mm ± 0.05 mm", "5.15", "5.25"),
        ("5.2 mm +/- 0.05", "5.15", "5.25"),
        ("205 thou +- 2", "5.1562", "5.2578"),
        ("3/16 +- 0.001", "4.7371", "4.7879"),
        ("5.2 mm +- 2 thou", "5.1492", "5.2508"),
    ],
)
def test_a_reading_may_carry_its_own_interval(typed: str, low: str, high: str) -> None:
    reading = read_length(typed)
    assert (reading.low, reading.high) == (Fraction(low), Fraction(high))
    assert reading.value == (reading.low + reading.high) / 2
    assert reading.own_error
    assert reading.blurred(Fraction(1)) == reading


def test_a_reading_without_an_error_of_its_own_takes_that_of_the_tool() -> None:
    blurred = read_length("5 mm").blurred(Fraction(3, 100))
    assert (blurred.low, blurred.value, blurred.high) == (Fraction("4.97"), Fraction(5), Fraction("5.03"))


@pytest.mark.parametrize(("bare", "mm"), [("mm", "5"), ("in", "127"), ("thou", "0.127")])
def test_a_bare_number_is_in_the_unit_of_the_shop(bare: Unit, mm: str) -> None:
    assert read_length("5", bare=bare).value == Fraction(mm)


def test_a_bare_zero_needs_no_unit() -> None:
    assert read_length("0").value == 0


@pytest.mark.parametrize("bare", ["mm", "thou"])
def test_a_bare_fraction_is_inches_whatever_the_shop_shows(bare: Unit) -> None:
    assert read_length("3/16", bare=bare) == read_length("3/16 in")


@pytest.mark.parametrize(
    ("typed", "both"),
    [
        ("1,250 thou", ("1.250", "1250")),
        ("4,826 mm", ("4.826", "4826")),
        ("5 mil", ("thousandths of an inch", "millimetres")),
        ("2 tenths", ("millimetre", "thou")),
        ("5'", ("feet", "inches")),
        ("5", ("mm", "inches")),
    ],
)
def test_what_could_mean_two_things_is_asked_back_with_both(typed: str, both: tuple[str, str]) -> None:
    with pytest.raises(NotUnderstood) as refused:
        read_length(typed)
    assert all(meaning in str(refused.value) for meaning in both)


@pytest.mark.parametrize(
    "typed",
    [
        "", "   ", "-5 mm", "−5 mm", "nan", "nan mm", "inf", "infinity mm", "1e308", "1e308 mm", "1e3 mm",
        "0x10 mm", "5 furlong", "5 m", "5 %", "1/0", "1/0 in", "1 5/4 in", "99999999 mm", "5..2 mm",
        "5.2.1 mm",
        "1.250.000 mm", "5 mm 3", "5-6 mm", "F", "mm", "in", "#0", "#81", "#", "5.2mm+-6mm", "5.2mm+-",
        "+-1 mm",
        "5.2 mm +- 10%", "goes #20 not #21", "goes #20 not #20", "goes #20", "٣ mm", "5\x00mm", "5\x1b[2Jmm",
        "\u202e5 mm", "five mm", "9" * 100 + " mm", "M2.5", "3-48", "6BA", "48 tpi", "2.8 mm x 48 tpi",
        "'; drop",
        "__import__('os')", "5;mm", "1_000 mm", "½½ in", "= 5 mm",
    ],
)  # fmt: skip
def test_what_is_no_size_gets_one_clear_line(typed: str) -> None:
    with pytest.raises(NotUnderstood) as refused:
        read_length(typed, bare="mm")
    said = str(refused.value)
    assert "\n" not in said
    assert len(said) < 200
    assert refused.value.instead


@pytest.mark.parametrize(
    ("typed", "diameter", "pitch"),
    [("3-48", "2.5146", "127/240"), ("M2.5", "2.5", "0.45"), ("6BA", "2.8", "0.53")],
)
def test_a_thread_stands_for_its_diameter_or_its_pitch(typed: str, diameter: str, pitch: str) -> None:
    assert read_length(typed, of="thread_diameter").value == Fraction(diameter)
    assert read_length(typed, of="thread_pitch").value == Fraction(pitch)


def test_threads_per_inch_are_a_pitch_and_nothing_else() -> None:
    assert read_length("48 tpi", of="thread_pitch").value == Fraction("25.4") / 48
    with pytest.raises(NotUnderstood):
        read_length("48 tpi", of="thread_diameter")


def test_a_number_is_a_drill_for_a_size_but_a_screw_for_a_thread() -> None:
    assert read_length("#3").value == Fraction("0.213") * Fraction("25.4")
    assert read_length("#3", of="thread_diameter").value == Fraction("0.099") * Fraction("25.4")
    with pytest.raises(NotUnderstood):
        read_length("#3", of="thread_pitch")


@pytest.mark.parametrize("typed", ["0", "0 mm", "0 tpi"])
def test_a_thread_has_some_size(typed: str) -> None:
    with pytest.raises(NotUnderstood):
        read_length(typed, of="thread_pitch")


@given(st.integers(0, 50_000_000))
def test_any_unit_spelling_of_a_length_gives_the_same_fraction(tenths_of_a_micron: int) -> None:
    """A length written out in mm, cm, inches and thou, with point or comma, is one exact number."""
    whole = Fraction(tenths_of_a_micron, 10_000) * Fraction("25.4")

    def written(number: Fraction, comma: bool) -> str:
        digits = f"{int(number * 10**8):09d}"
        return f"{digits[:-8]}{',' if comma else '.'}{digits[-8:]}"

    inches = whole / Fraction("25.4")
    spelt = [(inches, "in"), (inches, '"'), (inches * 1000, "thou"), (whole, "mm"), (whole / 10, "cm")]
    if whole > 10_000:
        return
    for number, unit in spelt:
        for comma in (False, True):
            assert read_length(f"{written(number, comma)} {unit}").value == whole


@given(st.integers(1, 10**6), st.integers(1, 10**4))
def test_a_fraction_is_read_exactly(above: int, below: int) -> None:
    inches = Fraction(above, below)
    if inches < 300:
        assert read_length(f"{above}/{below} in").value == inches * Fraction("25.4")


@given(st.text(max_size=70) | st.text(SIGNS, max_size=14))
def test_nothing_typed_ends_in_anything_but_a_reading_or_a_refusal(typed: str) -> None:
    with suppress(NotUnderstood):
        reading = read_length(typed, bare="mm")
        assert 0 <= reading.low <= reading.value <= reading.high


@pytest.mark.parametrize(
    ("mm", "unit", "fine", "shown"),
    [
        (4.826, "mm", False, "4.83 mm"),
        (4.826, "in", False, "0.190 in"),
        (4.826, "thou", False, "190 thou"),
        (4.826, "mm", True, "4.826 mm"),
        (Fraction("0.0785") * Fraction("25.4"), "in", True, "0.0785 in"),
        (-0.001, "mm", False, "0.00 mm"),
    ],
)
def test_a_length_is_shown_as_well_as_it_is_worth(mm: float, unit: Unit, fine: bool, shown: str) -> None:
    assert show_length(mm, unit, fine=fine) == shown
