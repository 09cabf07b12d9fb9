"""`casebook triage`: answers in, proposals out."""

from __future__ import annotations

import argparse

from casebook.commands.exits import BROKEN_FILE, FINE, USAGE, Failure
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import library, read_text, shop
from casebook.strict_yaml import BrokenFile


def run(args: argparse.Namespace) -> int:
    """Advise on an answers file."""
    from casebook.bench.advice_json import bench_json
    from casebook.bench.advice_text import bench_text
    from casebook.bench.changing import NoSuchStrategy, changes
    from casebook.bench.triage import triage
    from casebook.figures.as_text import in_unit

    text, name = read_text(args.file)
    try:
        bench = triage(library(args), text, name)
    except BrokenFile as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    shop(args)
    try:
        change = changes(bench, args.change)
    except NoSuchStrategy as error:
        raise Failure(USAGE, str(error)) from None
    if args.json:
        print_json({**bench_json(bench), **({"change": change} if change else {})})
    else:
        lines = bench_text(bench) + (["", "What would change it", *change.values()] if change else [])
        print_text(*(in_unit(line, args.unit) for line in lines))
    return FINE
