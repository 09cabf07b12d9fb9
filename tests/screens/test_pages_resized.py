"""The pages around a case stay usable while the terminal changes its size."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from casebook.screens.app import CasebookApp
from tests.screens.hand import at_the_screens
from tests.screens.shop import CASES, shop
from tests.screens.test_instrument import UID, VISITS

SIZES = ((40, 10), (200, 60), (24, 6), (80, 24))
PAGES: dict[str, tuple[Callable[[CasebookApp], None], str]] = {
    "InstrumentsScreen": (CasebookApp.instruments, "oboe"),
    "InstrumentScreen": (lambda app: app.instrument(UID), "B-0310"),
    "DueScreen": (CasebookApp.due, "To be looked at"),
    "PhoneScreen": (lambda app: app.phone("B-0302"), "G sharp"),
    "Form": (CasebookApp.phone_call, "Who calls"),
}


@pytest.mark.parametrize("page", PAGES)
async def test_a_page_is_the_same_after_every_size(tmp_path: Path, page: str) -> None:
    """Small, large, tiny and back: it shows what it showed, and its keys still work."""
    open_it, shows = PAGES[page]
    async with at_the_screens(shop(tmp_path / "book.db", *VISITS, *CASES[3:])) as hand:
        open_it(hand.app)
        await hand.settle()
        before = hand.sees()
        assert shows in before
        for size in SIZES:
            await hand.pilot.resize_terminal(*size)
            await hand.settle()
            assert hand.screen == page
        assert hand.sees() == before
        await hand.press("escape")
        assert hand.screen == "CasesScreen"
