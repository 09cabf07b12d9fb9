"""What a pack cannot mean is refused in one line with file, line and the nearest known word, and at once."""

from __future__ import annotations

import pytest

from casebook.guide.build import build
from casebook.guide.pack_file import read_pack
from casebook.guide.space import MAX_COMBINATIONS
from casebook.strict_yaml import BrokenFile
from tests.guide.tiny import FILE, HEAD, guide_from, pack, question, strategy

SOUND = {
    "questions": "".join(
        [
            question("hole", ["sound", "worn"]),
            question("width", [], "least: 1 mm\nmost: 9 mm", kind="length"),
            question("turns", [], "least: 0\nmost: 9", kind="count"),
        ]
    ),
    "findings": (
        "slack:\n  name: slack\n  'yes': little\n  'no': much\n  worksheet: compare\n  check: at_most\n"
        "  figure: difference\n  inputs: {this: width}\n  settings: {other: 2 mm}\n"
    ),
    "strategies": strategy("refit", "fits_when: [{hole: sound, slack: 'yes'}]"),
    "doubts": "hidden:\n  when: {hole: worn}\n  questions: [hole]\n  because: so\n",
}


def _refusal(body: str) -> str:
    with pytest.raises(BrokenFile) as refused:
        guide_from(body)
    said = str(refused.value)
    assert "\n" not in said
    assert len(said) < 400
    return said


def test_the_pack_to_be_spoilt_is_sound() -> None:
    """The pack that the refusals below are made from is taken as it is."""
    assert list(guide_from(pack(**SOUND)).strategies) == ["refit"]


# What is put in place of what, and what must be said of it.
SPOILT = {
    "an unknown question": ("hole: sound, slack", "hol: sound, slack", "did you mean hole?"),
    "an unknown answer": ("hole: sound, slack", "hole: sond, slack", "did you mean sound?"),
    "an unknown finding": ("slack: 'yes'}", "slak: 'yes'}", "did you mean slack?"),
    "an unknown worksheet": ("worksheet: compare", "worksheet: compere", "did you mean compare?"),
    "an unknown check": ("check: at_most", "check: at_must", "did you mean at_most?"),
    "an unknown figure": ("figure: difference", "figure: diference", "did you mean difference?"),
    "an unknown input": ("{this: width}", "{thos: width}", "did you mean this?"),
    "an unknown source": ("{this: width}", "{this: widht}", "did you mean width?"),
    "an unknown setting": ("{other: 2 mm}", "{othr: 2 mm}", "did you mean other?"),
    "a setting without sense": ("{other: 2 mm}", "{other: blue}", "blue"),
    "an unknown key": ("figure: difference", "figur: difference", "did you mean figure?"),
    "an unknown stage": ("stage: part", "stage: parts", "did you mean part?"),
    "an unknown doubted question": ("questions: [hole]", "questions: [hold]", "did you mean hole?"),
    "an unknown lifting strategy": ("because: so", "because: so\n    lifted_by: [refitt]", "did you mean refit?"),
    "a key that stands twice": ("name: slack", "name: slack\n    name: slack", "stands here twice (first on line "),
    "an anchor": ("{this: width}", "&a {this: width}", "anchor &a is not allowed"),
    "an alias": ("{this: width}", "*a", "*a"),
    "a tag": ("name: slack", "name: !!str slack", "tag "),
    "a list as condition": ("when: {hole: worn}", "when: [{hole: worn}]", "a list is no condition"),
    "a word as condition": ("when: {hole: worn}", "when: worn", "a condition is wanted here"),
    "an empty any": ("when: {hole: worn}", "when: {any: []}", "any wants a list of conditions"),
    "a length in a condition": ("when: {hole: worn}", "when: {width: 3 mm}", "unknown answer '3 mm'"),
    "a length against a count": ("{other: 2 mm}", "{other: '2'}", "a length cannot be compared with a count"),
    "a count against a length": ("{this: width}", "{this: turns}", "a length cannot be compared with a count"),
    "both at once": ("{this: width}", "{this: width, by: turns}", "a length cannot be compared with a count"),
    "a choice as a size": ("{this: width}", "{this: hole}", "wants a any_size; hole is a choice"),
    "not known in fits_when": ("slack: 'yes'}", "not_known: hole}", "may trigger a caution, a stop or a rank"),
    "an id taken twice": ("refit:", "hole:", "hole is taken already, by questions of pack tiny"),
    "a reserved id": ("refit:", "any:", "any is taken already, by the guide itself"),
    "a former id in use": ("least: 1 mm", "was: [hole]\n    least: 1 mm", "hole is taken already"),
    "a reserved answer": ("worn: worn", "not_known: worn", "not_known is no answer of its own"),
    "a word where a number is wanted": ("low: 1,", "low: few,", "a number is wanted here"),
    "hours out of order": ("low: 1,", "low: 5,", "hours want low <= likely <= high"),
    "a list where text is wanted": ("name: slack", "name: [slack]", "text is wanted here"),
    "text where a mapping is wanted": ("inputs: {this: width}", "inputs: width", "a mapping of names is wanted"),
    "an empty text": ("name: slack", "name: ''", "is empty"),
    "a control character": ("name: slack", 'name: "sla\\eck"', "control character"),
    "an asked_when of its own": ("name: hole", "name: hole\n    asked_when: {hole: worn}", "round in a circle"),
    "an asked_when of a finding": ("name: hole", "name: hole\n    asked_when: {slack: 'yes'}", "questions only"),
    "a finding of its own figure": ("{this: width}", "{this: {finding: slack}}", "findings go round in a circle"),
    "a contradiction of contradictions": ("when: {hole: worn}", "when: {answers_disagree: 'yes'}", "cannot decide"),
}  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), SPOILT.values(), ids=SPOILT.keys())
def test_refusals_name_line_and_remedy(old: str, new: str, said: str) -> None:
    """Each is refused by a line that names the file, the line where it stands and what is meant."""
    body = pack(**SOUND)
    assert body.count(old) >= 1
    spoilt = body.replace(old, new, 1)
    line = (HEAD + body[: body.index(old)]).count("\n") + 1
    message = _refusal(spoilt)
    assert said in message
    assert message.startswith(f"{FILE}, line ")
    named = int(message.split("line ")[1].split(":")[0])
    # What spoils a whole entry is told at the entry's first line.
    first_of_entry = (HEAD + spoilt).split("\n")[:line]
    starts = [
        n for n, row in enumerate(first_of_entry, 1) if row.startswith("  ") and not row.startswith("   ")
    ]
    assert named in {line, line + 1, starts[-1]}, message


def test_asked_when_in_a_circle_is_refused() -> None:
    """Two questions that each exist only by the other's answer are named, one after the other."""
    body = pack(
        questions=[
            question("one", ["a", "b"], "asked_when: {two: a}"),
            question("two", ["a", "b"], "asked_when: {one: a}"),
        ]
    )
    assert "one -> two -> one" in _refusal(body) or "two -> one -> two" in _refusal(body)


def test_a_second_document_is_refused() -> None:
    """Two documents in a file are one too many."""
    assert "a second document begins here" in _refusal(pack(**SOUND) + "---\npack: other\n")


HOSTILE = {
    "ten million characters": lambda: "#" + "x" * 10_000_000,
    "deep nesting": lambda: "terms:\n  deep: " + "{not: " * 60 + "{}" + "}" * 60,
    "terms that double": lambda: pack(
        questions=[question("q", ["a", "b"])],
        terms="t0: {q: a}\n"
        + "".join(f"t{n}: {{all: [{{t{n - 1}: 'yes'}}, {{t{n - 1}: 'yes'}}]}}\n" for n in range(1, 60)),
    ),
    "terms in a long row": lambda: pack(
        questions=[question("q", ["a", "b"])],
        terms="t0: {q: a}\n" + "".join(f"t{n}: {{t{n - 1}: 'no'}}\n" for n in range(1, 2000)),
    ),
    "a tangled condition": lambda: pack(
        questions=[question(f"q{n}", ["a", "b"]) for n in range(40)],
        strategies=[strategy("s", "fits_when: [" + ", ".join(
            f"{{any: [{{q{2 * n}: a}}, {{q{2 * n + 1}: a}}]}}" for n in range(20)
        ) + "]")],
    ),
    "too many combinations": lambda: pack(
        questions=[question("q", [f"a{n}" for n in range(60)], kind="several")]
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_packs_are_refused_before_they_take_time(name: str) -> None:
    """Each would run for ever if it were only tried; that this test ends is half of what it says."""
    assert _refusal(HOSTILE[name]()).startswith(FILE)


def test_a_long_row_of_questions_is_taken() -> None:
    """Hundreds of questions that hang each on the one before are no reason to fail."""
    rows = [question("q0", ["a", "b"])]
    rows += [question(f"q{n}", ["a", "b"], f"asked_when: {{q{n - 1}: a}}") for n in range(1, 1500)]
    assert len(guide_from(pack(questions=rows)).question_order) == 1500


def test_several_answers_that_are_set_apart_make_few_combinations() -> None:
    """Sixty answers of which one can hold at a time are sixty values, not two to the sixtieth."""
    names = [f"a{n}" for n in range(60)]
    text = question("q", names, f"apart: [[{', '.join(names)}]]", kind="several")
    assert len(guide_from(pack(questions=[text])).space.by_name["q"].values) == 60
    assert MAX_COMBINATIONS >= 60


def test_an_empty_file_is_no_pack() -> None:
    """A file with nothing in it is told so."""
    with pytest.raises(BrokenFile, match="is empty: a rule pack is wanted"):
        build(None, read_pack("# nothing\n", FILE))
