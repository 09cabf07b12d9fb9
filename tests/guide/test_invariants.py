"""What must hold whatever the rules say, held on every shipped pack over looks drawn at random."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from casebook import figures
from casebook.figures.inputs import take
from casebook.guide.advice import Advice, advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.logic import AllOf, Expr, Literal
from casebook.guide.next_question import next_questions
from casebook.quantity import Reading, read_length
from tests.guide.looks import Answers, knowing, looks, more_and_less
from tests.guide.shipped import families, guide_of

# The look is drawn from panels and packs, which takes longer than hypothesis expects of a draw.
several = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
WHOLE_INCH = Fraction(254, 10)


def _standings(advice: Advice) -> dict[str, str]:
    return {proposal.id: proposal.standing for proposal in advice.proposals}


def _whole(advice: Advice) -> tuple[object, ...]:
    """Everything an advice says, the words of a reading as typed aside."""
    return (
        [(p.id, p.standing, p.waiting_on, p.cautions, p.called_for) for p in advice.proposals],
        [warned.id for warned in advice.cautions],
        [warned.id for warned in advice.more_cautions],
        [stopped.id for stopped in advice.stops],
        [(one.id, one.questions) for one in advice.contradictions],
        {id: (found.mask, found.figure, found.waits_on) for id, found in advice.state.found.items()},
        advice.profile,
        [(asked.question, asked.settles) for asked in next_questions(advice)],
    )


def _taken_at_default(guide: Guide) -> set[str]:
    return {question for taken in guide.taken.values() for question in taken}


@several
@given(more_and_less())
def test_more_answers_only_settle(drawn: tuple[str, Answers, Answers]) -> None:
    """More answers move a standing only from open to fits or ruled out, while nothing disagrees.

    Measuring what the bench took at a default until then is a correction, and starts afresh.
    """
    guide, (more, less) = guide_of(drawn[0]), drawn[1:]
    assume(not (more.keys() - less.keys()) & _taken_at_default(guide))
    later = advise(guide, knowing(more))
    assume(not later.contradictions)
    earlier = _standings(advise(guide, knowing(less)))
    moved = {
        id: (earlier[id], standing) for id, standing in _standings(later).items() if earlier[id] != standing
    }
    assert {before for before, _ in moved.values()} <= {"open"}, moved


@several
@given(more_and_less())
def test_contradictions_never_go_away_by_saying_more(drawn: tuple[str, Answers, Answers]) -> None:
    """Answers that disagree still disagree when others are added to them."""
    guide, (more, less) = guide_of(drawn[0]), drawn[1:]
    assume(not (more.keys() - less.keys()) & _taken_at_default(guide))
    earlier = {one.id for one in advise(guide, knowing(less)).contradictions}
    assert earlier <= {one.id for one in advise(guide, knowing(more)).contradictions}


@several
@given(looks(), st.randoms(use_true_random=False))
def test_order_of_answers_changes_nothing(drawn: tuple[str, Answers], random: Random) -> None:
    """Answers given in any order lead to the same advice, to the letter, and to the same next questions."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    shuffled = list(answers.items())
    random.shuffle(shuffled)
    first, second = advise(guide, knowing(answers)), advise(guide, knowing(dict(shuffled)))
    assert _whole(first) == _whole(second)
    assert [p.because for p in first.proposals] == [p.because for p in second.proposals]


@several
@given(looks(), st.data())
def test_unit_of_a_length_changes_nothing(drawn: tuple[str, Answers], data: st.DataObject) -> None:
    """A length typed in inches, thousandths or millimetres leads to the same advice."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    retyped: Answers = dict(answers)
    for question, answer in answers.items():
        if isinstance(answer, Reading) and answer.unit == "mm":
            retyped[question] = _retyped(answer, data.draw(st.sampled_from(["mm", "in", "thou"])))
    assert _whole(advise(guide, knowing(answers))) == _whole(advise(guide, knowing(retyped)))


def _retyped(reading: Reading, unit: str) -> Reading:
    """Type a reading anew in another unit where that can be written exactly."""
    scale = {"mm": Fraction(1), "in": WHOLE_INCH, "thou": WHOLE_INCH / 1000}[unit]
    number = f"{float(reading.value / scale):.12f}"
    if Fraction(number) * scale != reading.value:
        return reading
    again = read_length(f"{number} {unit}")
    return again._replace(low=reading.low, high=reading.high, own_error=reading.own_error)


@several
@given(looks(), st.integers(1, 60))
def test_larger_reading_error_only_blurs(drawn: tuple[str, Answers], hundredths: int) -> None:
    """A larger error turns a finding's yes or no to unknown, never round; no strategy turns round either."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    sharp, blurred = knowing(answers), knowing({q: _blurred(a, hundredths) for q, a in answers.items()})
    before, after = advise(guide, sharp), advise(guide, blurred)
    for id, found in before.state.found.items():
        assert not found.mask & ~after.state.found[id].mask, id
    if not before.contradictions:
        later = _standings(after)
        turned = {
            id: later[id] for id, s in _standings(before).items() if s != later[id] and later[id] != "open"
        }
        assert turned == {}


def _blurred(answer: int | Reading, hundredths: int) -> int | Reading:
    if not isinstance(answer, Reading) or answer.unit != "mm":
        return answer
    more = Fraction(hundredths, 100)
    return answer._replace(low=answer.low - more, high=answer.high + more)


@several
@given(looks())
def test_what_fits_has_no_failed_finding(drawn: tuple[str, Answers]) -> None:
    """A strategy that fits and asks of a finding that it be yes has that finding answered yes."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    advice = advise(guide, knowing(answers))
    for proposal in advice.proposals:
        if proposal.standing != "fits":
            continue
        for clause in guide.strategies[proposal.id].wanted:
            for name in _asked_to_be_yes(guide, clause.condition.expr):
                assert advice.trusted.found[name].holds == "yes", (proposal.id, name)


def _asked_to_be_yes(guide: Guide, expr: Expr) -> list[str]:
    """Name the findings that must be yes for `expr` to hold at all: alone, or parts of an 'all'."""
    parts = expr.parts if isinstance(expr, AllOf) else (expr,)
    if parts == (expr,):
        yes = isinstance(expr, Literal) and expr.mask == 0b01
        name = guide.space.variables[expr.var].name if isinstance(expr, Literal) else ""
        return [name] if yes and name in guide.findings else []
    return [name for part in parts for name in _asked_to_be_yes(guide, part)]


@several
@given(looks())
def test_figures_shown_are_the_worksheets(drawn: tuple[str, Answers]) -> None:
    """A finding's figure and check are what its worksheet says to the same readings, bounds included."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    state = advise(guide, knowing(answers)).state
    for id, found in state.found.items():
        finding = guide.findings[id]
        if found.check is None or any(s.figure or s.words for s in finding.inputs.values()):
            continue
        sheet = figures.worksheet(finding.worksheet)
        known = {item.name: item for item in sheet.inputs}
        values: dict[str, object] = {
            name: known[name].read(typed) for name, typed in finding.settings.items()
        }
        readings = state.knowledge.readings
        values |= {n: readings[s.question] for n, s in finding.inputs.items() if s.question in readings}
        result = sheet.run(take(sheet.inputs, values))  # type: ignore[arg-type]
        assert found.check in [result.checks[name] for name in finding.checks]
        if finding.figure is not None:
            assert found.figure == result.figures.get(finding.figure)


@several
@given(looks())
def test_contradictions_keep_the_knife_away(drawn: tuple[str, Answers]) -> None:
    """While answers disagree nothing that removes material fits, and it waits on what disagrees."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    advice = advise(guide, knowing(answers))
    assume(advice.contradictions)
    disputed = {question for one in advice.contradictions for question in one.questions}
    for proposal in advice.proposals:
        if guide.strategies[proposal.id].strategy.removes_material:
            assert proposal.standing != "fits", proposal.id
            assert proposal.standing == "ruled_out" or disputed & set(proposal.waiting_on)


@several
@given(looks())
def test_contradictions_are_asked_about_first(drawn: tuple[str, Answers]) -> None:
    """The questions that disagree are the first to be asked again, all of them."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    advice = advise(guide, knowing(answers))
    disputed = {question for one in advice.contradictions for question in one.questions}
    asked = [one.question for one in next_questions(advice)]
    assert set(asked[: len(disputed)]) == disputed


@several
@given(looks())
def test_every_standing_has_its_reasons(drawn: tuple[str, Answers]) -> None:
    """What is ruled out says why; what is open names the questions it waits on."""
    guide, answers = guide_of(drawn[0]), drawn[1]
    for proposal in advise(guide, knowing(answers)).proposals:
        assert proposal.because or proposal.standing != "ruled_out", proposal.id
        assert bool(proposal.waiting_on) is (proposal.standing == "open"), proposal


def test_nothing_known_rules_nothing_out() -> None:
    """Without an answer every strategy of every family is open: missing is not 'no'."""
    for family in families():
        assert set(_standings(advise(guide_of(family), Knowledge())).values()) == {"open"}
