"""What was said on the telephone of a case, as long as the program runs."""

from __future__ import annotations

from dataclasses import dataclass, field

from casebook.bench.quote import Urgency


@dataclass(slots=True)
class OnPhone:
    """What was said.

    Attributes:
        urgency: damage -> must, should or can wait, where somebody has said so.
        materials: the price of parts and materials, in the shop's currency and before tax.
    """

    urgency: dict[int, Urgency] = field(default_factory=dict)
    materials: float = 0.0
