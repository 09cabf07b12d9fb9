"""Conditions as written in a pack: what each form asks of what is possible."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casebook.guide.knowledge import Knowledge
from casebook.guide.space import question_values
from casebook.guide.state import state_of
from casebook.strict_yaml import parse
from tests.guide.tiny import guide_from, known, pack, question

GUIDE = guide_from(
    pack(
        questions=[
            question("solder", ["none", "soft", "hard"]),
            question(
                "where", ["shank", "wood", "hinge"], "asked_when: {solder: {not: none}}", kind="several"
            ),
            question("depth", [], "asked_when: {solder: none}", kind="length"),
        ],
        terms="clean: {solder: none}\n",
    )
)

# Condition, answers, truth.
FORMS = [
    ("solder: soft", {"solder": "soft"}, True),
    ("solder: soft", {"solder": ["soft", "hard"]}, None),
    ("solder: [soft, hard]", {"solder": ["soft", "hard"]}, True),
    ("solder: {not: none}", {"solder": ["soft", "hard"]}, True),
    ("where: shank", {"where": {"all": ["shank", "wood"]}}, True),
    ("where: {only: shank}", {"where": {"all": ["shank", "wood"]}}, False),
    ("where: {only: shank}", {"where": "shank"}, True),
    ("where: {all: [shank, wood]}", {"where": {"all": ["shank", "wood", "hinge"]}}, True),
    ("where: {all: [shank, wood]}", {"where": "shank"}, False),
    ("where: {not: shank}", {"solder": "none"}, True),
    ("where: shank", {"solder": "none"}, False),
    ("where: does_not_apply", {"solder": "none"}, True),
    ("depth: does_not_apply", {"solder": "soft"}, True),
    ("depth: does_not_apply", {"depth": "3 mm"}, False),
    ("clean: yes", {"solder": "none"}, True),
    ("clean: no", {"solder": "none"}, False),
    ("not: {clean: yes}", {"solder": "hard"}, True),
    ("{solder: soft, where: wood}", {"solder": "soft"}, None),
    ("any: [{solder: soft}, {solder: {not: soft}}]", {}, True),
    ("all: [{solder: soft}, {solder: hard}]", {}, False),
]


@pytest.mark.parametrize(("condition", "answers", "truth"), FORMS)
def test_every_form_of_a_condition(condition: str, answers: dict[str, object], truth: bool | None) -> None:
    """Each form is true, false or unknown as its words say."""
    compiled = GUIDE.space.condition(parse(condition, "c"), "c", "test")
    assert compiled.truth(state_of(GUIDE, known(GUIDE, **answers)).box) is truth


def test_nothing_known_means_everything_possible() -> None:
    """Before the first answer no value of any question is out."""
    box = state_of(GUIDE, Knowledge()).box
    for name in GUIDE.questions:
        variable = GUIDE.space.by_name[name]
        assert box[variable.index] == variable.full


@given(
    st.integers(2, 6),
    st.lists(st.sets(st.integers(0, 5), min_size=2, max_size=3), max_size=2),
    st.sets(st.integers(0, 5), max_size=2),
)
def test_several_answers_hold_together_as_the_pack_allows(
    n: int, apart: list[set[int]], alone: set[int]
) -> None:
    """The values are exactly the sets in which no two are set apart and what stands alone does."""
    ids = [f"a{k}" for k in range(n)]
    groups = [[f"a{k}" for k in sorted(group) if k < n] for group in apart]
    groups = [group for group in groups if len(group) > 1]
    lonely = [f"a{k}" for k in sorted(alone) if k < n]
    more = (f"apart: {groups}\n" if groups else "") + (f"alone: {lonely}\n" if lonely else "")
    values = question_values(
        guide_from(pack(questions=[question("q", ids, more, kind="several")])).questions["q"]
    )
    expected = {
        frozenset(chosen)
        for size in range(1, n + 1)
        for chosen in combinations(ids, size)
        if all(len(set(group) & set(chosen)) < 2 for group in groups)
        and (size == 1 or not set(lonely) & set(chosen))
    }
    assert set(values) == expected
    assert len(values) == len(expected)
