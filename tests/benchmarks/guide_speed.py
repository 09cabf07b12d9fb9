"""How fast the guide thinks: ratios against a PyPI rule engine, against plain logic, against a solver.

Run with ``python -m tests.benchmarks.guide_speed``; wants the extra ``bench``.
"""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from functools import partial
from gc import disable, enable
from random import Random
from statistics import median
from time import perf_counter, thread_time
from typing import Any

import json_logic

from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.logic import AllOf, Condition, Expr, Literal, Not
from casebook.guide.next_question import Asked, next_questions
from casebook.guide.numbers import random_readings
from casebook.guide.proof import prove
from casebook.guide.reasons import truth
from casebook.guide.remembered import Remembered
from casebook.guide.search import Budget, Demand, find_box
from casebook.guide.truths import Truths
from casebook.quantity import Reading
from tests.guide.drawn import bits
from tests.guide.shipped import Case, families, guide_of, panel
from tests.guide.solver import solvable


def milliseconds(work: Callable[[], object], times: int = 15) -> float:
    """Time `work`, warm: the median of a few runs."""
    work()
    taken = []
    for _ in range(times):
        start = perf_counter()
        work()
        taken.append(1000 * (perf_counter() - start))
    return median(taken)


def conditions_of(guide: Guide) -> list[Condition]:
    """Every condition of a guide: strategies, contradictions, doubts, cautions, stops, profiles, asked_when."""
    rules = (guide.contradictions, guide.doubts, guide.cautions, guide.stops)
    return [
        *(ruled.fits for ruled in guide.strategies.values()),
        *(condition for some in rules for _, condition in some.values() if condition),
        *(condition for _, condition in guide.profiles if condition),
        *guide.applies.values(),
    ]


def as_json_logic(guide: Guide, expr: Expr) -> Any:
    """Write a condition for json-logic, over settled answers: a variable's value is its place."""
    if isinstance(expr, Literal):
        places = [n for n in range(expr.mask.bit_length()) if expr.mask >> n & 1]
        name = {"var": guide.space.variables[expr.var].name}
        return {"in": [name, places]} if len(places) != 1 else {"==": [name, places[0]]}
    if isinstance(expr, Not):
        return {"!": [as_json_logic(guide, expr.part)]}
    parts = [as_json_logic(guide, part) for part in expr.parts]
    return {"and" if isinstance(expr, AllOf) else "or": parts}


def partly_answered(guide: Guide, random: Random) -> list[int]:
    """Give a box in which about half of everything is settled."""
    box = guide.space.full_box()
    for var, mask in enumerate(box):
        if random.random() < 0.5:
            box[var] = 1 << random.randrange(mask.bit_length())
    return box


def report_truth(guide: Guide) -> None:
    """All conditions of one pack on partial answers, three ways."""
    conditions = conditions_of(guide)
    boxes = [partly_answered(guide, Random(seed)) for seed in range(20)]
    rules = [as_json_logic(guide, condition.expr) for condition in conditions]
    settled = [
        {
            v.name: box[v.index].bit_length() - 1 if box[v.index].bit_count() == 1 else None
            for v in guide.space.variables
        }
        for box in boxes
    ]
    truths = Truths(conditions, guide.space.full_box())
    engine = (
        milliseconds(lambda: [json_logic.jsonLogic(rule, data) for data in settled for rule in rules], 3) / 20
    )
    plain = milliseconds(lambda: [truth(c.expr, box) for box in boxes for c in conditions]) / 20
    alone = milliseconds(lambda: [c.truth(box) for box in boxes for c in conditions]) / 20
    together = milliseconds(lambda: [truths.judge(box) for box in boxes]) / 20
    print(f"truth of all {len(conditions)} conditions of {guide.family}, half of everything answered:")
    print(f"  json-logic-qubit (two-valued)  {engine:8.3f} ms   {engine / together:6.0f} x together")
    print(f"  plain Kleene                   {plain:8.3f} ms   {plain / together:6.0f} x")
    print(f"  one by one, exact              {alone:8.3f} ms   {alone / together:6.0f} x")
    print(f"  together, exact                {together:8.3f} ms")
    scan = milliseconds(lambda: list(guide.settling.if_settled(guide.space.full_box())))
    print(
        f"  every answer to every question {scan:8.3f} ms   {scan / plain:6.1f} x plain (wanted: 4 or less)"
    )


def report_advice() -> None:
    """One whole advice, over all panel cases."""
    print("one whole advice with findings, warm (median and worst of the panel):")
    for family in families():
        guide = guide_of(family)
        known = [case.knowledge() for case in panel() if case.family == family]
        advices = [milliseconds(partial(advise, guide, k), 3) for k in known]
        print(f"  {family:26} {median(advices):6.2f} {max(advices):6.2f} ms")


def asking(
    guide: Guide, knowledge: Knowledge, remembered: Remembered | None
) -> tuple[float, tuple[Asked, ...]]:
    """Time the next questions of one look, by the processor's clock, after what is `remembered` of others.

    The least of three runs, each with its own copy of what is remembered: the second would find it all there.
    """
    advice = advise(guide, knowledge)
    taken = []
    for _ in range(3):
        guide.remembered = deepcopy(remembered)
        disable()
        start = thread_time()
        asked = next_questions(advice)
        taken.append(1000 * (thread_time() - start))
        enable()
    return min(taken), asked


def walk(guide: Guide, case: Case, random: Random, opened: Remembered | None) -> list[float]:
    """Time the next question along a whole questionnaire: always what is asked first, until nothing is.

    The case answers what it knows, chance the rest.
    """
    known = case.knowledge()
    told: dict[str, int | Reading] = {**known.masks, **known.readings}
    knowledge, asked_before, taken = Knowledge(), set[str](), []
    guide.remembered = opened
    while True:
        time, asked = asking(guide, knowledge, guide.remembered)
        taken.append(time)
        question = next((one.question for one in asked if one.question not in asked_before), None)
        if question is None:
            return taken[1:]
        asked_before.add(question)
        knowledge = knowledge.with_answer(question, told.get(question) or drawn(guide, question, random))


def drawn(guide: Guide, question: str, random: Random) -> int | Reading:
    """Draw an answer: one value, or a size within the sensible range."""
    if guide.questions[question].measured:
        return random_readings(guide, [question], random)[question]
    variable = guide.space.by_name[question]
    return random.choice(list(bits(variable.full & ~variable.does_not_apply)))


def report_asking() -> None:
    """The next question with its searches: panel cases on an opened guide, and whole questionnaires.

    A guide is opened once: its empty look is asked about. The ratio is to one plain evaluation of all its
    conditions, part by part.
    """
    print("the next question against plain Kleene: opening, panel cases straight after, whole questionnaires")
    print(f"{'':28}{'plain':>8}{'opening':>9}{'panel: median, worst':>28}{'walks: median, worst':>30}")
    every: dict[str, list[float]] = {"panel": [], "walks": []}
    for family in families():
        guide = guide_of(family)
        box = guide.space.full_box()
        plain = milliseconds(partial(lambda g, b: [truth(c.expr, b) for c in conditions_of(g)], guide, box))
        opening, _ = asking(guide, Knowledge(), None)
        opened = guide.remembered
        cases = [case for case in panel() if case.family == family]
        alone = [asking(guide, case.knowledge(), opened)[0] for case in cases]
        along = [
            time for n, case in enumerate(cases) for time in walk(guide, case, Random(n), deepcopy(opened))
        ]
        every["panel"] += alone
        every["walks"] += along
        print(
            f"  {family:26}{plain:6.2f} ms{opening:6.1f} ms"
            + "".join(
                f"{median(some) / plain:9.1f} x {max(some) / plain:6.1f} x ({max(some):5.1f} ms)"
                for some in (alone, along)
            )
        )
    for name, some in every.items():
        print(f"  {name}: median {median(some):.1f} ms, worst {max(some):.1f} ms (wanted: 10 or less)")


def report_proof() -> None:
    """Proof of every shipped pack."""
    start = perf_counter()
    open_still = [verdict for family in families() for verdict in prove(guide_of(family))]
    print(f"proof of all {len(families())} packs: {perf_counter() - start:.1f} s, {len(open_still)} verdicts")


def coverage(random: Random, rules: int = 60) -> tuple[list[int], list[Demand]]:
    """Give a synthetic pack: rules that part a space like a tree, one of them missing or none.

    25 questions with 4 answers each; every rule is a branch of a random tree; the demand is that none of
    them holds, which is met exactly where a rule is missing.
    """
    full = [0b1111] * 25
    leaves: list[dict[int, int]] = [{}]
    while len(leaves) < rules:
        leaf = leaves.pop(random.randrange(len(leaves)))
        var = random.choice([v for v in range(len(full)) if leaf.get(v, full[v]).bit_count() > 1])
        mask = leaf.get(var, full[var])
        part = mask & -mask
        leaves += [{**leaf, var: part}, {**leaf, var: mask & ~part}]
    demands: list[Demand] = [
        [((var, full[var] & ~mask),) for var, mask in sorted(leaf.items())] for leaf in leaves
    ]
    random.shuffle(demands)
    return full, demands


def settle(full: list[int], demands: list[Demand]) -> object:
    """Search with a budget that is never used up."""
    return find_box(full, demands, Budget(10**6))


def report_coverage() -> None:
    """A synthetic pack of 60 rules against python-sat, with a hole and without."""
    print("coverage of a synthetic pack of 60 rules (wanted: within 150 times python-sat):")
    problems = [coverage(Random(seed)) for seed in range(20)]
    for words, cut in (("one hole", 1), ("no hole", 0)):
        cases = [(full, demands[cut:]) for full, demands in problems]
        mine = [milliseconds(partial(settle, *case), 3) for case in cases]
        sat = [milliseconds(partial(solvable, *case), 3) for case in cases]
        print(
            f"  {words:9} {median(mine):7.2f} ms   python-sat {median(sat):6.2f} ms   {median(mine) / median(sat):5.1f} x"
        )


def largest() -> Guide:
    """The shipped guide with most conditions."""
    return max((guide_of(family) for family in families()), key=lambda guide: len(conditions_of(guide)))


def main() -> None:
    """Print every ratio."""
    report_truth(largest())
    report_advice()
    report_asking()
    report_coverage()
    report_proof()


if __name__ == "__main__":
    main()
