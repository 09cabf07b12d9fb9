"""Looks drawn at random for a shipped pack: a panel case with answers left out, blurred and added."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.pack import Question
from casebook.quantity import Reading
from tests.guide.drawn import bits
from tests.guide.shipped import families, guide_of, panel

Answers = dict[str, int | Reading]


def knowing(answers: Answers) -> Knowledge:
    """Give the knowledge of these answers, given one after the other."""
    knowledge = Knowledge()
    for question, answer in answers.items():
        knowledge = knowledge.with_answer(question, answer)
    return knowledge


def answer_to(guide: Guide, question: Question) -> st.SearchStrategy[int | Reading]:
    """Draw an answer to a question: a mask of one value or of several, or a sensible size."""
    if question.measured:
        return reading_of(question)
    variable = guide.space.by_name[question.id]
    exists = variable.full & ~variable.does_not_apply
    some = st.lists(st.sampled_from(list(bits(exists))), min_size=1, max_size=3, unique=True)
    return some.map(sum)


def reading_of(question: Question) -> st.SearchStrategy[Reading]:
    """Draw a reading within the sensible range of a measured question, with the error of a caliper."""
    low = question.low.value if question.low else Fraction(0)
    high = question.high.value if question.high else Fraction(20)
    if question.kind == "count":
        return st.integers(int(low), int(high)).map(lambda n: Reading.exact(n, str(n), unit="count"))
    hundredths = st.integers(0, int(100 * (high - low)))
    return hundredths.map(lambda n: low + Fraction(n, 100)).map(
        lambda mm: Reading.exact(mm, f"{float(mm):g} mm").blurred(Fraction(2, 100))
    )


@st.composite
def looks(draw: st.DrawFn) -> tuple[str, Answers]:
    """Draw a family and answers: most of a panel case's own, and some from nowhere."""
    family = draw(st.sampled_from(families()))
    guide = guide_of(family)
    case = draw(st.sampled_from([case for case in panel() if case.family == family])).knowledge()
    whole: Answers = {**case.masks, **case.readings}
    kept = {q: answer for q, answer in whole.items() if draw(st.integers(0, 9)) < 8}
    for name in draw(st.lists(st.sampled_from(list(guide.questions)), max_size=4, unique=True)):
        kept[name] = draw(answer_to(guide, guide.questions[name]))
    return family, kept


@st.composite
def more_and_less(draw: st.DrawFn) -> tuple[str, Answers, Answers]:
    """Draw a family, answers, and fewer or vaguer answers of which they are a narrowing."""
    family, more = draw(looks())
    guide = guide_of(family)
    less: Answers = {}
    for question, answer in more.items():
        keep = draw(st.sampled_from(["keep", "keep", "leave", "vague"]))
        if keep == "keep":
            less[question] = answer
        elif keep == "vague" and not isinstance(answer, Reading):
            other = draw(answer_to(guide, guide.questions[question]))
            assert not isinstance(other, Reading)
            less[question] = answer | other
    return family, more, less
