"""A metal liner in its wood: play now, play once the wood has moved, the sealant that fills it."""

from __future__ import annotations

from math import pi

from casebook.figures.cutters import choose_cutter
from casebook.figures.formula import Formula, term
from casebook.figures.inputs import Input, Inputs
from casebook.figures.moisture import (
    CLIMATE,
    FREE_MOVEMENT,
    SPECIES,
    after,
    derive_movement,
    has_climate,
    moved_figure,
)
from casebook.figures.round_body import GEOMETRY, keep_below
from casebook.figures.shared_inputs import CUTTERS
from casebook.figures.shims import SHIMS, choose_shims, filling
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_LINER = Input("liner", "length", "outside diameter of the liner", low="3 mm", high="100 mm")
_WOOD_BORE = Input("wood_bore", "length", "least bore of the wood over it", low="3 mm", high="100 mm")
_LENGTH = Input("length", "length", "length of the liner in the wood", low="3 mm", high="400 mm")
_LEAST_PLAY = Input(
    "least_play", "length", "least play over a liner, on the diameter",
    default="0.1 mm", low="0 mm", high="1 mm", measured=False,
)  # fmt: skip
_MOST_PLAY = Input(
    "most_play", "length", "most play that a sealant fills well, on the diameter",
    default="0.2 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip

PLAY = term("wood_bore") - term("liner")
# Wood that has closed on its liner leaves no room at all.
_FILM = Formula(lambda wood_bore, liner: max(wood_bore - liner, 0.0) / 2, rises="wood_bore", falls="liner")
_VOLUME = Formula(
    lambda wood_bore, liner, length: pi / 4 * max(wood_bore**2 - liner**2, 0.0) * length,
    rises="wood_bore length",
    falls="liner",
)
# Wood that dries closes on the liner most along the rings.
_PLAY_AFTER = after("wood_bore", "tangential_strain") - term("liner")
_BORE_TO_CUT = term("liner") + term("least_play")
# Wood that has closed on a liner may read a little under it; more is a reading gone wrong.
_WIDEST_LINER = 1.05


def _run(inputs: Inputs) -> Result:
    keep_below(inputs, "liner", "wood_bore", _WIDEST_LINER)
    derive_movement(inputs)
    result = Result(WORKSHEET.id, inputs)
    result.figure("play", PLAY, how="bore of the wood - liner, on the diameter", source=GEOMETRY)
    result.figure("film", _FILM, how="play / 2: thickness of the sealant, a side", source=GEOMETRY)
    result.figure(
        "sealant_volume", _VOLUME, unit="mm3", how="ring between wood and liner x length", source=GEOMETRY
    )
    result.figure(
        "bore_to_cut",
        _BORE_TO_CUT,
        how="liner + least play: bore to ease the wood to",
        source=COMMON_PRACTICE,
        checked="common practice",
    )
    moved_figure(
        result, "play_after", _PLAY_AFTER, how="bore of the wood once it has moved along the rings - liner"
    )
    _choose(result)
    _checks(result)
    result.steps += _STEPS
    return result


def _choose(result: Result) -> None:
    """Choose what eases a tight bore, or the papers that pack a wide one."""
    spans = result.inputs.spans
    play, least, most = PLAY(spans), spans["least_play"].value, spans["most_play"].value
    if play is None:
        return
    if play.value < least:
        liner = spans["liner"].value
        choose_cutter(result, liner + least, liner + max(least, most))
    elif play.value > most:
        packing = choose_shims(result, filling((play.value - most) / 2, (play.value - least) / 2))
        how = "papers or foils, a side: they leave the sealant the play it fills well"
        result.chosen_figure("packing", packing, how=how)


def _checks(result: Result) -> None:
    result.check(
        "play_enough",
        PLAY - term("least_play"),
        yes="the wood has play enough over the liner",
        no="the wood has too little play: when it dries the liner holds it open and it cracks",
        ways_out=(
            "ease the wood over the liner, in consent: the wood, never the liner",
            "leave it where it has held for decades and is not cracked",
        ),
    )
    result.check(
        "play_not_much",
        term("most_play") - PLAY,
        yes="a yielding sealant fills the play",
        no="the play is more than a sealant fills well",
        ways_out=("thin strips of paper or cork bedded in the sealant", "a sleeve, turned to the liner"),
    )
    if has_climate(result.inputs):
        result.check(
            "free_after",
            _PLAY_AFTER,
            yes="the wood still clears the liner after it has moved",
            no="the wood will close on the liner after it has moved",
            ways_out=("leave more play", "keep the instrument in moister air"),
        )


_STEPS = (
    "Mark the liner's turn and depth before it is moved: its holes must meet the wood's again.",
    "A liner held by shellac comes loose by gentle warmth; heat near the wood checks it. Old solder at its"
    " joints may hold lead: no flame.",
    "A crack over a liner is held open by the metal: ease or fill, never clamp.",
    FREE_MOVEMENT,
)

WORKSHEET = Worksheet(
    id="liner_fit",
    title="Liner: play in the wood now and after it has moved, sealant",
    inputs=(_LINER, _WOOD_BORE, _LENGTH, _LEAST_PLAY, _MOST_PLAY, SPECIES, *CLIMATE, CUTTERS, SHIMS),
    run=_run,
    example="liner=19.0mm wood_bore=19.15mm length=120mm species=grenadilla temperature_now=21C"
    " humidity_now=55 temperature_then=21C humidity_then=30",
)
