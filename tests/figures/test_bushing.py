"""The bushing: its formulas, its checks, its ways out, and what it refuses."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.figures import worksheet
from casebook.figures.as_text import in_unit
from casebook.figures.inputs import BadInput, Inputs, read, take
from casebook.figures.worksheet import Result
from casebook.quantity import Reading
from tests.figures.worked import margin, value, work

SHEET = worksheet("bushing")
_TYPED = {
    "flange": "6.35mm", "thread": "3-48", "engaged": "3mm", "hole": "5.2mm", "body": "27mm", "wall": "6.2mm",
    "seat": "recessed", "flange_thickness": "0.8mm", "tone_hole": "4mm",
}  # fmt: skip


def run(error: str = "0", **typed: str) -> Result:
    """Work the worksheet on what was typed; an empty string leaves an input of the usual ones out."""
    given = {name: text for name, text in {**_TYPED, **typed}.items() if text}
    return work("bushing", error, **given)


def _mm(low: str, high: str) -> st.SearchStrategy[Fraction]:
    return st.fractions(Fraction(low), Fraction(high), max_denominator=1000)


@given(
    flange=_mm("3", "12"), hole=_mm("2", "9"), off=_mm("0", "0.6"), engaged=_mm("0.5", "6"),
    body=_mm("20", "50"), wall=_mm("2", "9"), thick=_mm("0.3", "1.5"), tone=_mm("0.5", "9"),
    seat=st.sampled_from(["recessed", "proud"]),
)  # fmt: skip
def test_figures_follow_the_agreed_formulas(
    flange: Fraction, hole: Fraction, off: Fraction, engaged: Fraction, body: Fraction, wall: Fraction,
    thick: Fraction, tone: Fraction, seat: str,
) -> None:  # fmt: skip
    """Every figure and margin equals the formula written out plainly, with the usual settings."""
    lengths = {
        "flange": flange, "hole": hole, "off_centre": off, "engaged": engaged, "body": body, "wall": wall,
        "flange_thickness": thick, "tone_hole": tone,
    }  # fmt: skip
    typed = {name: f"{float(mm)!r} mm" for name, mm in lengths.items()} | {"seat": seat, "thread": "M2.5"}
    result = SHEET.run(read(SHEET.inputs, typed, error=Fraction(0)))
    f, h, o, e, b, w, t, tone_wood = (float(mm) for mm in lengths.values())
    trued = h + 2 * o + 0.1
    sagitta = b / 2 - sqrt(b * b / 4 - f * f / 4)
    seat_depth = sagitta + (t + 0.05 if seat == "recessed" else 0)
    outside_min = max(2.5 + 2 * (0.5 + 0.2), trued - 2 * 0.05)
    wood_hole = outside_min + 2 * 0.05
    length = e + 0.762
    expected = {
        "trued_hole": trued, "outside_max": f - 0.254, "outside_min": outside_min, "wood_hole": wood_hole,
        "seat_depth": seat_depth, "length": length, "depth": seat_depth + length,
        "wood_to_bore": w - seat_depth - length, "wood_to_tone_hole": tone_wood - (wood_hole - h) / 2 - o,
        "full_threads": e / 0.45,
    }  # fmt: skip
    for name, number in expected.items():
        assert value(result, name) == pytest.approx(number, abs=1e-9), name
    margins = {
        "hidden_by_flange": f - 0.254 - (trued - 0.1), "metal_around_thread": f - 0.254 - 3.9,
        "wood_to_bore": w - seat_depth - length - 1.0, "threads_engaged": e / 0.45 - 2,
        "wood_to_tone_hole": expected["wood_to_tone_hole"] - 1.5,
    }  # fmt: skip
    for name, number in margins.items():
        assert margin(result, name) == pytest.approx(number, abs=1e-9), name
        if abs(number) > 1e-9:
            assert result.checks[name].holds == ("yes" if number > 0 else "no"), name


_MEASURED = ("flange", "hole", "engaged", "body", "wall", "flange_thickness", "tone_hole")


@given(error=_mm("0.005", "0.1"), where=st.lists(st.integers(-4, 4), min_size=7, max_size=7))
def test_the_true_figure_lies_within_its_bounds(error: Fraction, where: list[int]) -> None:
    """Wherever the true sizes lie within the reading error, the true figures lie within the bounds."""
    read_in = read(SHEET.inputs, _TYPED, error=error)
    bounds = SHEET.run(read_in)
    true = dict(read_in.values)
    for name, step in zip(_MEASURED, where, strict=True):
        reading = true[name]
        assert isinstance(reading, Reading)
        true[name] = Reading.exact(reading.value + error * step / 4)
    exact = SHEET.run(take(SHEET.inputs, {name: true[name] for name in read_in.given}))
    for name, figure in bounds.figures.items():
        assert figure.low is not None
        assert figure.high is not None
        assert figure.low - 1e-9 <= value(exact, name) <= figure.high + 1e-9, name
    for name, check in bounds.checks.items():
        if check.holds != "unknown":
            assert exact.checks[name].holds == check.holds, name


@given(small=_mm("0", "0.1"), more=_mm("0", "0.3"), wall=_mm("4.5", "7"), hole=_mm("4.5", "6.5"))
def test_a_larger_error_only_blurs(small: Fraction, more: Fraction, wall: Fraction, hole: Fraction) -> None:
    """With a larger reading error yes and no may become unknown, never each other, and never known again."""
    typed = {"wall": f"{float(wall)} mm", "hole": f"{float(hole)} mm"}
    fine, coarse = run(str(small), **typed), run(str(small + more), **typed)
    for name, check in fine.checks.items():
        blurred = coarse.checks[name].holds
        assert blurred in (check.holds, "unknown"), name


def test_a_named_thread_and_the_same_sizes_measured_agree() -> None:
    """A shank measured at the basic sizes of a thread gives what the named thread gives."""
    named = run(thread="M2.5", engaged="1.8mm")
    measured = run(thread="", shank="2.5mm", pitch="0.45mm", engaged="", engaged_threads="4")
    assert set(named.figures) == set(measured.figures)
    for name in named.figures:
        assert value(measured, name) == pytest.approx(value(named, name), abs=1e-12), name


def test_a_measured_seat_decides_over_the_computed_one() -> None:
    """Depth of the existing seat, measured at the high line, beats any calculation."""
    assert value(run(seat_depth="1.5mm"), "seat_depth") == 1.5


def test_a_measured_wall_decides_over_body_and_bore() -> None:
    """A wall that was measured is the one that counts."""
    both = run(bore="14mm", wall="5.5mm")
    assert value(both, "wood_to_bore") == pytest.approx(5.5 - value(both, "depth"))


def test_a_computed_wall_is_never_a_plain_yes_when_it_is_close() -> None:
    """The bore may run off the middle: a computed wall is open within 0.3 mm, and a warning under 2 mm."""
    close = run(wall="", bore="14.6mm").checks["wood_to_bore"]
    assert close.holds == "unknown"
    assert close.waits_on == ("wall",)
    assert "measure wall itself" in close.says
    fair = run(wall="", bore="13.8mm").checks["wood_to_bore"]
    assert fair.holds == "yes"
    assert "measure it at this hole" in fair.says


def test_dropping_the_spare_length_is_the_first_way_out_of_a_thin_wall() -> None:
    """A wall too thin for the spare length names the way out and what it leaves."""
    check = run(wall="5.6mm").checks["wood_to_bore"]
    assert check.holds == "no"
    assert check.ways_out[0].startswith("drop the spare length")
    left = margin(run(wall="5.6mm", extra="0mm"), "wood_to_bore")
    assert f"would do, {left:.2f} mm to spare" in check.ways_out[0]


def test_a_short_closed_bushing_of_three_threads_is_tried() -> None:
    """Its way out says what three full threads without spare would leave, by the worksheet's own margin."""
    short = margin(run(wall="4.5mm", engaged="", engaged_threads="3", extra="0mm"), "wood_to_bore")
    ways = run(wall="4.5mm").checks["wood_to_bore"].ways_out
    assert any("tapped right through" in way and f"would do, {short:.2f} mm" in way for way in ways)


def test_turns_of_a_doubtful_pitch_are_a_doubtful_length() -> None:
    """Three turns of 0.53 mm, give or take 0.02 mm, engage 1.53 to 1.65 mm, and stay three turns."""
    result = run(thread="", shank="2.5mm", pitch="0.53mm+-0.02", engaged="", engaged_threads="3", extra="0mm")
    length = result.figures["length"]
    assert (length.low, length.value, length.high) == pytest.approx((1.53, 1.59, 1.65))
    assert result.figures["full_threads"].low == result.figures["full_threads"].high == 3


@pytest.mark.parametrize(("engaged", "count"), [("3mm", 2), ("5mm", 3)])
def test_grooves_and_bar_fit_the_bushing(engaged: str, count: int) -> None:
    """Two grooves in a short bushing, three in a long one; bar by the half millimetre, with some to turn."""
    steps = " ".join(run(wall="12mm", engaged=engaged).steps)
    assert f"Cut {count} grooves" in steps
    assert "bar of about 6.0 mm" in steps


def test_a_way_out_that_does_not_help_says_how_much_is_lacking() -> None:
    """Ways out are tried by the same formulas: where one falls short it says so."""
    first = run(wall="4.5mm").checks["wood_to_bore"].ways_out[0]
    lacking = -margin(run(wall="4.5mm", extra="0mm"), "wood_to_bore")
    assert f"still {lacking:.2f} mm short" in first


def test_a_way_out_that_breaks_another_check_names_it() -> None:
    """Bushing inside a plug mends the hiding, and says when the metal round the thread then has no room."""
    ways = run(flange="3.8mm", hole="4.2mm").checks["hidden_by_flange"].ways_out
    assert any("but then metal around thread fails" in way for way in ways)


def test_a_smaller_thread_that_is_proposed_would_do() -> None:
    """The thread named as small enough leaves metal enough when it is tried."""
    ways = run(flange="4mm", hole="3mm", thread="M2.5").checks["metal_around_thread"].ways_out
    named = next(way for way in ways if "smaller thread" in way).split(": ")[1].split(" or less")[0]
    assert run(flange="4mm", hole="3mm", thread=named).checks["metal_around_thread"].holds == "yes"


def test_the_smallest_cutter_in_the_drawer_that_cleans_is_chosen() -> None:
    """The smallest cutter of the drawer that cleans the hole is marked, and the bushing is turned to it."""
    result = run(cutters="5 mm; 5.5 mm; 5.4 mm; 6.5 mm")
    assert [row["cutter"] for row in result.rows if row["chosen"]] == ["5.4 mm"]
    assert value(result, "wood_hole") == pytest.approx(5.4)
    assert value(result, "outside") == pytest.approx(5.3)
    assert result.checks["hole_cleaned"].holds == "yes"


def test_the_largest_cutter_that_still_hides_is_taken_before_one_that_does_not_clean() -> None:
    """6.1 mm gives a bushing of 6.0 mm, which hides under a flange of 6.35 mm less 10 thou."""
    result = run(cutters="5.2 mm; 6.1 mm")
    assert [row["cutter"] for row in result.rows if row["chosen"]] == ["6.1 mm"]
    assert result.checks["hidden_by_flange"].holds == "yes"


def test_no_size_is_below_zero_however_large_the_error() -> None:
    """A hole of 0.5 mm read to 2 mm is between nothing and 2.5 mm."""
    span = read(SHEET.inputs, {"hole": "0.5mm"}, error=Fraction(2)).spans["hole"]
    assert (span.low, span.high) == (0.0, 2.5)


def test_a_drawer_without_the_cutter_says_so() -> None:
    """Where no cutter of the drawer cleans the hole the check fails by what is lacking."""
    result = run(cutters="4.8 mm, 5.1 mm")
    assert result.checks["hole_cleaned"].holds == "no"
    assert margin(result, "hole_cleaned") == pytest.approx(5.1 - 5.3)


def test_without_a_drawer_the_next_real_cutters_are_listed() -> None:
    """The sizes that can be bought are listed from the hole upward, none too small to clean it."""
    rows = run().rows
    assert rows[0]["cutter"] == "5.3 mm"
    assert all(row["cleans"] == "yes" and row["diameter"] >= 5.3 for row in rows)


def test_missing_readings_are_named_and_nothing_is_guessed() -> None:
    """With the flange alone only the largest bushing is known, and every check says what it waits for."""
    result = SHEET.run(read(SHEET.inputs, {"flange": "6.35mm"}))
    assert set(result.figures) == {"outside_max"}
    assert {check.holds for check in result.checks.values()} == {"unknown"}
    assert result.checks["hidden_by_flange"].waits_on == ("hole",)
    assert "seat" in result.checks["wood_to_bore"].waits_on


def test_steps_are_kept_back_while_a_check_fails() -> None:
    """Nothing is to be cut while a check says no."""
    assert run(wall="4.5mm").steps[0].startswith("Cut nothing yet")


def test_steps_go_in_the_order_of_the_bench() -> None:
    """Centre spot, drill, tap, outside, part off: in that order, with the tap drill named."""
    steps = run().steps
    order = ["Centre spot", "Drill #47", "Tap under power", "Turn the outside", "Part off"]
    places = [next(i for i, step in enumerate(steps) if step.startswith(word)) for word in order]
    assert places == sorted(places)


def test_a_check_that_is_open_is_settled_before_the_cutting() -> None:
    """Steps begin with what is too close to call."""
    assert run(wall="", bore="14.6mm").steps[0] == "Settle first: wood to bore, too close to call."


def test_sentences_are_shown_in_the_unit_of_the_shop() -> None:
    """In thou no step and no way out speaks of millimetres."""
    result = run(wall="5.6mm")
    sentences = [*run().steps, *result.checks["wood_to_bore"].ways_out]
    assert any(" mm" in sentence for sentence in sentences)
    assert not any(" mm" in in_unit(sentence, "thou") for sentence in sentences)


def test_the_drawing_is_to_scale() -> None:
    """The section draws hole, bushing and flange with the sizes of the figures."""
    result = run()
    shapes = {shape["part"]: shape for shape in result.drawing["shapes"]}
    assert shapes["hole"]["width"] == value(result, "wood_hole")
    assert shapes["hole"]["height"] == value(result, "depth")
    assert shapes["bushing"]["width"] == value(result, "outside")
    assert shapes["flange"]["width"] == pytest.approx(6.35)
    high_line, seat = shapes["body"]["r"], value(result, "seat_depth")
    assert shapes["hole"]["y"] == pytest.approx(high_line - value(result, "depth"))
    assert shapes["flange"]["y"] == pytest.approx(high_line - seat)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"flange": "28mm"}, "flange"),
        ({"hole": "30mm"}, "hole"),
        ({"wall": "14mm"}, "wall"),
        ({"wall": "", "bore": "27mm"}, "bore"),
        ({"hole": "0mm"}, "hole"),
        ({"hole": "-2mm"}, "hole"),
        ({"engaged": "900mm"}, "engaged"),
        ({"seat_depth": "7mm"}, "seat_depth"),
        ({"thread": "", "shank": "2mm", "pitch": "1.5mm"}, "pitch"),
        ({"shank": "4mm"}, "shank"),
        ({"cutters": "5,6"}, "cutters"),
        ({"seat": "floating"}, "seat"),
        ({"flnage": "5mm"}, "flnage"),
    ],
)
def test_senseless_readings_are_refused_by_name(typed: dict[str, str], name: str) -> None:
    """A reading that cannot be names its input in one line, and what would be sensible."""
    with pytest.raises(BadInput) as refused:
        run(**typed)
    assert refused.value.name == name
    assert "\n" not in str(refused.value)


def test_readings_that_only_clash_at_the_edge_of_a_huge_error_are_refused_clearly() -> None:
    """An error larger than the sizes themselves is bad input, not a traceback."""
    with pytest.raises(BadInput):
        run("12")


def test_inputs_given_as_readings_are_kept_in_range_too() -> None:
    """A reading handed over without being typed is held to the same range."""
    with pytest.raises(BadInput, match="flange"):
        take(SHEET.inputs, {"flange": Reading.exact(900)})


def test_the_worksheet_does_not_change_what_was_given() -> None:
    """Running twice on the same inputs gives the same figures."""
    inputs: Inputs = read(SHEET.inputs, _TYPED)
    assert SHEET.run(inputs).figures == SHEET.run(inputs).figures


def test_the_first_step_asks_for_what_no_check_could_judge() -> None:
    """Without a wall nobody knows what is left over the bore: it is measured before the cutter is set."""
    open_yet = work("bushing", flange="0.250in", thread="3-48", engaged="3mm", hole="5.2mm").steps
    assert open_yet[0].startswith("Measure before anything is cut: wall")
    assert "wood to bore" in open_yet[0]
    known = work(
        "bushing", flange="0.250in", thread="3-48", engaged="3mm", hole="5.2mm", wall="8mm",
        seat_depth="1mm", tone_hole="5mm",
    ).steps  # fmt: skip
    assert not any("Measure before" in step for step in known)
