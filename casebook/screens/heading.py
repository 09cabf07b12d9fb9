"""The head of a screen: where one is, and how far the job has come."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from casebook.bench.stage import STAGES, Stage
from casebook.screens.plain import BOLD, FAINT, cell, joined, line, plain


class Heading(Static):
    """Two lines: what lies on the bench, and the way through the job with the present stage marked."""

    def __init__(self) -> None:
        super().__init__()
        self._left = self._right = ""
        self._stage: Stage | None = None
        self._way = False

    def say(self, left: str, right: str = "", stage: Stage | None = None) -> None:
        """Show what lies on the bench; with a stage also the way through the job."""
        self._left, self._right, self._stage = left, right, stage
        self._draw()

    @property
    def left(self) -> str:
        """What lies on the bench, as shown."""
        return self._left

    def on_resize(self) -> None:
        """Draw to the new width."""
        self._draw()

    def _draw(self) -> None:
        width = max(20, self.size.width)
        right = line(self._right, FAINT)
        room = width - right.cell_length - 3
        top = joined(" ", cell(line(self._left, BOLD), room), " ", right)
        self.update(Content("\n").join([top, self._rule(width)]))

    def _rule(self, width: int) -> Content:
        if self._stage is None:
            return plain("─" * width, FAINT)
        reached = STAGES.index(self._stage)
        parts = []
        for place, name in enumerate(STAGES):
            mark = "■" if place <= reached else "□"
            parts.append(plain(f" {mark} {name} ", BOLD if place == reached else FAINT))
        way = plain("──", FAINT).join(parts)
        return joined(plain("──", FAINT), way, plain("─" * max(0, width - way.cell_length - 2), FAINT))
