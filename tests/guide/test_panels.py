"""What a master would propose, case by case, written from the trade's notes before any rule."""

from __future__ import annotations

import pytest
from _pytest.mark import ParameterSet

from casebook.guide.advice import MOST_CAUTIONS, Advice, advise
from casebook.guide.next_question import next_questions
from tests.guide.shipped import Case, families, guide_of, panel


def _cases(saying: str = "name") -> list[ParameterSet]:
    """Those cases whose expectations say something of `saying`; every one has a name."""
    chosen = [case for case in panel() if saying in case.expected or saying == "name"]
    return [pytest.param(case, id=f"{case.family}: {case.name}") for case in chosen]


def _advice(case: Case) -> Advice:
    if case.family not in families():
        pytest.skip(f"no rule pack for {case.family} yet")
    return advise(guide_of(case.family), case.knowledge())


def _told(case: Case, key: str) -> list[str]:
    """Read one of the case's lists of ids."""
    return [str(id) for id in case.expected.get(key, [])]


@pytest.mark.parametrize("case", _cases())
def test_first_proposal_is_a_masters(case: Case) -> None:
    """One of the strategies a master would try stands first, and is not ruled out."""
    first = _advice(case).first
    assert (first.id, first.standing != "ruled_out") in {(id, True) for id in _told(case, "first")}, (
        first.because
    )


@pytest.mark.parametrize("case", _cases())
def test_nothing_harmful_fits(case: Case) -> None:
    """What a master would never do here does not stand as fitting."""
    advice = _advice(case)
    assert [id for id in _told(case, "never_fits") if advice.proposal(id).standing == "fits"] == []


@pytest.mark.parametrize("case", _cases("cautions"))
def test_cautions_that_matter_are_shown(case: Case) -> None:
    """Every caution the case calls for is among those shown, not only among the many that apply."""
    assert set(_told(case, "cautions")) <= {warned.id for warned in _advice(case).cautions}


@pytest.mark.parametrize("case", _cases("stop"))
def test_reasons_to_stop_are_shown(case: Case) -> None:
    """Every reason to stop and consult that the case holds is said."""
    assert set(_told(case, "stop")) <= {stopped.id for stopped in _advice(case).stops}


@pytest.mark.parametrize("case", _cases("contradiction"))
def test_contradictions_are_as_stated(case: Case) -> None:
    """Answers that cannot all be right are found out; answers that can are not accused."""
    assert bool(_advice(case).contradictions) is (case.expected["contradiction"] == "true")


@pytest.mark.parametrize("case", _cases("asks"))
def test_a_master_would_ask_the_same(case: Case) -> None:
    """One of the questions a master would ask next is among the first three."""
    asked = [one.question for one in next_questions(_advice(case))[:3]]
    assert set(asked) & set(_told(case, "asks")), asked


@pytest.mark.parametrize("case", _cases())
def test_cautions_are_not_a_flood(case: Case) -> None:
    """At most six cautions stand in view, unless more than six are dangers, and every danger stands there."""
    advice = _advice(case)
    assert len(advice.cautions) <= MOST_CAUTIONS or {w.level for w in advice.cautions} == {"danger"}
    assert "danger" not in {warned.level for warned in advice.more_cautions}
