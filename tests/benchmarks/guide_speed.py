"""How fast the guide thinks: ratios against a PyPI rule engine, against plain logic, against a solver.

Run with ``python -m tests.benchmarks.guide_speed``; wants the extra ``bench``.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from random import Random
from statistics import median
from time import perf_counter
from typing import Any

import json_logic

from casebook.guide.advice import advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.logic import AllOf, Condition, Expr, Literal, Not
from casebook.guide.next_question import next_questions
from casebook.guide.proof import prove
from casebook.guide.reasons import truth
from casebook.guide.search import Budget, Demand, find_box
from casebook.guide.truths import Truths
from tests.guide.shipped import families, guide_of, panel
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
    whole = milliseconds(lambda: next_questions(advise(guide, Knowledge())))
    advice = advise(guide, Knowledge())
    ranked = milliseconds(lambda: next_questions(advice))
    print("next question, nothing answered:")
    print(
        f"  every answer to every question {scan:8.3f} ms   {scan / plain:6.1f} x plain Kleene (wanted: 4 or less)"
    )
    print(
        f"  whole, with the searches       {ranked:8.3f} ms   {ranked / plain:6.1f} x;  with advice {whole:.1f} ms"
    )


def report_advice() -> None:
    """One whole advice and its next questions, over all panel cases."""
    print("one whole advice with findings, warm (median and worst of the panel):")
    for family in families():
        guide = guide_of(family)
        known = [case.knowledge() for case in panel() if case.family == family]
        advices = [milliseconds(partial(advise, guide, k), 3) for k in known]
        asked = [milliseconds(partial(next_questions, advise(guide, k)), 3) for k in known]
        print(
            f"  {family:26} advice {median(advices):6.2f} {max(advices):6.2f} ms"
            f"   next {median(asked):6.2f} {max(asked):6.2f} ms"
        )


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
    report_coverage()
    report_proof()


if __name__ == "__main__":
    main()
