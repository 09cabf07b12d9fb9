"""What recall gives: cases found, each with what speaks for it and what against."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from casebook.records.case import Answer, Case, Damage, FollowUp


@dataclass(frozen=True, slots=True)
class Share:
    """One thing that speaks for or against a case.

    Attributes:
        what: a question id; in a search, the word as typed; ``story`` for the words of the story.
        here: what is asked for or on the bench: an answer as typed, or words.
        there: what the case has: an answer as typed, or words; empty where it has nothing like it.
        weight: its share in the score; natural logarithm of odds among similar damages.
    """

    what: str
    here: Answer
    there: Answer = ""
    weight: float = 0.0


@dataclass(frozen=True, slots=True)
class Hit:
    """A damage that was found.

    Attributes:
        case: the case's number.
        damage: the damage's number; 0 for a case that has none.
        title: the case's title.
        score: the higher the better, comparable within one result only.
        agrees: what speaks for it, the weightiest first.
        differs: what speaks against it, the weightiest first.
        outcome: the latest follow-up, or None while nobody looked again.
        chosen: id of the strategy chosen, or None.
    """

    case: str
    damage: int
    title: str
    score: float
    agrees: tuple[Share, ...]
    differs: tuple[Share, ...]
    outcome: FollowUp | None
    chosen: str | None

    @classmethod
    def of(
        cls,
        case: Case,
        damage: Damage | None,
        score: float,
        agrees: tuple[Share, ...],
        differs: tuple[Share, ...],
    ) -> Hit:
        """Make a hit of a case and one of its damages."""
        choice = damage.choice if damage else None
        return cls(
            case=str(case.number),
            damage=damage.number if damage else 0,
            title=str(case.title),
            score=score,
            agrees=agrees,
            differs=differs,
            outcome=damage.outcome if damage else None,
            chosen=choice.strategy if choice else None,
        )


@dataclass(frozen=True, slots=True)
class FindResult:
    """What a search found.

    Attributes:
        hits: the best first.
        corrected: words that were searched as another, typed to used.
        nowhere: words that stand in no case, nor anything like them.
    """

    hits: tuple[Hit, ...] = ()
    corrected: Mapping[str, str] = field(default_factory=dict)
    nowhere: tuple[str, ...] = ()
