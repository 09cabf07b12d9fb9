"""What was found, one below the other, with the marked one in full: used by find and by like it."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from casebook.bench.likeness import Like
from casebook.screens.plain import BOLD, FAINT, joined, lines, plain
from casebook.screens.rows import Rows


class Found(Vertical):
    """A list of damages found, and what agrees, what differs and how the marked one turned out."""

    class Opened(Message):
        """Enter on one of them."""

        def __init__(self, case: str) -> None:
            super().__init__()
            self.case = case

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self._likes: list[Like] = []

    def compose(self) -> ComposeResult:
        """Lay it out."""
        yield Rows([9, -3, -2], id="hits")
        with VerticalScroll(id="hit", can_focus=False):
            yield Static(id="why-it")

    def say(self, likes: Sequence[Like]) -> None:
        """Show what was found."""
        self._likes = list(likes)
        rows = self.query_one(Rows)
        rows.fill([(f"{place}", _cells(like)) for place, like in enumerate(likes)])
        rows.highlighted = 0 if likes else None
        self._show()

    @property
    def marked(self) -> Like | None:
        """The marked one, or None."""
        marked = self.query_one(Rows).marked
        return self._likes[int(marked)] if marked is not None else None

    def on_option_list_option_highlighted(self) -> None:
        """Show the marked one in full."""
        self._show()

    def on_option_list_option_selected(self) -> None:
        """Open the marked one."""
        if self.marked:
            self.post_message(self.Opened(self.marked.case))

    def _show(self) -> None:
        like = self.marked
        self.query_one("#why-it", Static).update(like_text(like) if like else "")


def like_text(like: Like) -> Content:
    """Word one damage found."""
    parts: list[Content] = [plain(like.title, BOLD)]
    if like.agrees:
        parts.append(joined(plain("same     ", FAINT), plain("; ".join(like.agrees))))
    if like.differs:
        parts.append(joined(plain("differs  ", FAINT), plain("; ".join(like.differs))))
    if like.chosen:
        parts.append(joined(plain("done     ", FAINT), plain(like.chosen)))
    outcome = like.outcome or "nobody looked at it again yet"
    parts.append(joined(plain("now      ", FAINT), plain(outcome, BOLD if like.outcome else FAINT)))
    return lines(parts)


def _cells(like: Like) -> list[str]:
    number = f"{like.case}{f'/{like.damage}' if like.damage > 1 else ''}"
    return [number, like.title, like.outcome or like.chosen]
