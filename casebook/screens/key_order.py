"""Keys typed ahead: each is handed on only when what the one before it does has happened.

Without this, keys that pile up while something is drawn or opened all go to the field that had the focus when
the first of them came, and letters meant for a form not yet open act as commands on the screen before it.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from functools import partial
from typing import Any

from textual import events
from textual.app import App
from textual.message import Message
from textual.message_pump import MessagePump

# A mark goes the way of the key, from the field up to the application, and comes in behind it. The first
# round tells that the key was handled, the second that what this posted was (a line submitted, a screen
# opened), the third that the focus has moved.
_ROUNDS = 3
# Nothing is held longer than this, s: a mark is lost when the field it was posted to goes.
_PATIENCE = 1.0


class KeyDone(Message):
    """Comes up behind a key.

    Attributes:
        key: the count of the key it follows.
    """

    def __init__(self, key: int) -> None:
        super().__init__()
        self.key = key


class KeysInOrder(App[None]):
    """An application that takes one key after the other."""

    def __init__(self) -> None:
        super().__init__()
        self._held: deque[events.Key] = deque()
        self._key = 0
        self._rounds = 0
        # What is still to be done when the frame is painted.
        self._to_do = 0

    @property
    def keys_held(self) -> bool:
        """Whether a key is still at work, or waits for one that is."""
        return self._rounds > 0 or self._to_do > 0 or bool(self._held)

    def after_painting(self, what: Callable[[], None]) -> None:
        """Do something when all that the key has changed so far is painted; the next key waits for it."""

        def then() -> None:
            what()
            self._to_do = max(0, self._to_do - 1)
            if not self._rounds and not self._to_do:
                self.call_later(self._next_key)

        self._to_do += 1
        self.screen.call_after_refresh(then)

    async def on_event(self, event: events.Event) -> None:
        """Hand a key on, or hold it while another is at work."""
        if not isinstance(event, events.Key) or event.is_forwarded:
            await super().on_event(event)
            return
        self._held.append(event)
        if self._rounds or self._to_do:
            self.set_timer(_PATIENCE, partial(self._wait_no_longer, self._key))
        else:
            await self._next_key()

    def exit(self, *args: Any, **options: Any) -> None:
        """Leave; no key is waited for any more."""
        self._held.clear()
        self._rounds = self._to_do = 0
        super().exit(*args, **options)

    async def on_key_done(self, message: KeyDone) -> None:
        """Begin the next round, or take the next key."""
        message.stop()
        if message.key == self._key and self._rounds:
            self._rounds -= 1
            if self._rounds:
                self._mark(self.focused or self.screen)
            elif not self._to_do:
                await self._next_key()

    async def _wait_no_longer(self, key: int) -> None:
        """Take the next key although the mark of one never came."""
        if self._rounds and key == self._key:
            await self._next_key()

    async def _next_key(self) -> None:
        """Hand the next key on, and send the mark after it."""
        self._rounds = 0
        if not self._held or not self.screen_stack:
            self._held.clear()
            return
        event = self._held.popleft()
        goes_to = self.focused or self.screen
        self._key, self._rounds = self._key + 1, _ROUNDS
        await super().on_event(event)
        self._mark(goes_to)

    def _mark(self, goes_to: MessagePump) -> None:
        if not goes_to.post_message(KeyDone(self._key)):
            self.post_message(KeyDone(self._key))
