"""Packs that mean ill, or went badly wrong: one clear line, exit status 3, and never a hang.

No test here asserts a time: what would take for ever is stopped by the budget of the test run.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.line import Casebook

SMALL = (Path(__file__).parent.parent / "guide" / "small_pack.yaml").read_text(encoding="utf-8")


def _small(before: str, after: str) -> str:
    assert before in SMALL
    return SMALL.replace(before, after, 1)


def _alias_bomb() -> str:
    """Eleven levels of nine aliases each: 31 thousand million words if they were spelt out."""
    rows = ["a0: &a0 [" + ",".join("x" * 9) + "]"]
    rows += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 12)]
    return "\n".join(rows)


def _parity(questions: int) -> str:
    """A condition that asks whether an odd number of answers is yes: no short form exists."""
    asked = "".join(
        f"  q{n}: {{name: q, ask: q, look: q, kind: yes_no, stage: part}}\n" for n in range(questions)
    )
    condition = "{q0: yes}"
    for n in range(1, questions):
        condition = f"{{any: [{{q{n}: yes, not: {condition}}}, {{q{n}: no, all: {condition}}}]}}"
    text = _small("questions:\n", f"questions:\n{asked}")
    return text.replace("      - stand_leg: leg_loose\n", f"      - {condition}\n", 1)


def _circle(questions: int) -> str:
    """Questions that each wait for the next one round."""
    rows = "".join(
        f"  c{n}: {{name: q, ask: q, look: q, kind: yes_no, stage: part, asked_when: {{c{(n + 1) % questions}: yes}}}}\n"
        for n in range(questions)
    )
    return _small("questions:\n", f"questions:\n{rows}")


def _answers(count: int) -> str:
    """A question with that many answers, any of which may hold together."""
    rows = "".join(f"      leg_{n}: Fault {n}\n" for n in range(count))
    text = _small("    kind: choice\n", "    kind: several\n")
    return text.replace("      leg_split: Split\n", f"      leg_split: Split\n{rows}", 1)


LEG = "      - stand_leg: leg_loose\n"

# what it is, the pack, what the line must name
HOSTILE: list[tuple[str, Callable[[], str], str]] = [
    ("an alias bomb", _alias_bomb, "line 1: anchor &a0"),
    ("flow lists without end", lambda: "pack: " + "[" * 100_000, "nesting"),
    ("maps within maps", lambda: "".join("  " * n + f"a{n}:\n" for n in range(300)), "nested deeper than 40"),
    ("conditions within conditions",
     lambda: _small(LEG, "      - " + "{not: " * 500 + "{stand_leg: leg_loose}" + "}" * 500 + "\n"),
     "nested deeper than 40"),
    ("a key twice", lambda: _small("version:", "pack: stands\nversion:"), "line 2: pack stands here twice"),
    ("an answer twice", lambda: _small("      leg_split: Split\n", "      leg_split: Split\n      leg_split: Cracked\n"), "leg_split stands here twice"),
    ("10 MB in one line", lambda: "pack: stands\nscope: " + "x" * 10_000_000, "longer than"),
    ("10 MB of remarks", lambda: SMALL + "# remark\n" * 1_100_000, "longer than"),
    ("nothing", lambda: "", "is empty"),
    ("a list", lambda: "- pack\n- stands\n", "line 1"),
    ("a number where questions stand", lambda: _small("questions:\n", "questions: 3\nunasked:\n"), "unasked"),
    ("a list where text is wanted", lambda: _small("title: Stands", "title: [Stands]"), "line 3: pack: title"),
    ("text where hours are wanted", lambda: _small("low: 0.1", "low: soon"), "hours: low: a number"),
    ("a number of a hundred thousand digits", lambda: _small("low: 0.1", "low: " + "9" * 100_000), "a number is wanted"),
    ("a size beyond any exponent", lambda: _small("other: 0.5 mm", "other: 1e999999999 mm"), "no length"),
    ("a tag that would run something", lambda: _small("title: Stands", "title: !!python/object/apply:os.system [x]"), "line 3: tag"),
    ("a terminal escape", lambda: _small("title: Stands", 'title: "\\e[31mStands"'), "line 3: control character"),
    ("text that runs backwards", lambda: _small("title: Stands", "title: S\u202etands"), "line 3: control character"),
    ("two documents", lambda: f"{SMALL}\n---\n{SMALL}", "a second document"),
    ("a question of another pack", lambda: SMALL.replace("stand_wobbles", "post_problem"), "means something else in pack posts"),
    ("a question of the intake", lambda: SMALL.replace("stand_wobbles", "owner_aim"), "means something else in pack cross_cutting"),
    ("a strategy of another pack", lambda: SMALL.replace("stand_shim", "post_hidden_bushing"), "means something else in pack posts"),
    ("an id for two things", lambda: SMALL.replace("stand_shim", "stand_leg"), "stand_leg is taken already"),
    ("a question that waits for itself",
     lambda: _small("asked_when: {stand_wobbles: yes}", "asked_when: {stand_leg: leg_split}"), "circle: stand_leg -> stand_leg"),
    ("three thousand questions in a circle", lambda: _circle(3000), "circle: c0 -> c1"),
    ("a finding that draws on itself",
     lambda: _small("{this: stand_gap}", "{this: {finding: stand_gap_small}}"), "circle: stand_gap_small"),
    ("a length compared with a count",
     lambda: _small("inputs: {this: stand_gap}\n    settings: {other: 0.5 mm}", "inputs: {this: stand_gap, other: repairs_failed_here}"),
     "a length cannot be compared with a count"),
    ("a length compared with so many", lambda: _small("other: 0.5 mm", "other: 5 count"), "count is no unit of length"),
    ("a size in a condition", lambda: _small(LEG, "      - stand_gap: 0.5 mm\n"), "stand_gap: unknown answer '0.5 mm'"),
    ("not knowing as a reason", lambda: _small(LEG, "      - not_known: stand_leg\n"), "fits_when: what is not known"),
    ("a thousand sets of answers", lambda: _answers(40), "combinations of answers"),
    ("the parity of six answers and more", lambda: _parity(9), "stand_shim"),
    ("twenty thousand ways",
     lambda: _small(LEG, "      - {any: [" + ", ".join(["{stand_leg: leg_loose, stand_wobbles: yes}"] * 20_000) + "]}\n"),
     "too long or too deep"),
    ("a check that no worksheet makes", lambda: _small("check: at_most", "check: at_mots"), "did you mean at_most?"),
]  # fmt: skip


@pytest.mark.parametrize(("pack", "names"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE])
def test_one_clear_line(casebook: Casebook, tmp_path: Path, pack: Callable[[], str], names: str) -> None:
    """Status 3, the file, what is wrong, in a line that can be read."""
    file = tmp_path / "stands.yaml"
    file.write_text(pack(), encoding="utf-8")
    said = casebook("packs", "check", str(file))
    assert (said.status, said.out) == (3, ""), said.out
    line = said.one_line()
    assert line.startswith(f"casebook: {file}")
    assert names in line
    assert len(line) < len(str(file)) + 500


@pytest.mark.parametrize(("pack", "names"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE])
def test_laid_over_it_harms_no_other_family(
    casebook: Casebook, tmp_path: Path, pack: Callable[[], str], names: str
) -> None:
    """Among the shop's own packs it is refused by name, or lies there unused while the posts are triaged."""
    folder = tmp_path / "own"
    folder.mkdir()
    (folder / "stands.yaml").write_text(pack(), encoding="utf-8")
    answers = tmp_path / "answers.yaml"
    answers.write_text("family: posts\nanswers: {post_problem: torn_out}\n", encoding="utf-8")
    said = casebook("--packs", str(folder), "triage", str(answers), "--json")
    if said.status == 3:
        assert names in said.one_line()
    else:
        assert said.status == 0
        assert said.data["family"] == "posts"


def test_bytes_that_are_no_text(casebook: Casebook, tmp_path: Path) -> None:
    """A pack saved in another encoding, or no text at all, is told from one that is wrong."""
    (tmp_path / "stands.yaml").write_bytes(b"\xff\xfepack\x00")
    said = casebook("packs", "check", str(tmp_path / "stands.yaml"))
    assert said.status == 3
    assert "save it as UTF-8" in said.one_line()


def test_one_family_in_two_files(casebook: Casebook, tmp_path: Path) -> None:
    """Two packs of one id in a folder are refused rather than one of them taken."""
    for name in ("a.yaml", "b.yaml"):
        (tmp_path / name).write_text(SMALL, encoding="utf-8")
    said = casebook("--packs", str(tmp_path), "packs")
    assert said.status == 3
    assert "pack stands stands in" in said.one_line()


def test_a_question_that_is_never_asked(casebook: Casebook, tmp_path: Path) -> None:
    """A pack that reads well but asks for what cannot be fails its check, with the question named."""
    never = _small(
        "asked_when: {stand_leg: leg_loose}", "asked_when: {stand_leg: leg_loose, stand_wobbles: no}"
    )
    (tmp_path / "stands.yaml").write_text(never, encoding="utf-8")
    said = casebook("packs", "check", str(tmp_path / "stands.yaml"))
    assert said.status == 1
    place = next(n for n, row in enumerate(never.splitlines(), 1) if row == "  stand_gap:")
    assert f"line {place}: stand_gap: its asked_when can never apply" in " ".join(said.out.split())
