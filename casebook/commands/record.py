"""`casebook record`: cases from YAML into the book."""

from __future__ import annotations

import argparse

from casebook.commands.exits import BROKEN_FILE, FINE, STORAGE, Failure
from casebook.commands.output import print_json
from casebook.commands.sources import desk, read_text
from casebook.strict_yaml import BrokenFile


def run(args: argparse.Namespace) -> int:
    """Store the cases of every file; all files are checked before the first case is stored."""
    from casebook.bench.recording import read_cases, store
    from casebook.records.check import BadCase
    from casebook.records.errors import StorageError

    texts = [read_text(name) for name in args.files]
    here = desk(args, create=True)
    try:
        cases = [case for text, name in texts for case in read_cases(here, text, name)]
    except BrokenFile as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    try:
        numbers = store(here, cases)
    except BadCase as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    except StorageError as error:
        raise Failure(STORAGE, str(error)) from None
    if args.json:
        print_json(numbers)
    else:
        print("\n".join(numbers))
    return FINE
