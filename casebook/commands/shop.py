"""`casebook shop`: what the shop has set, an example file to begin with, a check of a file."""

from __future__ import annotations

import argparse
from datetime import date

from casebook.commands.exits import BROKEN_FILE, FINE, USAGE, Failure
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import library, shop, shop_place
from casebook.strict_yaml import BrokenFile


def run(args: argparse.Namespace) -> int:
    """Show the settings, print the example, or check a file.

    Raises:
        Failure: a file that is not there, or is broken.
    """
    if args.file and args.what != "check":
        raise Failure(USAGE, f"casebook shop {args.what or ''} takes no file: casebook shop check FILE")
    if args.what == "example":
        from casebook.bench.shop_text import example

        print(example(), end="")
        return FINE
    if args.file:
        args.shop = args.file
    here, place = shop(args), shop_place(args)
    kept = place.is_file()
    if args.what == "check" or kept:
        from casebook.bench.shop_ids import refuse_unknown

        try:
            refuse_unknown(here, library(args), str(place))
        except BrokenFile as error:
            raise Failure(BROKEN_FILE, str(error)) from None
    from casebook.bench.shop_text import shop_json, shop_text

    if args.what == "check":
        if not kept:
            raise Failure(USAGE, f"{place}: there is no such file; casebook shop example prints one")
        if args.json:
            print_json({"file": str(place), "fine": True})
        else:
            print_text(f"{place}: fine")
    elif args.json:
        print_json({"file": str(place) if kept else None} | shop_json(here))
    else:
        where = str(place) if kept else f"no file yet ({place}): the usual values"
        print_text(f"shop: {where}", *shop_text(here, date.today()))
    return FINE
