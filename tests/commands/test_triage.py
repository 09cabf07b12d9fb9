"""`casebook triage`: the answers file in every form, the JSON of the contract, one line for what is wrong."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.line import Casebook

Write = Callable[[str, str], str]

EVERY_FORM = """\
family: posts
answers:
  post_shank: smooth
  post_hole: {not: [coned_out, filled]}
  prior_solder: [soft_solder, unknown_solder]
  solder_where: {all: [on_shank, in_wood]}
  post_problem: torn_out
  spring_in_post: yes
  flange_diameter: 0.190 in
  hole_diameter_top: {value: 5.2, unit: mm, error: 0.05}
  hole_diameter_bottom: {value: 150, unit: thou}
  flange_thickness: not_known
"""


def test_every_form_of_answer_is_taken(casebook: Casebook, write: Write) -> None:
    """Single, one of, anything but, both, counts, quoted or not, sizes in any spelling."""
    said = casebook("triage", write("a.yaml", EVERY_FORM), "--json")
    assert said.status == 0
    assert said.data["family"] == "posts"
    assert said.data["strategies"][0]["id"] == "post_clean_and_reassess"


def test_json_has_the_keys_of_the_contract(casebook: Casebook, write: Write) -> None:
    """Scripts rely on these names and values."""
    data = casebook("triage", write("a.yaml", EVERY_FORM), "--json").data
    assert {
        "family",
        "pack",
        "strategies",
        "cautions",
        "ask_next",
        "findings",
        "contradictions",
        "stop",
    } <= set(data)
    assert set(data["pack"]) == {"id", "version", "digest"}
    assert len(data["pack"]["digest"]) == 64
    places = [strategy["place"] for strategy in data["strategies"]]
    assert places == list(range(1, len(places) + 1))
    for strategy in data["strategies"]:
        assert strategy["standing"] in ("fits", "open", "ruled_out")
        assert {"id", "title", "because", "waiting_on", "cautions"} <= set(strategy)
    for finding in data["findings"].values():
        assert finding["holds"] in ("yes", "no", "unknown")
    levels = [caution["level"] for caution in data["cautions"]]
    assert levels == sorted(levels, key=("danger", "warning", "note").index)
    assert len(levels) <= 6


def test_fitting_come_first_then_open_then_ruled_out(casebook: Casebook, write: Write) -> None:
    """The order of proposal."""
    data = casebook("triage", write("a.yaml", EVERY_FORM), "--json").data
    groups = [("fits", "open", "ruled_out").index(s["standing"]) for s in data["strategies"]]
    assert groups == sorted(groups)


def test_standard_input_is_a_file_too(casebook: Casebook, monkeypatch: pytest.MonkeyPatch) -> None:
    """`-` reads standard input, and complaints call it so."""
    import io
    import sys

    monkeypatch.setattr(
        sys, "stdin", io.TextIOWrapper(io.BytesIO(b"family: posts\nanswers: {post_shankk: smooth}\n"))
    )
    said = casebook("triage", "-")
    assert said.status == 3
    assert said.one_line().startswith(
        "casebook: standard input, line 2: unknown question 'post_shankk'; did you mean post_shank"
    )


def test_several_damages_give_their_order(casebook: Casebook, write: Write) -> None:
    """One triage over an instrument: intake once, a proposal each, the order of work over all."""
    text = """\
answers: {owner_aim: play_daily, owner_consent: sound_repair, historical_importance: ordinary}
damages:
  - family: posts
    place: low E key
    answers: {post_problem: misaligned_only}
  - family: posts
    place: G sharp key
    answers: {post_problem: post_lost}
"""
    data = casebook("triage", write("several.yaml", text), "--json").data
    assert [damage["strategies"][0]["id"] for damage in data["damages"]] == [
        "post_realign_pair",
        "post_make_copy",
    ]
    assert [step["damage"] for step in data["order"]] == [1, 2]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("family: posts\nanswers:\n  post_shankk: smooth\n", "line 3: unknown question 'post_shankk'; did you mean post_shank?"),
        ("family: posts\nanswers:\n  post_shank: smoth\n", "line 3: post_shank: unknown answer 'smoth'; did you mean smooth?"),
        ("family: postss\nanswers: {}\n", "line 1: no rule pack for 'postss'; did you mean posts?"),
        ("family: posts\nanswers: {flange_diameter: 7}\n", "add the unit"),
        ("family: posts\nanswers: {flange_diameter: 7 furlongs}\n", "flange_diameter"),
        ("family: posts\nanswers: {flange_diameter: 700 mm}\n", "makes no sense here"),
        ("family: posts\nanswers: {flange_diameter: -7 mm}\n", "below zero"),
        ("family: posts\nanswers: {flange_diameter: nan mm}\n", "flange_diameter"),
        ("family: posts\nanswers: {flange_diameter: 1e308 mm}\n", "flange_diameter"),
        ("family: posts\nanswers: {flange_diameter: .inf}\n", "flange_diameter"),
        ("family: posts\nanswers: {flange_diameter: [7 mm]}\n", "a size with its unit is wanted"),
        ("family: posts\nanswers: {full_threads_left: 2.5}\n", "full_threads_left"),
        ("family: posts\nanswers: {full_threads_left: two}\n", "full_threads_left"),
        (
            "family: posts\nanswers:\n  spring_in_post: {not: [yes, no]}\n",
            "line 3: spring_in_post: no answer is left",
        ),
        ("family: posts\nanswers: {post_problem: {all: [loose, torn_out]}}\n", "cannot hold together"),
        ("family: posts\nanswers: {post_problem: {either: loose}}\n", "post_problem"),
        ("family: posts\nanswers: {post_shank: smooth, post_shank: bent}\n", "stands here twice"),
        ("family: posts\nanswers: [post_shank]\n", "a mapping of question ids"),
        ("family: posts\nanswer: {}\n", "unknown key 'answer'"),
        ("answers: {}\n", "family"),
        ("", "family"),
        ("- family: posts\n", "family"),
        ("family: posts\nanswers: {post_shank: &x smooth}\n", "anchor"),
        ("family: posts\nanswers: {post_shank: !!python/name:os.system x}\n", "tag"),
        ("family: posts\nanswers: {post_shank: 'sm\x07ooth'}\n", "control character U+0007"),
        ("family: [posts\n", "not readable as YAML"),
        ("damages: []\n", "at least one damage"),
        ("damages:\n  - posts\n", "a damage wants family"),
    ],
)  # fmt: skip
def test_a_broken_answers_file_gets_one_line(casebook: Casebook, write: Write, text: str, says: str) -> None:
    """Status 3, the file, what was wrong; nothing printed as data."""
    said = casebook("triage", write("a.yaml", text), "--json")
    assert said.status == 3
    assert said.out == ""
    line = said.one_line()
    assert "a.yaml" in line
    assert says in line


def test_a_file_that_is_not_there(casebook: Casebook) -> None:
    """Wrong use, one line."""
    said = casebook("triage", "no-such.yaml")
    assert said.status == 2
    assert said.one_line() == "casebook: no-such.yaml: there is no such file\n"


def test_what_people_typed_does_nothing_in_the_terminal(casebook: Casebook, write: Write) -> None:
    """A place with markup is printed as typed; escape sequences never get so far."""
    text = "damages:\n  - {family: posts, place: '[red]x[/] [@click=app.quit]', answers: {}}\n"
    said = casebook("triage", write("a.yaml", text))
    assert said.status == 0
    assert "[red]x[/] [@click=app.quit]" in said.out


def test_spelling_and_order_change_nothing(casebook: Casebook, write: Write) -> None:
    """The same sizes in other units, the answers in another order: the same advice to the letter."""
    one = "family: posts\nanswers: {flange_diameter: 0.190 in, hole_diameter_top: 4.826 mm, post_hole: coned_out}\n"
    other = "family: posts\nanswers: {post_hole: [coned_out], hole_diameter_top: 190 thou, flange_diameter: '.190\"'}\n"
    first, second = (casebook("triage", write("a.yaml", text), "--json").data for text in (one, other))
    assert first["strategies"] == second["strategies"]
    assert first["findings"] == second["findings"]


WIDE = """\
family: posts
answers:
  owner_aim: play_daily
  owner_consent: sound_repair
  historical_importance: ordinary
  post_problem: torn_out
  post_mount: screwed_in_wood
  post_shank: threaded_good
  post_hole: enlarged
  post_hole_crack: no_crack
  post_hole_to_bore: blind
  prior_solder: no_solder
  prior_adhesive: no_adhesive
  prior_bushing: no_bushing
  prior_plate: no_plate
  flange_seat: recessed
  flange_diameter: 7 mm
  flange_thickness: 0.8 mm
  body_diameter_here: 27 mm
  wall_thickness_here: 6.4 mm
  distance_to_tone_hole: 8 mm
  shank_diameter: 3-48
  shank_pitch: 48 tpi
  shank_length: 2.9 mm
  hole_diameter_top: 7 mm
"""


def test_what_would_change_it_is_said_for_the_strategy_asked_about(casebook: Casebook, write: Write) -> None:
    """The dimension that would do, in the unit of the shop: hidden if the hole cleaned up at so much or less."""
    file = write("wide.yaml", WIDE)
    data = casebook("triage", file, "--change", "post_hidden_bushing", "--json").data
    assert next(s for s in data["strategies"] if s["id"] == "post_hidden_bushing")["standing"] == "ruled_out"
    # Flange less 0.010 in less the reading errors of flange and hole, 0.02 mm each (defaults of the worksheet).
    assert "hole, widest: 6.7 mm or less" in data["change"]["post_hidden_bushing"]
    assert casebook("triage", file, "--change", "post_hidden_bushin").status == 2


def test_every_place_is_explained_against_the_next(casebook: Casebook, write: Write) -> None:
    """A sentence each, but for the last."""
    data = casebook("triage", write("wide.yaml", WIDE), "--json").data
    said = [strategy["above_the_next"] for strategy in data["strategies"]]
    assert all(said[:-1])
    assert said[-1] == ""


def test_nothing_is_promised_on_top_of_answers_that_disagree(casebook: Casebook, write: Write) -> None:
    """While readings contradict each other, what would change it is to settle them."""
    clash = WIDE.replace(
        "wall_thickness_here: 6.4 mm", "wall_thickness_here: 4.0 mm\n  bore_diameter_here: 14 mm"
    )
    data = casebook("triage", write("clash.yaml", clash), "--change", "post_hidden_bushing", "--json").data
    assert data["contradictions"]
    assert "settle first what does not agree" in data["change"]["post_hidden_bushing"]
