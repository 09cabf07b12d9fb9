"""`casebook show`: one case, whole, as it was decided."""

from __future__ import annotations

import argparse

from casebook.commands.exits import FINE, PROBLEM, STORAGE, Failure
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import desk


def run(args: argparse.Namespace) -> int:
    """Print a case; what was decided is shown as it was kept, never computed anew."""
    from casebook.bench.case_text import case_data, case_text
    from casebook.records.errors import NoSuchCase, StorageError

    here = desk(args)
    try:
        case = here.book.case(args.case)
    except NoSuchCase as error:
        raise Failure(PROBLEM, str(error)) from None
    except StorageError as error:
        raise Failure(STORAGE, str(error)) from None
    if args.json:
        print_json(case_data(case))
    else:
        print_text(*case_text(here.library, case))
    return FINE
