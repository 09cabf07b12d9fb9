"""The screens. Nothing here is loaded before they are opened, so that plain commands stay quick."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from casebook.bench.desk import Desk


def run(open_desk: Callable[[], Desk]) -> int:
    """Show the screens until somebody leaves them.

    Args:
        open_desk: opens book and rule packs; called once, in a thread, after the first frame is painted.

    Returns:
        The exit status: 0, or 1 after a fault of the program.
    """
    from casebook.screens.app import CasebookApp

    app = CasebookApp(open_desk)
    # Without the mouse the terminal keeps its own way of marking text.
    app.run(mouse=False)
    return app.return_code or 0
