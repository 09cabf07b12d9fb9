"""The command line as a whole: how every failure becomes one line and an exit status.

Each command's work stands in its own module and is imported only when it is asked for, so that ``--help``
and ``worksheet`` load neither the database nor the screens. A worksheet reads its words itself, so the
parser of the others is not loaded for it either.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib import import_module
from types import SimpleNamespace
from typing import Any

from casebook.commands.exits import PROBLEM, STORAGE, USAGE, Failure, complain


def run(words: Sequence[str]) -> int:
    """Run one command line and give its exit status; every failure is one line on standard error."""
    try:
        args = _given(words)
    except SystemExit as leaving:
        return leaving.code if isinstance(leaving.code, int) else USAGE
    try:
        module = import_module(f"casebook.commands.{args.command or 'open'}")
        status: int = module.run(args)
        sys.stdout.flush()
    except Failure as failure:
        return complain(failure.status, failure.line)
    except BrokenPipeError:
        # Whoever read our output has gone; say nothing more.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PROBLEM
    except KeyboardInterrupt:
        return 130
    except Exception as error:
        if os.environ.get("CASEBOOK_DEBUG"):
            raise
        return complain(*_unforeseen(error))
    return status


def _given(words: Sequence[str]) -> Any:
    if list(words[:1]) == ["worksheet"]:
        shop = os.environ.get("CASEBOOK_SHOP") or None
        return SimpleNamespace(command="worksheet", words=list(words[1:]), shop=shop, unit=None)
    from casebook.commands.parser import parsed

    return parsed(words)


def _unforeseen(error: Exception) -> tuple[int, str]:
    """Word a failure: what the rooms below raise has its own line; the rest names no content of a case."""
    kind = type(error).__name__
    if kind in ("StorageError", "ChangedElsewhere", "NumberTaken"):
        return STORAGE, str(error)
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f"{trace.tb_frame.f_globals.get('__name__', '?')}, line {trace.tb_lineno}" if trace else "?"
    return (
        PROBLEM,
        f"a fault in the program itself ({kind} in {where}); nothing was changed. Please report this line.",
    )
