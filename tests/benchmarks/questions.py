"""How many questions until the first proposal no longer changes, on the panels: asked as the guide asks, and in order.

Run with ``python -m tests.benchmarks.questions``. An answer that the panel case does not give is asked in
vain and counts: the repairer looked and could not tell. On small packs the best order found by search is
the yardstick as well.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import permutations
from random import Random
from statistics import mean, median

from casebook.guide.advice import Advice, advise
from casebook.guide.guide import Guide
from casebook.guide.knowledge import Knowledge
from casebook.guide.next_question import next_questions
from casebook.guide.pack import STAGES
from tests.guide.shipped import Case, families, guide_of, panel
from tests.guide.tiny import guide_from, pack, question, strategy

# Gives, for what is known and what was asked already, the question to ask; None when there is none left.
Asker = Callable[[Advice, frozenset[str]], str | None]


def as_the_guide_asks(advice: Advice, asked: frozenset[str]) -> str | None:
    """Ask what is worth asking next."""
    return next((one.question for one in next_questions(advice) if one.question not in asked), None)


def in_order(advice: Advice, asked: frozenset[str]) -> str | None:
    """Ask every question that applies, by the stages of the bench and as the packs have them."""
    guide = advice.guide
    order = sorted(guide.questions, key=lambda name: STAGES.index(guide.questions[name].stage))
    for name in order:
        variable = guide.space.by_name[name]
        if name not in asked and advice.state.box[variable.index] != variable.does_not_apply:
            return name
    return None


def fitting_first(advice: Advice) -> str:
    """Name the first proposal and whether it fits."""
    return f"{advice.first.id} {advice.first.standing}"


def firsts(guide: Guide, whole: Knowledge, ask: Asker) -> Iterator[str]:
    """Give the first proposal after every question, from none until none is left to ask."""
    known, asked = Knowledge(), frozenset[str]()
    advice = advise(guide, known)
    yield fitting_first(advice)
    while (name := ask(advice, asked)) is not None:
        asked |= {name}
        if name in whole.masks:
            known = known.with_answer(name, whole.masks[name])
        elif name in whole.readings:
            known = known.with_answer(name, whole.readings[name])
        advice = advise(guide, known)
        yield fitting_first(advice)


def until_settled(told: Sequence[str]) -> int:
    """Count the questions after which the first proposal did not change any more."""
    return next((n for n in range(len(told), 0, -1) if n > 1 and told[n - 2] != told[n - 1]), 1) - 1


def report(family: str) -> None:
    """Print the counts of one family's panel."""
    cases: list[Case] = [case for case in panel() if case.family == family]
    guide = guide_of(family)
    counts = {"guide": [], "order": []}  # type: dict[str, list[int]]
    asked_in_all: list[int] = []
    same = 0
    for case in cases:
        whole = case.knowledge()
        mine, all_of_them = (list(firsts(guide, whole, ask)) for ask in (as_the_guide_asks, in_order))
        counts["guide"].append(until_settled(mine))
        counts["order"].append(until_settled(all_of_them))
        asked_in_all.append(len(mine) - 1)
        same += mine[-1] == all_of_them[-1]
    print(
        f"  {family:26} {median(counts['guide']):5.1f} {mean(counts['guide']):6.1f}"
        f"   in order {median(counts['order']):5.1f} {mean(counts['order']):6.1f}"
        f"   asked until none is left {mean(asked_in_all):5.1f} of {len(guide.questions)}"
        f"   same end {same} of {len(cases)}"
    )


def small_pack(random: Random) -> Guide:
    """Make a pack of five questions in one stage and six strategies."""
    names = [f"q{n}" for n in range(5)]
    rules = []
    for n in range(6):
        clauses = [f"{{{q}: {random.choice('ab')}}}" for q in random.sample(names, random.randint(1, 3))]
        rules.append(strategy(f"s{n}", f"fits_when: [{', '.join(clauses)}]"))
    return guide_from(pack(questions=[question(q, ["a", "b"]) for q in names], strategies=rules))


def report_best() -> None:
    """Compare with the best fixed order on small packs, over every full set of answers."""
    mine, fixed, best = [], [], []
    for seed in range(12):
        guide = small_pack(Random(seed))
        worlds = [Knowledge({f"q{n}": 1 + (w >> n & 1) for n in range(5)}) for w in range(32)]

        def along(order: Sequence[str]) -> Asker:
            return lambda _, asked: next((name for name in order if name not in asked), None)

        def cost(ask: Asker, guide: Guide = guide, worlds: Sequence[Knowledge] = worlds) -> float:
            return mean(until_settled(list(firsts(guide, world, ask))) for world in worlds)

        mine.append(cost(as_the_guide_asks))
        orders = [cost(along(order)) for order in permutations(guide.questions)][:120]
        fixed.append(orders[0])
        best.append(min(orders))
    print(
        f"small packs, mean over all answers: the guide {mean(mine):.2f}, in order {mean(fixed):.2f},"
        f" best of all fixed orders {mean(best):.2f}"
    )


def main() -> None:
    """Print the counts of every panel."""
    print("questions until the first proposal no longer changes (median, mean):")
    for family in families():
        report(family)
    report_best()


if __name__ == "__main__":
    main()
