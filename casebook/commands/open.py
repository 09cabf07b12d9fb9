"""`casebook` without a command: the screens on one's own book."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from casebook.commands.exits import USAGE, Failure
from casebook.commands.sources import desk, has_terminal

if TYPE_CHECKING:
    from casebook.bench.desk import Desk


def run(args: argparse.Namespace) -> int:
    """Open the screens.

    Raises:
        Failure: there is no terminal for them.
    """
    if not has_terminal():
        raise Failure(
            USAGE,
            "the screens need a terminal; without one: casebook triage FILE, record FILE, show CASE,"
            " find WORDS (casebook --help)",
        )
    from casebook.screens import run as run_screens

    def open_desk() -> Desk:
        return desk(args, create=True)

    return run_screens(open_desk)
