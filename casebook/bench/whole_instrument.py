"""What is said once for the whole instrument: the cautions of all its damages, none of them twice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from casebook.guide.advice import MOST_CAUTIONS, Advice, Warned
from casebook.guide.pack import LEVELS


@dataclass(frozen=True, slots=True)
class SharedCaution:
    """A caution, with the numbers of the damages it holds for."""

    warned: Warned
    damages: tuple[int, ...]


def shared_cautions(advices: Sequence[Advice]) -> tuple[list[SharedCaution], list[SharedCaution]]:
    """Merge the cautions of several damages.

    Returns:
        Those in view, dangers first: every danger, and others up to six in all; and those beyond, which also
        apply.
    """
    held: dict[str, tuple[Warned, list[int]]] = {}
    for number, advice in enumerate(advices, 1):
        for warned in (*advice.cautions, *advice.more_cautions):
            # Two packs may say the same thing under ids of their own.
            _, numbers = held.setdefault(warned.text, (warned, []))
            if number not in numbers:
                numbers.append(number)
    merged = [SharedCaution(warned, tuple(numbers)) for warned, numbers in held.values()]
    merged.sort(key=lambda one: LEVELS.index(one.warned.level))
    dangers = sum(one.warned.level == "danger" for one in merged)
    shown = max(dangers, MOST_CAUTIONS)
    return merged[:shown], merged[shown:]
