"""What went wrong, in one line with what to do; never a traceback, and nothing lost."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, ClassVar

from textual.app import App, ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from casebook.bench.both_sides import BothChanged
from casebook.records.errors import NoSuchCase, StorageError
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, WRONG, lines, plain


def is_refusal(error: BaseException) -> bool:
    """Whether a room below refused something, in one line of its own; anything else is a fault."""
    return type(error).__module__.startswith("casebook.")


def words_for(error: BaseException) -> str:
    """Give the line for a failure; of an unforeseen one only its kind, for it may hold an owner's name."""
    own = getattr(error, "line", None)
    if isinstance(own, str) and own:
        return own
    if is_refusal(error):
        return str(error)
    if isinstance(error, OSError):
        return f"{error.filename or 'a file'}: {error.strerror or type(error).__name__}"
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f"{trace.tb_frame.f_globals.get('__name__', '?')}, line {trace.tb_lineno}" if trace else "?"
    return f"a fault in the program itself ({type(error).__name__} in {where}); please report this line"


class Trouble(ModalScreen[None]):
    """One line of trouble, and what to do."""

    BINDINGS: ClassVar[list[BindingType]] = [key("enter,escape,space", "close", "go on")]

    def __init__(self, what: str, do: str) -> None:
        super().__init__()
        self._what, self._do = what, do

    def compose(self) -> ComposeResult:
        """Lay it out."""
        with Vertical(classes="dialog"):
            yield Static(
                lines([plain("This did not work", WRONG), "", plain(self._what, BOLD), "", self._do])
            )
            yield KeyLine()

    def action_close(self) -> None:
        """Close it."""
        self.dismiss()


def do_next(error: BaseException) -> str:
    """Say what to do after a failure."""
    if isinstance(error, StorageError):
        return "What you typed is still on the screen. Put right what the line says, then do it again."
    if isinstance(error, NoSuchCase):
        return "Somebody may have removed it. Go back to the list, which is read anew."
    return "Nothing was changed by this. Go on, or do it another way."


@contextmanager
def trouble_shown(app: App[Any]) -> Iterator[None]:
    """Show what goes wrong inside as a dialog, and go on; what two people both wrote, from both sides."""
    try:
        yield
    except Exception as error:
        if not is_refusal(error):
            raise
        if isinstance(error, BothChanged):
            from casebook.screens.both_sides import BothSides

            app.push_screen(BothSides(error))
            return
        app.push_screen(Trouble(words_for(error), do_next(error)))
