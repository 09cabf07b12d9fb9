"""Keys: how they are written down, and the line at the foot of a screen that shows those that matter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from textual.binding import Binding
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Input, Static, TextArea

from casebook.screens.plain import BOLD, FAINT, joined, plain

_NAMES = {
    "question_mark": "?", "slash": "/", "escape": "Esc", "enter": "Enter", "space": "Space", "plus": "+",
    "pageup": "PgUp", "pagedown": "PgDn",
}  # fmt: skip


def key(keys: str, action: str, label: str, help: str = "", *, show: bool = True) -> Binding:
    """Write down a key.

    Args:
        keys: the key, and after a comma a second one that works while a field has the focus.
        action: what it does.
        label: one or two words for the foot of the screen.
        help: a sentence for the help.
        show: whether it stands at the foot.
    """
    return Binding(keys, action, label, show=show, tooltip=help)


def key_name(name: str) -> str:
    """Give a key as it stands on the keyboard."""
    if name in _NAMES:
        return _NAMES[name]
    if name.startswith("ctrl+"):
        return f"^{name[5:].upper()}"
    return name.upper() if len(name) > 1 else name


def bindings_of(screen: Screen[Any]) -> Iterator[Binding]:
    """List the keys of a screen that can be used now, its own first."""
    seen: set[str] = set()
    for room in type(screen).__mro__:
        for binding in room.__dict__.get("BINDINGS", ()):
            known = isinstance(binding, Binding) and room.__module__.startswith("casebook.")
            if known and binding.action not in seen and screen.check_action(binding.action, ()) is not False:
                seen.add(binding.action)
                yield binding


class KeyLine(Static):
    """The few keys that matter, at the foot; in a field, those that work there."""

    def on_mount(self) -> None:
        """Follow the focus."""
        self.watch(self.screen, "focused", self.again)

    def on_resize(self) -> None:
        """Cut to the new width."""
        self.again()

    def again(self) -> None:
        """Show the keys that work now."""
        typing = isinstance(self.screen.focused, Input | TextArea)
        shown: list[Content] = []
        last: list[Content] = []
        for binding in bindings_of(self.screen):
            usable = [name for name in binding.key.split(",") if not typing or len(key_name(name)) > 1]
            if binding.show and usable:
                part = joined(plain(key_name(usable[0]), BOLD), plain(f" {binding.description}", FAINT))
                # Where there is room for little, at least the help is named.
                (last if binding.action == "help" else shown).append(part)
        room = self.size.width - sum(part.cell_length + 2 for part in last)
        parts: list[Content] = []
        for part in shown:
            room -= part.cell_length + 2
            if room < 0:
                break
            parts.append(part)
        parts += last
        self.update(Content("  ").join(parts))
