"""A pack of one's own: copied, edited, checked and laid over, while the cases of before still read."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.records.book import Book
from tests.guide.shipped import packs
from tests.line import Casebook

Write = Callable[[str, str], str]

SMALL = Path(__file__).parent.parent / "guide" / "small_pack.yaml"

OLD_CASE = """\
cases:
  - number: B-0007
    title: Low E post out
    taken_in: 2026-03-02
    instrument: {kind: clarinet}
    damages:
      - family: posts
        place: low E key
        answers: {post_problem: torn_out, post_shank: threaded_worn, post_hole: sound_threads}
        chosen: post_rethread_shank
"""

ANSWERS = """\
family: posts
answers:
  owner_aim: play_daily
  owner_consent: sound_repair
  post_problem: torn_out
  post_shank: {not: [smooth, threaded_worn]}
  post_hole: enlarged
"""

OF_THE_SHOP = """\
strategies:
  shop_tallow:
    title: Refit with tallow for the evening
    what: Tallowed thread round the shank, so that tonight's concert can be played.
    keeps_original: All
    original: all
    reversible: yes
    strength: light
    seen: hidden
    serviceable: yes
    fits_when:
      - post_problem: torn_out
      - owner_aim: play_daily
    hours: {low: 0.1, likely: 0.2, high: 0.3}
    waits: [{what: rest, of: the repair itself, least: 24 h, most: 1 week}]
    steps:
      - Wind, seat by hand, tell the owner that it comes back.
"""


def _edited() -> str:
    """The posts pack as a shop might edit it: a question and an answer renamed, a strategy added."""
    text = packs()["posts"].text
    text = re.sub(r"\bpost_shank\b", "shank_as_found", text)
    text = re.sub(r"\bthreaded_worn\b", "thread_worn_down", text)
    text = text.replace(
        "  shank_as_found:\n",
        "  shank_as_found:\n    was: [post_shank]\n    answers_were: {threaded_worn: thread_worn_down}\n",
        1,
    )
    assert "was: [post_shank]" in text
    return text.replace("strategies:\n", OF_THE_SHOP, 1)


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A folder with the shop's own posts pack."""
    folder = tmp_path / "own packs"
    folder.mkdir()
    (folder / "posts.yaml").write_text(_edited(), encoding="utf-8")
    return folder


def test_the_edited_copy_is_proved(casebook: Casebook, own: Path) -> None:
    """The check reads the copy in its folder and finds nothing to mend."""
    said = casebook("packs", "check", str(own))
    assert (said.status, said.out) == (0, "posts: proved\n")


def test_it_takes_the_place_of_the_shipped_one(casebook: Casebook, own: Path) -> None:
    """Listed from its own folder; every other pack stays as shipped."""
    shipped = {pack["id"]: pack for pack in casebook("packs", "--json").data}
    mine = {pack["id"]: pack for pack in casebook("--packs", str(own), "packs", "--json").data}
    assert mine.keys() == shipped.keys()
    assert [id for id in mine if mine[id]["digest"] != shipped[id]["digest"]] == ["posts"]
    assert mine["posts"]["file"].startswith(str(own))


def test_old_answers_mean_the_same(casebook: Casebook, own: Path, write: Write) -> None:
    """An answers file with the ids of before brings every shipped strategy to the standing it had."""
    file = write("answers.yaml", ANSWERS)
    before = {s["id"]: s["standing"] for s in casebook("triage", file, "--json").data["strategies"]}
    after = casebook("--packs", str(own), "triage", file, "--json").data["strategies"]
    standing = {s["id"]: s["standing"] for s in after}
    assert standing.pop("shop_tallow") == "fits"
    assert standing == before


def test_old_cases_still_read_and_show(casebook: Casebook, own: Path, write: Write) -> None:
    """A case recorded under the shipped pack is shown under the shop's own, in the words of now."""
    assert casebook("record", write("case.yaml", OLD_CASE)).status == 0
    said = casebook("--packs", str(own), "show", "B-0007")
    assert said.status == 0, said.err
    label = packs()["posts"].questions["post_shank"].answers["threaded_worn"]
    assert label in said.out
    assert said.out == casebook("show", "B-0007").out


def test_new_cases_are_recorded_with_old_ids_and_new(casebook: Casebook, own: Path, write: Write) -> None:
    """Somebody's old file and this year's both go into the book, and the shop's strategy can be chosen."""
    new = OLD_CASE.replace("post_shank: threaded_worn", "shank_as_found: thread_worn_down")
    new = new.replace("B-0007", "B-0008").replace("post_rethread_shank", "shop_tallow")
    for name, text in (("old.yaml", OLD_CASE), ("new.yaml", new)):
        said = casebook("--packs", str(own), "record", write(name, text))
        assert said.status == 0, said.err
    assert "Refit with tallow" in casebook("--packs", str(own), "show", "B-0008").out
    assert casebook("show", "B-0008").status == 0


BROKEN = [
    ("a question spelt wrong", "      - post_problem: torn_out\n      - owner_aim", "      - post_problm: torn_out\n      - owner_aim", "post_problem"),
    ("an answer spelt wrong", "      - owner_aim: play_daily\n    hours: {low: 0.1, likely: 0.2, high: 0.3}", "      - owner_aim: play_dayly\n    hours: {low: 0.1, likely: 0.2, high: 0.3}", "play_daily"),
    ("a waiting time without a unit", "least: 24 h, most: 1 week}]\n    steps:\n      - Wind", "least: 24, most: 1 week}]\n    steps:\n      - Wind", "a time is wanted"),
    ("a renamed answer that is none", "{threaded_worn: thread_worn_down}", "{threaded_worn: thread_worn_dwn}", "thread_worn_down"),
]  # fmt: skip


@pytest.mark.parametrize(("before", "after", "hint"), [row[1:] for row in BROKEN], ids=[row[0] for row in BROKEN])  # fmt: skip
def test_a_slip_is_named_by_file_and_line(
    casebook: Casebook, own: Path, before: str, after: str, hint: str
) -> None:
    """One line, with the file, the line of the slip and what is near it."""
    text = (own / "posts.yaml").read_text(encoding="utf-8")
    broken = text.replace(before, after, 1)
    assert broken != text
    (own / "posts.yaml").write_text(broken, encoding="utf-8")
    said = casebook("packs", "check", str(own))
    assert said.status == 3
    where = re.search(r"posts\.yaml, line (\d+)", said.one_line())
    assert where, said.err
    place = next(
        n for n, (a, b) in enumerate(zip(text.split("\n"), broken.split("\n"), strict=True), 1) if a != b
    )
    assert abs(int(where[1]) - place) <= 3, said.err
    assert hint in said.err


def test_a_dead_end_is_told_with_its_answers(casebook: Casebook, tmp_path: Path) -> None:
    """A family that leaves some answers without anything to do fails its check, and the answers are named."""
    text = SMALL.read_text(encoding="utf-8").replace("          - stand_gap_small: no\n", "")
    (tmp_path / "stands.yaml").write_text(text, encoding="utf-8")
    said = casebook("packs", "check", str(tmp_path / "stands.yaml"))
    assert said.status == 1
    assert "stand_gap_small: the gap is over 0.5 mm" in " ".join(said.out.split())


def test_the_small_pack_is_proved_and_used(casebook: Casebook, tmp_path: Path, write: Write) -> None:
    """The pack of the contributor's guide checks clean, and advises as a family of its own."""
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "stands.yaml").write_text(SMALL.read_text(encoding="utf-8"), encoding="utf-8")
    assert casebook("packs", "check", str(SMALL)).out == "stands: proved\n"
    answers = write("a.yaml", "family: stands\nanswers: {stand_leg: leg_loose, stand_gap: 0.3 mm}\n")
    said = casebook("--packs", str(tmp_path / "own"), "triage", answers, "--json")
    assert said.data["strategies"][0]["id"] == "stand_shim"
    assert said.data["strategies"][0]["waits"][0]["least_hours"] == pytest.approx(1 / 6)


def test_a_lead_to_nowhere_is_refused(casebook: Casebook, tmp_path: Path) -> None:
    """A strategy that leads to a family that has no pack is named, with the nearest that has."""
    text = packs()["symptoms"].text.replace("leads_to: keywork", "leads_to: keyworks")
    (tmp_path / "symptoms.yaml").write_text(text, encoding="utf-8")
    said = casebook("packs", "check", str(tmp_path / "symptoms.yaml"))
    assert said.status == 3
    assert "look_keywork: leads_to keyworks" in said.one_line()
    assert "did you mean keywork?" in said.err


def test_what_leads_on_removes_nothing(casebook: Casebook, tmp_path: Path) -> None:
    """Looking is no repair: a strategy that leads to a family and cuts is refused."""
    text = packs()["symptoms"].text.replace("    original: all\n", "    original: part\n")
    (tmp_path / "symptoms.yaml").write_text(text, encoding="utf-8")
    said = casebook("packs", "check", str(tmp_path / "symptoms.yaml"))
    assert said.status == 3
    assert "removes nothing" in said.one_line()


def test_a_renamed_question_keeps_its_answer_at_the_bench(
    casebook: Casebook, own: Path, tmp_path: Path, write: Write
) -> None:
    """What was answered before the renaming stands there, and is kept once when it is answered anew."""
    assert casebook("record", write("case.yaml", OLD_CASE)).status == 0
    with Book.open(tmp_path / "book.db") as book:
        desk = Desk(book, Library(own), date(2026, 11, 25))
        assert "worn" in desk.look("B-0007", 1).shown("shank_as_found")
        desk.look("B-0007", 1).answer("shank_as_found", "smooth")
        kept = book.case("B-0007").damage(1).looks[-1].answers
        assert {id: kept[id] for id in kept if "shank" in id} == {"shank_as_found": "smooth"}
        desk.look("B-0007", 1).answer("shank_as_found", None)
        assert desk.look("B-0007", 1).shown("shank_as_found") == "not known yet"
