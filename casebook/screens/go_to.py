"""All questions of a look with what is known, to jump to any."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, FAINT, line, plain
from casebook.screens.rows import Rows


class GoTo(ModalScreen[str | None]):
    """The questions in the order of the bench; Enter goes to the marked one."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "go", "go there"),
        key("escape,g", "close", "back"),
    ]
    AUTO_FOCUS = "Rows"

    def __init__(self, at: DamageAtHand, present: str | None) -> None:
        super().__init__()
        self._at, self._present = at, present

    def compose(self) -> ComposeResult:
        """Lay it out."""
        session = self._at.session
        known = sum(1 for id in session.questions() if id in session.answers)
        with Vertical(classes="dialog tall"):
            yield Static(plain(f"{known} answered, {len(session.asked)} worth asking (marked ?)", BOLD))
            yield Rows([1, -2, -3], id="questions")
            yield KeyLine()

    def on_mount(self) -> None:
        """Fill the list."""
        session = self._at.session
        asked = {one.question for one in session.asked}
        rows = []
        for id in session.questions():
            mark = "=" if id in session.answers else "?" if id in asked else " "
            rows.append((id, self._cells(id, mark)))
        self.query_one(Rows).fill(rows, self._present)

    def _cells(self, id: str, mark: str) -> list[Content | str]:
        session = self._at.session
        before = self._at.before(id)
        said = session.shown(id) + (f"  (before: {before})" if before else "")
        return [mark, session.guide.questions[id].name, line(said, "" if mark == "=" else FAINT)]

    def on_option_list_option_selected(self) -> None:
        """Go there."""
        self.action_go()

    def action_go(self) -> None:
        """Go there."""
        self.dismiss(self.query_one(Rows).marked)

    def action_close(self) -> None:
        """Go nowhere."""
        self.dismiss(None)
