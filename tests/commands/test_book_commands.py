"""`record`, `show`, `find`, `similar`, `packs`, `demo` and the line itself."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from casebook.commands.parser import COMMANDS
from tests.line import Casebook

Write = Callable[[str, str], str]

TWO = """\
cases:
  - number: "B-0142"
    title: Low E post torn out
    taken_in: 2026-03-02
    instrument: {kind: clarinet, description: "B flat, modern", materials: "grenadilla, nickel-silver keys"}
    answers: {owner_aim: play_daily}
    damages:
      - family: posts
        place: low E key, upper post
        story: Torn out when the case fell; the hole is coned and dry.
        answers: {post_problem: torn_out, post_shank: threaded_good, post_hole: coned_out, hole_diameter_top: 4.57 mm}
        chosen: post_hidden_bushing
        done: Brass bushing, glued with epoxy.
        repaired_on: 2026-03-09
        outcome: {held: yes, looked: 2026-09-14, note: Tight after one season.}
  - title: Side key post loose
    instrument: {kind: oboe}
    damages:
      - family: posts
        place: side key
        answers: {post_problem: torn_out, post_shank: threaded_worn, post_hole: sound_threads}
"""


@pytest.fixture
def recorded(casebook: Casebook, write: Write) -> Casebook:
    """A book with the two cases."""
    said = casebook("record", write("two.yaml", TWO))
    assert said.status == 0, said.err
    assert said.out.splitlines()[0] == "B-0142"
    assert len(said.out.splitlines()) == 2
    return casebook


def test_a_case_is_shown_whole_as_it_was_decided(recorded: Casebook) -> None:
    """Words, answers by their labels, decision with the advice and packs of then, outcome."""
    said = recorded("show", "B-0142")
    assert said.status == 0
    for words in (
        "Low E post torn out", "hole in the body: Coned out", "Hidden threaded bushing", "advised then",
        "Brass bushing, glued", "2026-09-14 holding",
    ):  # fmt: skip
        assert words in said.out
    data = recorded("show", "b-0142", "--json").data
    assert data["damages"][0]["looks"][0]["answers"]["hole_diameter_top"] == "4.57 mm"
    assert data["damages"][0]["choice"]["advice"]["advice"]["family"] == "posts"


def test_showing_does_not_compute_anew(recorded: Casebook, tmp_path: Path) -> None:
    """With other packs laid over, the advice of then is shown to the letter."""
    before = recorded("show", "B-0142", "--json").data["damages"][0]["choice"]
    packs = tmp_path / "packs"
    packs.mkdir()
    from casebook.resources import folder

    text = (folder("rules") / "posts.yaml").read_text(encoding="utf-8")
    (packs / "posts.yaml").write_text(text.replace('version: "1"', 'version: "99"'), encoding="utf-8")
    after = recorded("--packs", str(packs), "show", "B-0142", "--json").data["damages"][0]["choice"]
    assert after == before


def test_a_known_number_is_updated_and_keeps_its_uid(recorded: Casebook, write: Write) -> None:
    """Recording it again replaces what was there."""
    uid = recorded("show", "B-0142", "--json").data["uid"]
    again = TWO.split("  - title: Side")[0].replace("Tight after one season.", "Still tight.")
    assert recorded("record", write("again.yaml", again), "--json").data == ["B-0142"]
    data = recorded("show", "B-0142", "--json").data
    assert data["uid"] == uid
    assert data["damages"][0]["followups"][0]["note"] == "Still tight."


def test_an_update_leaves_alone_what_it_does_not_say(recorded: Casebook, write: Write) -> None:
    """A few lines that add an outcome and one answer lose nothing of the case; the second damage is new."""
    few = """\
cases:
  - number: B-0142
    damages:
      - family: posts
        answers: {flange_diameter: 7 mm}
        outcome: {held: no, looked: 2027-02-01, cause: glue}
      - family: posts
        place: low E key, lower post
"""
    before = recorded("show", "B-0142", "--json").data
    assert recorded("record", write("few.yaml", few)).status == 0
    after = recorded("show", "B-0142", "--json").data
    damage = after["damages"][0]
    assert damage["looks"][0]["answers"] == before["damages"][0]["looks"][0]["answers"] | {
        "flange_diameter": "7 mm"
    }
    assert [followup["held"] for followup in damage["followups"]] == ["yes", "no"]
    assert damage["choice"] == before["damages"][0]["choice"]
    assert damage["done"] == before["damages"][0]["done"]
    assert [d["number"] for d in after["damages"]] == [1, 2]
    assert {key: after[key] for key in ("uid", "title", "taken_in", "instrument", "answers")} == {
        key: before[key] for key in ("uid", "title", "taken_in", "instrument", "answers")
    }


def test_find_forgives_typing_and_units(recorded: Casebook) -> None:
    """A slip of the finger and another unit still find the case."""
    for words in (("epoxi",), (".180",), ("180", "thou"), ("brass", "bushng"), ("B-0142",)):
        said = recorded("find", *words, "--json")
        assert said.status == 0, words
        assert said.data[0]["case"] == "B-0142", words
        assert {"case", "damage", "title", "score", "agrees", "differs", "outcome"} <= set(said.data[0])


def test_find_says_when_there_is_nothing(recorded: Casebook) -> None:
    """Status 1, one line."""
    said = recorded("find", "zeppelin")
    assert said.status == 1
    assert said.out == ""
    said.one_line()


@pytest.mark.parametrize(
    "words", ['"', "key-55 NEAR(", "C#", "* OR", "'; DROP TABLE case;--", "♭", "(", ":", "-"]
)
def test_no_search_is_a_syntax_error(recorded: Casebook, words: str) -> None:
    """Whatever is typed is words to look for."""
    assert recorded("find", words).status in (0, 1)


def test_similar_leaves_the_case_itself_out(recorded: Casebook, write: Write) -> None:
    """From a case, and from an answers file."""
    assert [hit["case"] for hit in recorded("similar", "B-0142", "--json").data] != ["B-0142"]
    text = "family: posts\nanswers: {post_shank: threaded_good, post_hole: coned_out}\n"
    hits = recorded("similar", write("a.yaml", text), "--json").data
    assert hits[0]["case"] == "B-0142"
    assert any("Coned out" in line for line in hits[0]["agrees"])
    assert "holding" in hits[0]["outcome"]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("post_shank: threaded_good", "post_shenk: threaded_good"), "unknown question 'post_shenk'"),
        (("post_hole: coned_out", "post_hole: coned"), "unknown answer 'coned'"),
        (("4.57 mm", "4.57"), "unit"),
        (
            ("post_hidden_bushing", "post_hidden_bushin"),
            "unknown strategy 'post_hidden_bushin'; did you mean",
        ),
        (("family: posts", "family: pots"), "no rule pack for 'pots'"),
        (("2026-03-02", "2026-02-30"), "taken_in"),
        (("held: yes", "held: maybe"), "held"),
        (("owner_aim: play_daily", "owner_aim: play_hourly"), "play_hourly"),
    ],
)
def test_a_broken_case_file_stores_nothing(
    recorded: Casebook, write: Write, change: tuple[str, str], says: str
) -> None:
    """Status 3, one line with the file and the line; not even the good case beside it is stored."""
    text = TWO.replace(*change).replace("B-0142", "B-0999")
    said = recorded("record", write("bad.yaml", text))
    assert said.status == 3
    line = said.one_line()
    assert "bad.yaml, line" in line
    assert says in line
    assert recorded("show", "B-0999").status == 1
    assert len(recorded("similar", "B-0142", "--json").data) == 1


def test_a_book_that_is_not_there_is_a_storage_problem(casebook: Casebook, tmp_path: Path) -> None:
    """Status 4, one line; a look never makes a book."""
    said = casebook("show", "B-0142")
    assert said.status == 4
    said.one_line()
    assert not (tmp_path / "book.db").exists()
    junk = tmp_path / "junk.db"
    junk.write_bytes(b"this is no book at all" * 100)
    said = casebook("--book", str(junk), "find", "a")
    assert said.status == 4
    said.one_line()
    assert junk.read_bytes().startswith(b"this is no book")


def test_packs_are_listed_and_described(casebook: Casebook) -> None:
    """Id, version, title; a JSON Schema for editors."""
    assert {"cross_cutting", "posts"} <= {pack["id"] for pack in casebook("packs", "--json").data}
    assert "strategies" in casebook("packs", "schema").data["properties"]


def test_checking_a_pack_of_ones_own(casebook: Casebook, tmp_path: Path) -> None:
    """A dead end is found with the answers that lead there, status 1; a broken file is status 3."""
    pack = tmp_path / "whistles.yaml"
    pack.write_text(
        """\
pack: whistles
version: "1"
title: Whistles
scope: A pack of one's own.
questions:
  whistle_sounds:
    name: sound
    ask: Does it sound?
    look: Blow.
    kind: yes_no
    stage: part
strategies:
  whistle_leave:
    title: Leave it
    what: It sounds.
    keeps_original: All
    original: all
    reversible: yes
    strength: light
    seen: hidden
    serviceable: yes
    fits_when: {whistle_sounds: yes}
    hours: {low: 0, likely: 0, high: 0}
    steps: [Leave it.]
""",
        encoding="utf-8",
    )
    said = casebook("packs", "check", str(pack))
    assert said.status == 1
    assert "a dead end" in said.out
    assert "whistle_sounds: no" in said.out
    pack.write_text(pack.read_text().replace("whistle_sounds: yes}", "whistle_sound: yes}"))
    said = casebook("packs", "check", str(pack))
    assert said.status == 3
    assert (
        "whistles.yaml, line 22: whistle_leave: fits_when: unknown question or finding 'whistle_sound'"
        in said.one_line()
    )
    assert casebook("packs", "check", str(tmp_path / "none")).status == 2


def test_the_demo_prints_the_main_job_once(casebook: Casebook) -> None:
    """Without a terminal: a damage triaged, its numbers, its like in the past, the record."""
    said = casebook("demo")
    assert said.status == 0, said.err
    for words in (
        "What could be done",
        "wood to bore",
        "Its like in the past",
        "Finding one again",
        "The record",
    ):
        assert words in said.out


def test_without_a_terminal_the_screens_do_not_open(casebook: Casebook) -> None:
    """One line that says which command does the same."""
    said = casebook()
    assert said.status == 2
    assert "casebook triage FILE" in said.one_line()


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_an_example(casebook: Casebook, command: str) -> None:
    """`--help` exits 0 and shows how the command is used."""
    said = casebook(command, "--help")
    assert said.status == 0
    assert "example: casebook" in said.out


@pytest.mark.parametrize(
    "words",
    [("nonsense",), ("find",), ("find", "a", "--limit", "0"), ("--unit", "ell", "packs"), ("packs", "chek")],
)
def test_wrong_use_is_status_2(casebook: Casebook, words: tuple[str, ...]) -> None:
    """Wrong words never reach a command."""
    assert casebook(*words).status == 2
