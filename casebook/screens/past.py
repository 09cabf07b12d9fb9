"""The like of it from the past, beside the question where the terminal is wide enough."""

from __future__ import annotations

from textual import work
from textual.content import Content
from textual.widgets import Static
from textual.worker import get_current_worker

from casebook.bench.likeness import Like, like_this
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.plain import BOLD, FAINT, joined, line, lines, plain

_MOST = 3
# Narrower than this, the question needs the room.
_WIDE = 100


class Past(Static):
    """The three likest damages, with what was done and how it held; looked for anew after each answer."""

    def __init__(self) -> None:
        super().__init__(id="past")
        self._looked_for: object = None

    def say(self, at: DamageAtHand) -> None:
        """Look for the like of a damage, unless nothing has changed since."""
        wide = (
            self.screen.size.width >= _WIDE and at.is_kept and not at.is_intake and bool(at.session.answers)
        )
        self.display = wide
        wanted = (at.number, at.damage_number, repr(at.session.answers))
        if wide and wanted != self._looked_for:
            self._looked_for = wanted
            self._look_for(at)

    @work(thread=True, exclusive=True, group="past", exit_on_error=False)
    def _look_for(self, at: DamageAtHand) -> None:
        worker = get_current_worker()
        try:
            likes = like_this(at.desk, at.number, at.damage_number, _MOST)
        except Exception:
            # Here it comes unasked; `s` asks for the same and says what is wrong.
            likes = []
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show, likes)

    def _show(self, likes: list[Like]) -> None:
        if not likes:
            self.update("")
            return
        parts: list[Content] = [plain("Like it in the past (s shows more)", BOLD)]
        for like in likes:
            parts.append(joined(line(like.case, BOLD), "  ", line(like.title)))
            said = ", ".join(part for part in (like.chosen, like.outcome or "not looked at again") if part)
            parts.append(joined("        ", line(said, FAINT)))
        self.update(lines(parts))
