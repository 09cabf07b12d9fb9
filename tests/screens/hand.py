"""A hand at the keyboard: opens the screens, types, and reads what stands on them."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import asynccontextmanager
from typing import Any

from textual import events
from textual.app import App
from textual.keys import _character_to_key
from textual.pilot import Pilot
from textual.widgets import Static

from casebook.bench.desk import Desk
from casebook.screens.app import CasebookApp


class Hand:
    """A hand at the keyboard."""

    def __init__(self, pilot: Pilot[None], app: CasebookApp) -> None:
        self.pilot = pilot
        self.app = app
        self.presses = 0

    async def settle(self) -> None:
        """Wait until nothing moves any more."""
        await settle(self.pilot)

    async def press(self, *keys: str) -> None:
        """Press keys, one after the other, and wait after each."""
        for key in keys:
            self._send(key)
            await self.settle()

    async def type(self, text: str) -> None:
        """Type a text, quicker than anything can follow."""
        for character in text:
            self._send(_character_to_key(character), character)
        await self.settle()

    def _send(self, key: str, character: str | None = None) -> None:
        """Send one key as the terminal would."""
        driver = self.app._driver
        assert driver is not None
        event = events.Key(key, character if character is not None or len(key) > 1 else key)
        event.set_sender(self.app)
        driver.send_message(event)
        self.presses += 1

    @property
    def screen(self) -> str:
        """The name of the screen on top."""
        return type(self.app.screen).__name__

    def sees(self) -> str:
        """Give what stands on the screen, each line without its end."""
        return seen(self.app)

    def reads(self) -> str:
        """Give what the texts of the screen say, whatever lines they are broken into."""
        texts = [one for one in self.app.screen.query(Static) if one.display]
        return " ".join(" ".join(str(one.content).split()) for one in texts)


async def settle(pilot: Pilot[Any]) -> None:
    """Wait until workers and messages have come to rest."""
    await pilot.pause()
    while _at_work(pilot.app):
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()


def _at_work(app: App[Any]) -> bool:
    keys = isinstance(app, CasebookApp) and app.keys_held
    return keys or any(not worker.is_finished for worker in app.workers)


def seen(app: App[Any]) -> str:
    """Give the text of the screen as painted."""
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)


def pressing(keys: Sequence[str]) -> Callable[[Pilot[Any]], Any]:
    """Give what presses these keys before a picture is taken; ``=words`` types words."""

    async def go(pilot: Pilot[Any]) -> None:
        assert isinstance(pilot.app, CasebookApp)
        hand = Hand(pilot, pilot.app)
        await settle(pilot)
        for key in keys:
            await (hand.type(key[1:]) if key.startswith("=") else hand.press(key))

    return go


@asynccontextmanager
async def at_the_screens(
    open_desk: Callable[[], Desk], size: tuple[int, int] = (80, 24)
) -> AsyncIterator[Hand]:
    """Open the screens on a desk."""
    app = CasebookApp(open_desk)
    async with app.run_test(size=size) as pilot:
        hand = Hand(pilot, app)
        await hand.settle()
        yield hand
