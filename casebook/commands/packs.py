"""`casebook packs`: list the rule packs, prove them, print their schema."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from casebook.commands.exits import BROKEN_FILE, FINE, PROBLEM, USAGE, Failure
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import library
from casebook.strict_yaml import BrokenFile

if TYPE_CHECKING:
    from casebook.bench.library import Library


def run(args: argparse.Namespace) -> int:
    """List, check or describe the packs."""
    if args.what == "schema":
        from casebook.guide.pack_shape import json_schema

        print_json(json_schema())
        return FINE
    if args.what == "check":
        return _check(args)
    packs = library(args).packs.values()
    if args.json:
        print_json(
            [
                {"id": p.id, "version": p.version, "title": p.title, "digest": p.digest, "file": p.file}
                for p in packs
            ]
        )
    else:
        width = max(len(pack.id) for pack in packs)
        print_text(*(f"{pack.id:<{width}}  {pack.version}  {pack.title}" for pack in packs))
    return FINE


def _check(args: argparse.Namespace) -> int:
    from casebook.bench.checking import check_packs, lay_over

    for path in args.paths:
        if not Path(path).exists():
            raise Failure(USAGE, f"{path}: there is no such file or folder")
    packs: Library = library(args)
    try:
        families = lay_over(packs, [Path(path) for path in args.paths])
        checked = check_packs(packs, families)
    except BrokenFile as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    if args.json:
        print_json(
            [_as_data(family, verdict) for family, verdicts in checked.items() for verdict in verdicts]
        )
    else:
        for family, verdicts in checked.items():
            print_text(f"{family}: {'proved' if not verdicts else f'{len(verdicts)} to mend or to settle'}")
            for verdict in verdicts:
                where = (
                    verdict.at.file
                    if verdict.at.line is None
                    else f"{verdict.at.file}, line {verdict.at.line}"
                )
                word = "not settled" if verdict.kind == "not_settled" else "wrong"
                print_text(f"  {word}: {where}: {verdict.says}")
                print_text(*(f"      {answer}" for answer in verdict.answers))
    wrong = any(verdict.kind == "wrong" for verdicts in checked.values() for verdict in verdicts)
    return PROBLEM if wrong else FINE


def _as_data(family: str, verdict: Any) -> dict[str, Any]:
    return {
        "family": family,
        "kind": verdict.kind,
        "file": verdict.at.file,
        "line": verdict.at.line,
        "says": verdict.says,
        "answers": list(verdict.answers),
    }
