"""What all screens share: a heading, a body, the line of keys; help, and the way back."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import Input, TextArea

from casebook.screens.heading import Heading
from casebook.screens.keys import KeyLine, key

if TYPE_CHECKING:
    from casebook.bench.desk import Desk
    from casebook.screens.app import CasebookApp


class Room(Screen[None]):
    """A screen. `HELP` says what it is for, `body` lays it out, `renew` reads anew what it shows."""

    HELP: ClassVar[str] = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape", "back", "back", "Out of a field; then back to the screen before."),
        key("question_mark,f1", "help", "help", "This help."),
    ]
    AUTO_FOCUS = ""

    @property
    def casebook(self) -> CasebookApp:
        """The application."""
        return cast("CasebookApp", self.app)

    @property
    def desk(self) -> Desk:
        """The desk of the application."""
        return self.casebook.desk

    @property
    def heading(self) -> Heading:
        """The head of this screen."""
        return self.query_one(Heading)

    def compose(self) -> ComposeResult:
        """Lay it out."""
        yield Heading()
        yield from self.body()
        yield KeyLine()

    def body(self) -> ComposeResult:
        """Lay out what is between heading and keys."""
        yield from ()

    def renew(self) -> None:
        """Read anew what is shown."""

    def on_screen_resume(self) -> None:
        """Show what has become of things since this screen was left."""
        if self.casebook.is_open:
            self.renew()
            self.query_one(KeyLine).again()

    def on_resize(self) -> None:
        """Keep the field one types in on the screen."""
        if self.focused is not None:
            self.call_after_refresh(self.focused.scroll_visible, animate=False)

    def action_back(self) -> None:
        """Leave the field, or the screen."""
        if isinstance(self.focused, Input | TextArea) and self.leave_field():
            return
        self.dismiss()

    def leave_field(self) -> bool:
        """Leave the field one types in; whether there was somewhere to go."""
        return False

    def action_help(self) -> None:
        """Show the help of this screen."""
        from casebook.screens.help import Help

        self.app.push_screen(Help(self))
