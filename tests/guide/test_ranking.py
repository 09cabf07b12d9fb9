"""The order of proposals: scales that can be said aloud, never a score."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, settings

from casebook.guide.advice import advise
from casebook.guide.pack import SCALES
from casebook.guide.ranking import profile, why_above
from tests.guide.looks import Answers, knowing, looks
from tests.guide.shipped import guide_of
from tests.guide.test_invariants import several
from tests.guide.tiny import guide_from, known, pack, question, strategy

GROUPS = ["fits", "open", "ruled_out"]


def _scales(**places: str) -> str:
    usual = {
        "original": "nearly_all", "reversible": "partly", "strength": "medium", "seen": "slight",
        "serviceable": "partly",
    }  # fmt: skip
    return "".join(f"{scale}: {place}\n" for scale, place in {**usual, **places}.items())


ALWAYS = "fits_when: [{hole: [sound, worn]}]"
RANKING = """\
- when: {aim: play}
  scales: [strength, original, hours]
  because: played hard
- when: {aim: keep}
  scales: [leaves_alone, original, reversible, hours]
  because: kept
- scales: [original, reversible, strength, seen, serviceable, hours]
  because: least lost first
"""


def _order(strategies: list[str], **answers: str) -> list[str]:
    questions = [question("hole", ["sound", "worn"]), question("aim", ["play", "keep", "sell"])]
    guide = guide_from(pack(questions=questions, strategies=strategies) + f"ranking:\n{RANKING}")
    return [p.id for p in advise(guide, known(guide, **answers)).proposals]


@several
@given(looks())
def test_what_fits_stands_before_what_is_open_before_what_is_ruled_out(drawn: tuple[str, Answers]) -> None:
    """On every shipped pack the three standings stand in this order, and places count from 1."""
    proposals = advise(guide_of(drawn[0]), knowing(drawn[1])).proposals
    groups = [GROUPS.index(p.standing) for p in proposals]
    assert groups == sorted(groups)
    assert [p.place for p in proposals] == list(range(1, len(proposals) + 1))


@settings(parent=several)
@given(looks())
def test_those_that_fit_follow_the_scales(drawn: tuple[str, Answers]) -> None:
    """Of two that fit, the first is no worse on the first scale on which they differ, as the profile orders them."""
    guide = guide_of(drawn[0])
    advice = advise(guide, knowing(drawn[1]))
    scales = [scale for scale in profile(guide, advice.trusted)[0] if scale in SCALES]
    if profile(guide, advice.trusted)[0][0] == "leaves_alone":
        return
    fitting = [guide.strategies[p.id].strategy for p in advice.proposals if p.standing == "fits"]
    for first, second in pairwise(one for one in fitting if one.ends_look is None):
        apart = [scale for scale in scales if first.scales[scale] != second.scales[scale]]
        if apart:
            places = SCALES[apart[0]]
            assert places.index(first.scales[apart[0]]) < places.index(second.scales[apart[0]])


def test_each_scale_goes_from_best_to_worst() -> None:
    """All original before little, undone before for good, strong before light, hidden before plain."""
    for scale, places in SCALES.items():
        named = [strategy(f"s{n}", ALWAYS, _scales(**{scale: place})) for n, place in enumerate(places)]
        order = [f"s{n}" for n in range(len(places))]
        assert _order(named[::-1], hole="worn", aim="sell") == order, scale


def test_the_aim_gives_the_order_of_the_scales() -> None:
    """Played hard the strong one leads, kept the one that takes least, by the first profile that holds."""
    named = [
        strategy("strong", ALWAYS, _scales(strength="strong", original="part")),
        strategy("gentle", ALWAYS, _scales(strength="light", original="all")),
    ]
    assert _order(named, hole="worn", aim="play") == ["strong", "gentle"]
    assert _order(named, hole="worn", aim="keep") == ["gentle", "strong"]
    assert _order(named, hole="worn", aim="sell") == ["gentle", "strong"]


def test_a_profile_not_known_to_hold_is_not_used() -> None:
    """While the aim is open the last profile, which needs no answer, gives the order."""
    named = [
        strategy("strong", ALWAYS, _scales(strength="strong", original="part")),
        strategy("gentle", ALWAYS, _scales(strength="light", original="all")),
    ]
    assert _order(named, hole="worn") == ["gentle", "strong"]


def test_equal_scales_leave_the_packs_own_order() -> None:
    """Where nothing else tells them apart, the pack's order of preference does."""
    named = [strategy(id, ALWAYS, _scales()) for id in ("beta", "alpha", "gamma")]
    assert _order(named, hole="worn", aim="sell") == ["beta", "alpha", "gamma"]


def test_fewer_hours_lead_where_all_else_is_equal() -> None:
    """Of two alike in every scale the shorter one stands first."""
    named = [
        strategy("slow", ALWAYS, _scales(), (4, 5, 6)),
        strategy("quick", ALWAYS, _scales(), (1, 2, 3)),
    ]
    assert _order(named, hole="worn", aim="sell") == ["quick", "slow"]


def test_what_ends_a_look_leads_in_the_order_of_the_bench() -> None:
    """Measuring, cleaning, resting, mending, taking out: whatever the scales say, before what is judged after."""
    named = [strategy("fill", ALWAYS, _scales(original="all", reversible="yes", strength="strong"))]
    for act in ("extracting", "mending", "resting", "cleaning", "measuring"):
        named.append(
            strategy(act, f"ends_look: {act}\n{ALWAYS}", _scales(original="little", reversible="no"))
        )
    wanted = ["measuring", "cleaning", "resting", "mending", "extracting", "fill"]
    assert _order(named, hole="worn", aim="sell") == wanted
    assert _order(named, hole="worn", aim="play") == wanted


def test_leaving_alone_stands_last_among_the_open_unless_called_for() -> None:
    """What is offered on call waits behind the others until an answer calls for it."""
    named = [
        strategy("leave", "on_call: yes\nfits_when: [{aim: keep}, {hole: sound}]", _scales(original="all")),
        strategy("bush", "fits_when: [{hole: worn}]", _scales(original="little")),
        strategy("plug", "fits_when: [{hole: [sound, worn]}, {aim: play}]", _scales(original="part")),
    ]
    assert _order(named)[-1] == "leave"
    assert _order(named, aim="keep")[0] == "leave"


def test_leaving_alone_leads_where_the_profile_says_so() -> None:
    """Kept and not played, to leave it alone stands before every work that fits."""
    named = [
        strategy("refit", ALWAYS, _scales(original="all")),
        strategy("leave", f"on_call: yes\n{ALWAYS}", _scales(original="nearly_all")),
    ]
    assert _order(named, hole="worn", aim="keep") == ["leave", "refit"]
    assert _order(named, hole="worn", aim="play") == ["refit", "leave"]


def test_an_answer_that_calls_for_it_brings_an_open_strategy_forward() -> None:
    """Among the open, what its first clause is known to call for stands before what nothing calls for yet."""
    named = [
        strategy("gentle", "fits_when: [{aim: sell}]", _scales(original="all")),
        strategy("called", "fits_when: [{hole: worn}, {aim: [sell, keep]}]", _scales(original="little")),
    ]
    assert _order(named, hole="worn") == ["called", "gentle"]
    assert _order(named) == ["gentle", "called"]


@settings(parent=several)
@given(looks())
def test_each_place_is_explained_against_the_next(drawn: tuple[str, Answers]) -> None:
    """Every proposal can say why it stands above the next one, in one line that is never empty."""
    guide = guide_of(drawn[0])
    advice = advise(guide, knowing(drawn[1]))
    for one, other in pairwise(advice.proposals):
        said = why_above(guide, advice.trusted, one, other)
        assert said
        assert "\n" not in said


def _why(strategies: list[str], **answers: str) -> str:
    questions = [question("hole", ["sound", "worn"]), question("aim", ["play", "keep", "sell"])]
    guide = guide_from(pack(questions=questions, strategies=strategies) + f"ranking:\n{RANKING}")
    advice = advise(guide, known(guide, **answers))
    return why_above(guide, advice.trusted, advice.proposals[0], advice.proposals[1])


def test_reasons_name_the_scale_that_tells_two_apart() -> None:
    """The first scale on which they differ is said with both places, and why it comes first here."""
    named = [
        strategy("strong", ALWAYS, _scales(strength="strong", original="part")),
        strategy("gentle", ALWAYS, _scales(strength="light", original="all")),
    ]
    hard = "strength: strong, against strength: light (played hard)"
    least = "original left: all, against original left: part (least lost first)"
    assert _why(named, hole="worn", aim="play") == hard
    assert _why(named, hole="worn", aim="sell") == least


def test_reasons_name_standing_act_and_call_before_any_scale() -> None:
    """What fits is above what is open; what ends a look comes first; what is called for comes forward."""
    refit = strategy("refit", ALWAYS, _scales())
    clean = strategy("clean", f"ends_look: cleaning\n{ALWAYS}", _scales())
    kept = strategy("kept", "fits_when: [{aim: keep}]", _scales())
    assert _why([refit, kept], hole="worn") == "To refit fits; To kept is still open"
    assert _why([refit, clean], hole="worn").startswith("cleaning comes first")
    called = strategy("called", "fits_when: [{hole: worn}, {aim: [play, sell]}]", _scales())
    assert _why([kept, called], hole="worn").startswith("an answer calls for it")
    assert _why([refit, strategy("other", ALWAYS, _scales())], hole="worn").endswith("the pack prefers it")
