"""Exit statuses, and the one line a failure prints. Standard output is data, standard error is talk."""

from __future__ import annotations

import sys

from casebook.safe_text import one_line

FINE, PROBLEM, USAGE, BROKEN_FILE, STORAGE = range(5)


class Failure(Exception):
    """A command that cannot go on: its exit status and the one line that says why and what to do."""

    def __init__(self, status: int, line: str) -> None:
        super().__init__(status, line)
        self.status = status
        self.line = line


def complain(status: int, line: str) -> int:
    """Print one line on standard error and give the status back."""
    print(f"casebook: {one_line(line)}", file=sys.stderr)
    return status
