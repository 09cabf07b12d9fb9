"""A form: a few fields one below the other. It closes only when what was typed is kept, or dropped twice."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar, Literal

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Input, Static

from casebook.bench.both_sides import BothChanged
from casebook.screens.both_sides import BothSides
from casebook.screens.fields import PickOne, TextBlock, TextLine
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, FAINT, WRONG, plain
from casebook.screens.trouble import is_refusal, words_for


@dataclass(frozen=True, slots=True)
class Entry:
    """One field of a form.

    Attributes:
        name: key of its text among what the form gives.
        label: what stands before it.
        kind: one line, several lines, or one of `choices`.
        value: what stands in it at first.
        hint: what may be typed, shown while it is empty.
        choices: id and label of each.
        needed: whether it may not stay empty.
    """

    name: str
    label: str
    kind: Literal["line", "lines", "pick"] = "line"
    value: str = ""
    hint: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    needed: bool = False


class Form(ModalScreen[bool]):
    """A form on top of a screen.

    Args:
        title: what it is for.
        entries: its fields.
        take: stores what was typed; what it refuses is shown in one line, and the form stays.
        note: a line or two below the title.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        key("f2,ctrl+s", "keep", "keep", "Keep what was typed."),
        key("escape", "drop", "back", "Back; what was typed is thrown away only when asked twice."),
    ]
    AUTO_FOCUS = "TextLine, TextBlock, PickOne"

    def __init__(
        self, title: str, entries: Sequence[Entry], take: Callable[[dict[str, str]], None], note: str = ""
    ) -> None:
        super().__init__()
        self.title = title
        self._entries, self._take, self._note = list(entries), take, note
        self._asked = False

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with VerticalScroll(classes="dialog wide", can_focus=False):
            yield Static(plain(self.title or "", BOLD), classes="" if self._note else "note")
            if self._note:
                yield Static(plain(self._note, FAINT), classes="note")
            for entry in self._entries:
                with Horizontal(classes=f"entry {entry.kind}"):
                    yield Static(plain(entry.label), classes="label")
                    yield _field(entry)
            yield Static(id="wrong")
            yield KeyLine()

    def typed(self) -> dict[str, str]:
        """Give what stands in the fields."""
        return {entry.name: _text(self.query_one(f"#{entry.name}")) for entry in self._entries}

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Go on from a line."""
        event.stop()
        self._go_on(event.input)

    def on_pick_one_taken(self, event: PickOne.Taken) -> None:
        """Go on from a choice."""
        event.stop()
        self._go_on(event.picker)

    def _go_on(self, field: Widget) -> None:
        names = [entry.name for entry in self._entries]
        place = names.index(field.id or "")
        if place + 1 == len(names):
            self.action_keep()
        else:
            self.set_focus(self.query_one(f"#{names[place + 1]}"))

    def action_keep(self) -> None:
        """Store what was typed; the form stays when that is refused."""
        typed = self.typed()
        for entry in self._entries:
            if entry.needed and not typed[entry.name].strip():
                self._say(f"{entry.label}: wanted here")
                self.set_focus(self.query_one(f"#{entry.name}"))
                return
        try:
            self._take(typed)
        except Exception as error:
            if not is_refusal(error):
                raise
            if isinstance(error, BothChanged):
                self._say("Not kept yet: somebody else wrote here too. F2 shows both sides.")
                self.app.push_screen(BothSides(error), self._settled)
            else:
                self._say(words_for(error))
        else:
            self.dismiss(True)

    def _settled(self, kept: bool | None) -> None:
        if kept:
            self.dismiss(True)

    def action_drop(self) -> None:
        """Leave without storing; asked once more where something was typed."""
        changed = self.typed() != {entry.name: entry.value for entry in self._entries}
        if changed and not self._asked:
            self._asked = True
            self._say("Not kept yet: F2 keeps it, Esc once more throws it away.")
        else:
            self.dismiss(False)

    def _say(self, words: str) -> None:
        wrong = self.query_one("#wrong", Static)
        wrong.update(plain(words, WRONG))
        wrong.scroll_visible(animate=False)


def _field(entry: Entry) -> Widget:
    if entry.kind == "pick":
        return PickOne(entry.choices, entry.value, id=entry.name)
    if entry.kind == "lines":
        return TextBlock(entry.value, id=entry.name)
    return TextLine(entry.value, entry.hint, id=entry.name)


def _text(field: Widget) -> str:
    if isinstance(field, TextBlock):
        return field.text
    assert isinstance(field, TextLine | PickOne)
    return field.value
