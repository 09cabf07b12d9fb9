"""`casebook due`: repairs to look at again, after four to six weeks and after a heating season."""

from __future__ import annotations

import argparse
from dataclasses import asdict
from pathlib import Path

from casebook.commands.exits import FINE, PROBLEM, USAGE, Failure, complain
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import desk


def run(args: argparse.Namespace) -> int:
    """Print what is due, overdue ones first, or write it to a calendar file."""
    here = desk(args)
    if args.season_end:
        here.season_end = args.season_end
    dues = here.due()
    if args.json:
        print_json([asdict(due) | {"since": str(due.since), "until": str(due.until)} for due in dues])
    if not dues:
        return complain(PROBLEM, "no repair is waiting to be looked at")
    if args.ics:
        _write(Path(args.ics).expanduser(), here.due_calendar())
    elif not args.json:
        for due in dues:
            when = f"overdue since {due.until}" if due.overdue else f"{due.since} to {due.until}"
            place = f", {due.place}" if due.place else ""
            print_text(f"{due.case} damage {due.damage}  {due.title}{place}", f"    {due.why}: {when}")
    return FINE


def _write(path: Path, text: str) -> None:
    try:
        path.write_bytes(text.encode("utf-8"))
    except OSError as error:
        raise Failure(USAGE, f"{path}: cannot be written ({error.strerror})") from None
