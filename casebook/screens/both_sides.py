"""Two people wrote the same otherwise: both sides, and a clear choice."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.bench.both_sides import BothChanged, Side
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, FAINT, WRONG, joined, lines, plain
from casebook.screens.trouble import is_refusal, words_for

if TYPE_CHECKING:
    from casebook.screens.app import CasebookApp

_NOTHING = "(nothing)"


class BothSides(ModalScreen[bool]):
    """What both wrote, theirs above mine; closes with whether one side was kept.

    Args:
        clash: what both changed.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter,1", "keep('theirs')", "keep theirs"),
        key("2", "keep('mine')", "keep mine"),
        key("escape", "later", "decide later"),
        key("down,pagedown", "scroll(1)", "", show=False),
        key("up,pageup", "scroll(-1)", "", show=False),
    ]

    def __init__(self, clash: BothChanged) -> None:
        super().__init__()
        self._clash = clash

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with Vertical(classes="dialog wide"):
            yield Static(id="both")
            with VerticalScroll(id="sides", can_focus=False):
                yield Static(id="differs")
            yield Static(id="wrong")
            yield KeyLine()

    def on_mount(self) -> None:
        """Show both sides."""
        self._draw()

    def _draw(self, again: str = "") -> None:
        said = (
            again or "Somebody else wrote to it while you did. What only one of you changed is kept anyway."
        )
        title = f"{self._clash.theirs.number}: two people wrote here"
        self.query_one("#both", Static).update(lines([plain(title, BOLD), plain(said, FAINT), ""]))
        shown: list[Content | str] = []
        for one in self._clash.differs:
            shown += [
                plain(one.where, BOLD),
                joined(plain("  1 theirs  ", FAINT), plain(one.theirs or _NOTHING)),
                joined(plain("  2 mine    ", FAINT), plain(one.mine or _NOTHING)),
            ]
        self.query_one("#differs", Static).update(lines(shown))

    def action_keep(self, side: Side) -> None:
        """Keep one side of what both wrote; changed once more meanwhile, both are shown anew."""
        try:
            cast("CasebookApp", self.app).desk.settle(self._clash, side)
        except BothChanged as clash:
            self._clash = clash
            self._draw("It was changed once more while you read this: look again.")
        except Exception as error:
            if not is_refusal(error):
                raise
            self.query_one("#wrong", Static).update(plain(words_for(error), WRONG))
        else:
            self.dismiss(True)

    def action_later(self) -> None:
        """Keep nothing yet."""
        self.dismiss(False)

    def action_scroll(self, step: int) -> None:
        """Read on."""
        self.query_one("#sides").scroll_relative(y=step * 3, animate=False)
