"""Several damages on one instrument: their order, what undoes what, cautions said once, waiting together."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.bench.advice_json import bench_json
from casebook.bench.advice_text import bench_text
from casebook.bench.library import Library
from casebook.bench.triage import Bench, triage
from casebook.bench.work_order import WorkOrder, work_order
from casebook.guide.advice import MOST_CAUTIONS
from tests.guide.shipped import panel

LIBRARY = Library()


def _damage(family: str, strategy: str, **own: str) -> dict[str, Any]:
    """Take a panel's case whose first proposal is this one strategy, with answers of its own laid over."""
    case = next(c for c in panel() if c.family == family and list(c.expected["first"]) == [strategy])
    return {"family": family, "answers": {**case.answers, "joint_damaged": "upper_joint", **own}}


def _order(*damages: dict[str, Any]) -> WorkOrder:
    return work_order(_bench(*damages).advices)


def _bench(*damages: dict[str, Any]) -> Bench:
    lines = ["damages:"]
    for damage in damages:
        lines += [f"  - family: {damage['family']}", "    answers:"]
        lines += [f"      {key}: {_flow(value)}" for key, value in damage["answers"].items()]
    return triage(LIBRARY, "\n".join(lines), "several.yaml")


def _flow(node: Any) -> str:
    """Word a node of an answers file again."""
    if isinstance(node, dict):
        return "{" + ", ".join(f"{key}: {_flow(value)}" for key, value in node.items()) + "}"
    if isinstance(node, list):
        return "[" + ", ".join(_flow(value) for value in node) + "]"
    return str(node)


BUSHED = _damage("posts", "post_hidden_bushing")
SOLDERED = _damage("keywork", "key_hard_solder_repair")
ON_LOOSE_POST = _damage("keywork", "key_posts_first")
SWOLLEN = _damage("keywork", "rest_first")
RESTED = _damage("cracks", "crack_rest_and_watch")
GLUED = _damage("cracks", "crack_glue_closed")
PADDED = _damage("pads_and_seats", "pad_replace")
LEAKS = _damage("symptoms", "counter_trace_leak")


def _elsewhere(damage: dict[str, Any]) -> dict[str, Any]:
    return {**damage, "answers": {**damage["answers"], "joint_damaged": "lower_joint"}}


def test_crack_before_post_before_pad() -> None:
    """Whatever the order they are typed in, a post waits for the crack and a pad for the post."""
    steps = _order(PADDED, BUSHED, GLUED).steps
    assert [(step.damage, step.family) for step in steps] == [
        (3, "cracks"),
        (2, "posts"),
        (1, "pads_and_seats"),
    ]


def test_the_symptom_is_looked_at_before_any_repair() -> None:
    """Finding out where a fault sits costs nothing and may change all the rest."""
    assert _order(GLUED, BUSHED, LEAKS).steps[0].strategy == "counter_trace_leak"


def test_within_a_family_what_ends_a_look_comes_first() -> None:
    """A loose post under one key may be the cause of what is seen on the other."""
    steps = _order(SOLDERED, ON_LOOSE_POST).steps
    assert [step.strategy for step in steps] == ["key_posts_first", "key_hard_solder_repair"]
    assert ["one looks again" in step.because for step in steps] == [True, False]


def test_wood_rests_before_a_crack_is_glued() -> None:
    """Wood that must rest for one damage rests before the family that otherwise leads."""
    assert [step.strategy for step in _order(GLUED, SWOLLEN).steps] == ["rest_first", "crack_glue_closed"]


@given(st.permutations(range(5)))
def test_the_order_of_the_file_settles_nothing_between_families(numbers: list[int]) -> None:
    """Typed in any order, the families are worked on in the same."""
    damages = [PADDED, BUSHED, GLUED, SOLDERED, LEAKS]
    families = [step.family for step in _order(*(damages[n] for n in numbers)).steps]
    assert families == ["symptoms", "cracks", "posts", "keywork", "pads_and_seats"]


def test_heat_near_fresh_adhesive_is_warned_of() -> None:
    """Soldering and gluing on one joint undo each other unless the flame comes first; the damages are named."""
    (minded,) = [says for says in _order(BUSHED, SOLDERED).mind if says.startswith("Heat")]
    assert minded.endswith("(damages 1 and 2)")


def test_heat_on_another_joint_is_no_matter() -> None:
    """A flame on the lower joint does not reach the glue on the upper one."""
    assert not [says for says in _order(BUSHED, _elsewhere(SOLDERED)).mind if says.startswith("Heat")]


def test_no_cutting_on_a_joint_that_rests() -> None:
    """One damage rests first: what would cut or glue on the same joint is warned of, and stands after it."""
    order = _order(BUSHED, RESTED)
    assert [step.damage for step in order.steps] == [2, 1]
    assert any("has to rest" in says and "(damages 1 and 2)" in says for says in order.mind)


def test_another_joint_may_be_cut_while_one_rests() -> None:
    """Rest on one joint is no reason to leave the other alone."""
    assert not any("has to rest" in says for says in _order(BUSHED, _elsewhere(RESTED)).mind)


def test_a_joint_not_named_may_be_the_same() -> None:
    """Where nobody said on which joint a damage is, the warning is given rather than kept."""
    unnamed = {**RESTED, "answers": {k: v for k, v in RESTED["answers"].items() if k != "joint_damaged"}}
    assert any("has to rest" in says for says in _order(BUSHED, unnamed).mind)


def test_what_waits_on_two_joints_waits_together() -> None:
    """A crack rests on one joint while epoxy cures on the other: one round, as long as the longer."""
    waiting = _order(BUSHED, _elsewhere(RESTED)).waiting
    assert [{one.damage for one in together.damages} for together in waiting.rounds] == [{1, 2}]
    assert waiting.least == 168


def test_what_waits_on_one_joint_waits_in_turn() -> None:
    """The bushing on a joint that rests is glued when it has rested."""
    waiting = _order(BUSHED, RESTED).waiting
    assert [[one.damage for one in together.damages] for together in waiting.rounds] == [[2], [1]]
    assert waiting.least == 168 + 24


def test_two_posts_are_glued_in_one_go() -> None:
    """Two bushings on one joint cure side by side."""
    waiting = _order(BUSHED, BUSHED).waiting
    assert [[one.damage for one in together.damages] for together in waiting.rounds] == [[1, 2]]


CASES = [case for case in panel() if case.family != "symptoms"]


@given(st.lists(st.sampled_from(CASES), min_size=2, max_size=4))
def test_no_caution_twice_and_no_flood(cases: list[Any]) -> None:
    """Over any damages: none is said twice, dangers all stand in view, no more than six do unless they are
    dangers, and none is lost."""
    bench = _bench(*({"family": case.family, "answers": case.answers} for case in cases))
    data = bench_json(bench)
    ids = [caution["id"] for caution in data["cautions"] + data["more_cautions"]]
    texts = [caution["text"] for caution in data["cautions"] + data["more_cautions"]]
    assert len(set(ids)) == len(ids)
    assert len(set(texts)) == len(texts)
    dangers = sum(caution["level"] == "danger" for caution in data["cautions"])
    assert len(data["cautions"]) <= max(MOST_CAUTIONS, dangers)
    assert all(caution["level"] != "danger" for caution in data["more_cautions"])
    said = {w.text for advice in bench.advices for w in (*advice.cautions, *advice.more_cautions)}
    assert said == set(texts)
    text = "\n".join(bench_text(bench))
    assert all(text.count(caution["text"]) == 1 for caution in data["cautions"])


def test_text_and_json_say_the_same_of_waiting() -> None:
    """What waits, and whether together, stands in the plain lines as in the data."""
    bench = _bench(BUSHED, RESTED)
    data = bench_json(bench)
    text = "\n".join(bench_text(bench))
    for together in data["waiting"]["rounds"]:
        for damage in together["damages"]:
            assert all(wait["says"] in text for wait in damage["waits"])
    assert data["waiting"]["least_hours"] == 192
    lead = data["damages"][0]["strategies"][0]
    assert lead["waits"][0]["least_hours"] == 24  # two-part epoxy, common practice


@pytest.mark.parametrize("family", [pack.id for pack in LIBRARY.families])
def test_what_glues_or_rests_says_how_long(family: str) -> None:
    """Every shipped strategy that brings adhesive or rest says what waits, and how long."""
    silent = [
        ruled.strategy.id
        for ruled in LIBRARY.guide(family).strategies.values()
        if (
            ruled.strategy.involves & {"adhesive", "epoxy", "cyanoacrylate"}
            or ruled.strategy.ends_look == "resting"
        )
        and not ruled.strategy.waits
    ]
    assert silent == []
