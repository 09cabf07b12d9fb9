"""Small rule packs: written out in a test, or drawn at random."""

from __future__ import annotations

import json
from textwrap import dedent, indent
from typing import Any

from hypothesis import strategies as st

from casebook.guide.build import build
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge, read_answers
from casebook.guide.pack_file import read_pack
from casebook.strict_yaml import parse

FILE = "tiny.yaml"
HEAD = "pack: tiny\nversion: '1'\ntitle: Tiny\nscope: For a test.\n"
_SCALES = "original: all\nreversible: yes\nstrength: medium\nseen: hidden\nserviceable: yes\n"


def guide_from(body: str) -> Guide:
    """Build a guide from what stands below a pack's head."""
    return build(None, read_pack(HEAD + dedent(body), FILE))


def known(guide: Guide, **answers: Any) -> Knowledge:
    """Read answers given as in an answers file."""
    return read_answers(guide, parse(json.dumps(answers), "answers"), "answers")[0]


def question(id: str, answers: list[str], more: str = "", stage: str = "part", kind: str = "choice") -> str:
    """Write a question; `more` is what stands in it beside the usual."""
    labels = "".join(f"    {answer}: {answer.replace('_', ' ')}\n" for answer in answers)
    listed = f"  answers:\n{labels}" if answers else ""
    return (
        f"{id}:\n  name: {id.replace('_', ' ')}\n  ask: What of {id}?\n  look: Look.\n"
        f"  kind: {kind}\n  stage: {stage}\n{listed}{indent(dedent(more).strip(), '  ')}\n"
    )


def strategy(id: str, more: str, scales: str = _SCALES, hours: tuple[int, int, int] = (1, 2, 3)) -> str:
    """Write a strategy; `more` is what stands in it beside the usual."""
    low, likely, high = hours
    return (
        f"{id}:\n  title: To {id}\n  what: What it is.\n  keeps_original: All\n"
        f"  hours: {{low: {low}, likely: {likely}, high: {high}}}\n  steps: [Do it.]\n"
        f"{indent(scales, '  ')}{indent(dedent(more).strip(), '  ')}\n"
    )


def pack(**parts: list[str] | str) -> str:
    """Put a pack's body together: questions=[...], strategies=[...], anything else as text."""
    return "".join(
        f"{kind}:\n{indent(body if isinstance(body, str) else ''.join(body), '  ')}\n"
        for kind, body in parts.items()
    )


# Random packs: questions q0, q1 ... with answers a, b (and c), one of them hanging on another's answer.


def _condition(values: dict[str, list[str]]) -> st.SearchStrategy[str]:
    atom = st.sampled_from(sorted(values)).flatmap(
        lambda q: st.sampled_from(values[q]).map(lambda answer: f"{{{q}: {answer}}}")
    )

    def joined(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
        several = st.lists(inner, min_size=2, max_size=3)
        return st.one_of(
            several.map(lambda parts: f"{{all: [{', '.join(parts)}]}}"),
            several.map(lambda parts: f"{{any: [{', '.join(parts)}]}}"),
            inner.map(lambda part: f"{{not: {part}}}"),
        )

    return st.recursive(atom, joined, max_leaves=4)


@st.composite
def random_packs(draw: st.DrawFn) -> str:
    """Draw the body of a small pack with rules of every kind that can move a proposal or a warning."""
    values = {
        f"q{n}": draw(st.sampled_from([["a", "b"], ["a", "b", "c"]])) for n in range(draw(st.integers(2, 4)))
    }
    condition = _condition(values)
    gated = draw(st.sampled_from([None, *list(values)[1:]]))
    questions = [
        question(
            q, answers, f"asked_when: {{q0: {draw(st.sampled_from(values['q0']))}}}" if q == gated else ""
        )
        for q, answers in values.items()
    ]
    strategies = []
    for n in range(draw(st.integers(1, 4))):
        original = draw(st.sampled_from(["all", "part"]))
        strength = draw(st.sampled_from(["strong", "light"]))
        scales = _SCALES.replace("original: all", f"original: {original}").replace("medium", strength)
        more = f"fits_when: [{draw(condition)}]\n"
        if draw(st.booleans()):
            more += f"not_when: [{draw(condition)}]\n"
        strategies.append(strategy(f"s{n}", more, scales))
    body = {"questions": questions, "strategies": strategies}
    if draw(st.booleans()):
        body["contradictions"] = [
            f"clash:\n  when: {draw(condition)}\n  questions: [q0, q1]\n  because: so\n"
        ]
    if draw(st.booleans()):
        doubted = draw(st.sampled_from(sorted(values)))
        body["doubts"] = [f"doubt:\n  when: {draw(condition)}\n  questions: [{doubted}]\n  because: so\n"]
    if draw(st.booleans()):
        body["stops"] = [f"halt:\n  says: Halt.\n  do: Ask.\n  when: {draw(condition)}\n"]
    if draw(st.booleans()):
        body["cautions"] = [f"hot:\n  level: danger\n  text: Hot.\n  when: {draw(condition)}\n"]
    text = pack(**body)
    if draw(st.booleans()):
        first = "scales: [strength, original]\n    because: first"
        text += f"ranking:\n  - when: {draw(condition)}\n    {first}\n  - {{scales: [original, strength], because: then}}\n"
    return text


@st.composite
def some_answers(draw: st.DrawFn, guide: Guide) -> Knowledge:
    """Draw answers to some of a small pack's questions."""
    knowledge = Knowledge()
    for name in guide.questions:
        variable = guide.space.by_name[name]
        exists = variable.full & ~variable.does_not_apply
        mask = draw(st.sampled_from([0, 0, *range(1, exists + 1)])) & exists
        if mask:
            knowledge = knowledge.with_answer(name, mask)
    return knowledge
