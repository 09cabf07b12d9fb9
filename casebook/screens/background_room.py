"""A room that reads what it shows in the background, so that no key ever waits for the book."""

from __future__ import annotations

from typing import Generic, TypeVar

from textual import work
from textual.worker import get_current_worker

from casebook.screens.room import Room

Read = TypeVar("Read")


class BackgroundRoom(Room, Generic[Read]):
    """A screen of which `read` runs in a thread and `show` paints what it gave.

    When reading fails, the screen is left and the line says why: shown anew it would only fail again.
    """

    def read(self) -> Read:
        """Read what is shown; runs in a thread and touches no widget."""
        raise NotImplementedError

    def show(self, read: Read) -> None:
        """Show what was read."""
        raise NotImplementedError

    def renew(self) -> None:
        """Read anew."""
        self._read()

    @work(thread=True, exclusive=True, group="read", exit_on_error=False)
    def _read(self) -> None:
        worker = get_current_worker()
        try:
            read = self.read()
        except Exception as error:
            if not worker.is_cancelled:
                self.app.call_from_thread(self._failed, error)
            return
        if not worker.is_cancelled:
            self.app.call_from_thread(self._have, read)

    def _have(self, read: Read) -> None:
        if self.is_mounted:
            self.show(read)

    def _failed(self, error: Exception) -> None:
        if self.is_current:
            self.dismiss()
        self.app.call_later(self.casebook.trouble, error)
