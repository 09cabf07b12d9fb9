"""What stands above everything: reasons to stop, answers that do not agree, dangers."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.bench.look import LookSession
from casebook.guide.advice import Advice
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, FAINT, LEVEL_COLOURS, LEVEL_WORDS, cell, joined, line, lines, plain

_MOST_LINES = 3


class Alerts(Static):
    """At most a few lines; `c` reads them whole."""

    def __init__(self) -> None:
        super().__init__(id="alerts")
        self._said: list[tuple[str, str]] = []

    def say(self, session: LookSession) -> None:
        """Show what stands above everything in this look."""
        self._said = _short(session.advice)
        self.display = bool(self._said)
        self._draw()

    def on_resize(self) -> None:
        """Cut to the new width."""
        self._draw()

    def _draw(self) -> None:
        shown = self._said[:_MOST_LINES]
        more = len(self._said) - len(shown)
        width = max(20, self.size.width - 2)
        parts = []
        for place, (word, text) in enumerate(shown):
            tail = " (c reads it)" if not more else f" (c reads it and {more} more)"
            tail = tail if place == len(shown) - 1 else ""
            whole = joined(plain(f"{word} ", LEVEL_COLOURS["danger"]), line(text))
            parts.append(joined(cell(whole, width - len(tail)), plain(tail, FAINT)))
        self.update(lines(parts))


def _short(advice: Advice) -> list[tuple[str, str]]:
    said = [("STOP", f"{stop.says} {stop.do}") for stop in advice.stops]
    said += [("DOES NOT AGREE", one.because) for one in advice.contradictions]
    said += [("! DANGER", one.text) for one in advice.cautions if one.level == "danger" and not one.shop_rule]
    return said


class Cautions(ModalScreen[None]):
    """Everything to mind in a look, whole, with why it applies."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape,enter,c", "close", "back"),
        key("down", "down", "", show=False),
        key("up", "up", "", show=False),
    ]

    def __init__(self, advice: Advice) -> None:
        super().__init__()
        self._advice = advice

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with VerticalScroll(classes="dialog wide"):
            yield Static(cautions_text(self._advice))
            yield KeyLine()

    def action_close(self) -> None:
        """Close it."""
        self.dismiss()

    def action_down(self) -> None:
        """Read on."""
        self.query_one(VerticalScroll).scroll_down(animate=False)

    def action_up(self) -> None:
        """Read back."""
        self.query_one(VerticalScroll).scroll_up(animate=False)


def cautions_text(advice: Advice) -> Content:
    """Word everything to mind, the gravest first."""
    parts: list[Content | str] = []
    for stop in advice.stops:
        parts += [joined(plain("STOP  ", LEVEL_COLOURS["danger"]), plain(f"{stop.says} {stop.do}", BOLD))]
        parts += [plain(f"      {stop.because}", FAINT), ""]
    for one in advice.contradictions:
        parts += [joined(plain("Does not agree  ", LEVEL_COLOURS["danger"]), plain(one.because)), ""]
    for warned in (*advice.cautions, *advice.more_cautions):
        word = plain(f"{LEVEL_WORDS[warned.level]}  ", LEVEL_COLOURS[warned.level])
        parts.append(joined(word, plain(warned.text)))
        if warned.because:
            parts.append(plain(f"      {warned.because}", FAINT))
        parts.append("")
    return lines(parts or ["Nothing to mind so far."])
