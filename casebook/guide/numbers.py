"""Numbers that make findings come out as wanted: a witness must be measurable, not only logical."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from random import Random

from casebook.guide.findings import find_all
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.pack import Question
from casebook.quantity import Reading

# Sizes are tried in hundredths of a millimetre.
_STEPS_PER_MM = 100


def random_readings(guide: Guide, questions: Iterable[str], random: Random) -> dict[str, Reading]:
    """Draw a size or count for each of `questions`, within its sensible range, without reading error."""
    return {name: _draw(guide.questions[name], random) for name in questions}


def _draw(question: Question, random: Random) -> Reading:
    low = question.low.value if question.low else Fraction(0)
    high = question.high.value if question.high else Fraction(50)
    if question.kind == "count":
        return Reading.exact(random.randint(int(low), int(high)), unit="count")
    # Half of the draws from the lower quarter: sizes on an instrument are mostly small.
    top = high if random.random() < 0.5 else low + (high - low) / 4
    steps = int((top - low) * _STEPS_PER_MM)
    return Reading.exact(low + Fraction(random.randint(0, max(steps, 1)), _STEPS_PER_MM))


def numbers_for(guide: Guide, box: Sequence[int], random: Random, tries: int = 400) -> Knowledge | None:
    """Look for measurements under which every finding comes out inside `box`.

    Choices are taken as the first value still in the box. Returns the whole knowledge, or None when
    none was found within `tries`.
    """
    masks: dict[str, int] = {}
    measured: list[str] = []
    chosen = list(box)
    for name in guide.questions:
        variable = guide.space.by_name[name]
        left = box[variable.index]
        bit = left & -left
        chosen[variable.index] = bit
        if bit == variable.does_not_apply:
            continue
        if variable.measured:
            measured.append(name)
        else:
            masks[name] = bit
    wanted = {
        name: box[guide.space.by_name[name].index]
        for name in guide.findings
        if box[guide.space.by_name[name].index] != guide.space.by_name[name].full
    }
    needed = [name for name in measured if any(name in guide.needs[finding] for finding in wanted)]
    readings = random_readings(guide, needed, random)
    best = _wrong(guide, masks, readings, chosen, wanted)
    for _ in range(tries):
        if not best:
            return Knowledge(masks, readings)
        finding = random.choice(best)
        candidates = [name for name in needed if name in guide.needs[finding]]
        if not candidates:
            return None
        again = random.sample(candidates, min(len(candidates), random.randint(1, 2)))
        tried = {**readings, **random_readings(guide, again, random)}
        wrong = _wrong(guide, masks, tried, chosen, wanted)
        if len(wrong) <= len(best):
            readings, best = tried, wrong
    return None if best else Knowledge(masks, readings)


def _wrong(
    guide: Guide,
    masks: Mapping[str, int],
    readings: Mapping[str, Reading],
    box: Sequence[int],
    wanted: Mapping[str, int],
) -> list[str]:
    """Name the findings that do not come out as wanted with these readings."""
    inside = list(box)
    found, clashes = find_all(guide, Knowledge(masks, readings), inside)
    wrong = [name for name, mask in wanted.items() if found[name].mask & ~mask]
    clashing = {question for clash in clashes for question in clash.questions}
    return wrong or [name for name in wanted if clashing & guide.needs[name]]
