"""The application: it paints its frame first and opens the book in the background."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, ClassVar

from rich.text import Text
from textual import work
from textual.app import SystemCommand
from textual.binding import Binding, BindingType
from textual.screen import Screen

from casebook.bench.desk import Desk
from casebook.screens.cases import CasesScreen
from casebook.screens.keys import bindings_of, key, key_name
from casebook.screens.room import Room
from casebook.screens.trouble import Trouble, do_next, words_for
from casebook.screens.way import Way


class CasebookApp(Way):
    """The screens on one desk.

    Args:
        open_desk: opens book and rule packs; called once, in a thread.
    """

    TITLE = "casebook"
    CSS_PATH = "casebook.tcss"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012
    BINDINGS: ClassVar[list[BindingType]] = [
        key("ctrl+q", "quit", "quit", show=False),
        Binding("ctrl+t", "park", show=False, priority=True),
    ]
    # Two benches: what lies on one stays as it is, half typed or not, while one works on the other.
    MODES: ClassVar[dict[str, str | Callable[[], Screen[Any]]]] = {"bench": CasesScreen, "aside": CasesScreen}

    def __init__(self, open_desk: Callable[[], Desk]) -> None:
        super().__init__()
        self._open_desk = open_desk
        self._desk: Desk | None = None
        # What lies on the other bench, in words; empty where nothing does.
        self.parked = ""
        # Nothing glides: what a key does is there with the next frame.
        self.animation_level = "none"

    @property
    def is_open(self) -> bool:
        """Whether the book is open."""
        return self._desk is not None

    @property
    def desk(self) -> Desk:
        """The desk."""
        assert self._desk is not None
        return self._desk

    def on_mount(self) -> None:
        """Show the first screen, then open the book."""
        self.switch_mode("bench")
        self.call_after_refresh(self._open)

    @work(thread=True, exclusive=True, group="open", exit_on_error=False)
    def _open(self) -> None:
        try:
            desk = self._open_desk()
            rows = desk.library.packs
            assert rows is not None
        except Exception as error:
            self.call_from_thread(self._not_open, error)
            return
        self.call_from_thread(self._opened, desk)

    def _opened(self, desk: Desk) -> None:
        self._desk = desk
        if isinstance(self.screen, CasesScreen):
            self.screen.renew()
            self.first_run()

    def _not_open(self, error: Exception) -> None:
        self._return_code = 1

        def leave(_: None) -> None:
            self.exit(return_code=1)

        do = "Put that right, or name another book with --book. Enter leaves the program."
        self.push_screen(Trouble(words_for(error), do), leave)

    async def action_park(self) -> None:
        """Leave everything as it lies and go to the other bench: one key there, the same key back."""
        if self.is_open:
            self.parked = self._lies_here()
            await self.switch_mode("aside" if self.current_mode == "bench" else "bench")

    def _lies_here(self) -> str:
        """Name what is open on this bench, behind whatever lies on top of it."""
        for one in reversed(self.screen_stack):
            if isinstance(one, Room):
                return "" if isinstance(one, CasesScreen) else one.heading.left
            if one.title:
                return str(one.title)
        return ""

    def trouble(self, error: BaseException) -> None:
        """Show what went wrong."""
        self.push_screen(Trouble(words_for(error), do_next(error)))

    def get_system_commands(self, screen: Screen[Any]) -> Iterable[SystemCommand]:
        """Put every action of the present screen into the palette, then the program's own."""
        for binding in bindings_of(screen):
            if binding.description:
                name = binding.description[:1].upper() + binding.description[1:]
                keys = " or ".join(key_name(one) for one in binding.key.split(","))
                help = f"{binding.tooltip or name} (key {keys})"
                yield SystemCommand(name, help, lambda one=binding: self._do(screen, one.action))
        yield SystemCommand("Park", "Leave all as it lies, go to the other bench (key ^T)", self.action_park)
        yield SystemCommand("Colours", "Dark, light or high contrast", self.action_change_theme)
        yield SystemCommand("Quit", "Leave; everything is kept already", self.action_quit)

    def _do(self, screen: Screen[Any], action: str) -> None:
        self.call_later(screen.run_action, action)

    def _fatal_error(self) -> None:
        """Say in one line what failed: the usual report would show what is in the case."""
        error = self._exception
        said = words_for(error) if error else "a fault in the program itself"
        self._exit_renderables.append(Text(f"casebook: {said}. What was answered is kept."))
        self._close_messages_no_wait()
