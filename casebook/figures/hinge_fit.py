"""A key's hinge: play of the tube on its rod and between its posts, and what cures it."""

from __future__ import annotations

from math import inf

from casebook.figures.cutters import between, largest, on_sale
from casebook.figures.drawer import SHELVES, choose
from casebook.figures.formula import Formula, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.round_body import GEOMETRY, keep_below
from casebook.figures.shared_inputs import DRILLS
from casebook.figures.shims import SHIMS, choose_shims, filling
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_TUBE_BORE = Input("tube_bore", "length", "bore of the tube at its end", low="0.3 mm", high="20 mm")
_ROD = Input("rod", "length", "diameter of the rod there", low="0.2 mm", high="20 mm")
_SIDE_PLAY = Input(
    "side_play",
    "length",
    "side play as measured at the tube's end, instead of the two",
    low="0 mm",
    high="3 mm",
)
_BETWEEN = Input("between", "length", "distance between the posts", low="1 mm", high="400 mm")
_TUBE_LENGTH = Input("tube_length", "length", "length of the tube", low="1 mm", high="400 mm")
_END_PLAY = Input("end_play", "length", "end play by feeler, instead of the two", low="0 mm", high="5 mm")
_TUBE_OUTSIDE = Input("tube_outside", "length", "outside of the tube", low="0.6 mm", high="20 mm")
_MOST_SIDE = Input(
    "most_side", "length", "side play that does not show at the pad",
    default="0.05 mm", low="0 mm", high="1 mm", measured=False,
)  # fmt: skip
_MOST_END = Input(
    "most_end", "length", "end play that does not show at the pad",
    default="0.1 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_SWEDGE_MOST = Input(
    "swedge_most", "length", "side play up to which closing the tube in is enough",
    default="0.15 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip
_RUNNING = Input(
    "running", "length", "play in which a hinge runs, a new one too, on the diameter",
    default="0.02 mm", low="0 mm", high="0.5 mm", measured=False,
)  # fmt: skip
_LEAST_TUBE = Input(
    "least_tube", "length", "least wall of the tube once it is bored for a sleeve",
    default="0.3 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip
_LEAST_SLEEVE = Input(
    "least_sleeve", "length", "least wall of a sleeve",
    default="0.2 mm", low="0 mm", high="3 mm", measured=False,
)  # fmt: skip

# The shelf of rods; `rod` is the one that is in the hinge.
_RODS = SHELVES["rod"].item._replace(name="rods")

SIDE_PLAY = term("tube_bore") - term("rod")
END_PLAY = term("between") - term("tube_length")
_SLEEVE_BORE = term("rod") + term("running")
_SLEEVE_LEAST = Formula(
    lambda rod, running, least_sleeve: rod + running + 2 * least_sleeve, rises="rod running least_sleeve"
)
_SLEEVE_MOST = Formula(
    lambda tube_outside, least_tube: tube_outside - 2 * least_tube, rises="tube_outside", falls="least_tube"
)


def _run(inputs: Inputs) -> Result:
    keep_below(inputs, "rod", "tube_bore", may_touch=True)
    keep_below(inputs, "tube_bore", "tube_outside")
    keep_below(inputs, "tube_length", "between", may_touch=True)
    result = Result(WORKSHEET.id, inputs)
    side = term("side_play") if "side_play" in inputs or "tube_bore" not in inputs else SIDE_PLAY
    end = term("end_play") if "end_play" in inputs or "between" not in inputs else END_PLAY
    result.figure("side_play", side, how="tube bore - rod, or as measured", source=GEOMETRY)
    result.figure("end_play", end, how="between the posts - tube, or as measured", source=GEOMETRY)
    result.figure(
        "washer",
        end - term("running"),
        how="end play - the play it runs in: what to lengthen the tube by, or a washer to put in",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    for name, formula, how in (
        ("sleeve_bore", _SLEEVE_BORE, "rod + the play it runs in"),
        ("sleeve_outside_min", _SLEEVE_LEAST, "sleeve bore + 2 x its least wall"),
        ("sleeve_outside_max", _SLEEVE_MOST, "outside of the tube - 2 x its least wall"),
    ):
        result.figure(name, formula, how=how, source=COMMON_PRACTICE, checked="common practice")
    _choose(result, side, end)
    _checks(result, side, end)
    result.steps += _STEPS
    return result


def _choose(result: Result, side: Formula, end: Formula) -> None:
    """Where there is too much play, choose a larger rod, the sleeve by its drill, and the washer."""
    spans = result.inputs.spans
    running, bore = spans["running"].value, spans.get("tube_bore")
    side_play, end_play = side(spans), end(spans)
    if side_play is not None and side_play.value > spans["most_side"].value:
        if bore is not None:
            least, most = bore.value - spans["most_side"].value, bore.value - running
            rod = choose(result, _RODS, largest(least, most), on_sale(least))
            result.chosen_figure("larger_rod", rod, how="a rod that runs in the tube as it is")
        thin, thick = _SLEEVE_LEAST(spans), _SLEEVE_MOST(spans)
        if thin is not None and (thick is None or thick.value >= thin.value):
            most = thick.value if thick else inf
            drill = choose(result, DRILLS, between(thin.value, most), on_sale(thin.value))
            result.chosen_figure("sleeve_outside", drill, how="as the drill cuts that opens the tube for it")
    if end_play is not None and end_play.value > spans["most_end"].value:
        room = end_play.value - running
        washer = choose_shims(result, filling(end_play.value - spans["most_end"].value, room))
        result.chosen_figure("washer_stack", washer, how="foils for the washer")


def _checks(result: Result, side: Formula, end: Formula) -> None:
    result.check(
        "side_play_small",
        term("most_side") - side,
        yes="the side play does not show at the pad",
        no="the side play shows at the pad",
        ways_out=("close the tube in, if its posts are tight and its metal soft", "a sleeve or a larger rod"),
    )
    result.check(
        "end_play_small",
        term("most_end") - end,
        yes="the end play does not show at the pad",
        no="the end play shows at the pad",
        ways_out=("lengthen the tube by closing it in", "a thin washer, kept with the key"),
    )
    result.check(
        "swedging_enough",
        term("swedge_most") - side,
        yes="closing the tube in can take up the side play",
        no="there is more side play than closing in can take up: sleeve the tube, or a larger rod",
        ways_out=("sleeve the tube", "a larger rod, with the posts reamed to it and the owner's consent"),
    )
    if "tube_outside" in result.inputs:
        result.check(
            "room_for_sleeve",
            _SLEEVE_MOST - _SLEEVE_LEAST,
            yes="the tube has room for a sleeve",
            no="the tube is too thin to be bored for a sleeve",
            ways_out=("close the tube in", "a new tube, brazed on, as the last resort"),
        )


_STEPS = (
    "Posts first: a loose post feels like a worn hinge. Then the rod: roll it on a flat to see a bend.",
    "Measure with the spring unhooked; let the key fall by its own weight.",
    "Never file or shorten a tube to cure a bind: find what has moved.",
)

WORKSHEET = Worksheet(
    id="hinge_fit",
    title="Hinge: side play, end play, sleeve and washer",
    inputs=(
        _TUBE_BORE, _ROD, _SIDE_PLAY, _BETWEEN, _TUBE_LENGTH, _END_PLAY, _TUBE_OUTSIDE, _MOST_SIDE, _MOST_END,
        _SWEDGE_MOST, _RUNNING, _LEAST_TUBE, _LEAST_SLEEVE, _RODS, DRILLS, SHIMS,
    ),
    run=_run,
    example="tube_bore=2.10mm rod=2.0mm between=31.2mm tube_length=31.05mm tube_outside=3.6mm",
)  # fmt: skip
