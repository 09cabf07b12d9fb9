"""The words of the command line: every command with its arguments, its help and an example."""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence

from casebook import __version__

# command -> (what it does, its arguments, an example); the work is casebook.commands.<command>.run.
COMMANDS: dict[str, tuple[str, str]] = {
    "demo": ("fill a throw-away book from invented cases and open the screens on it", "casebook demo"),
    "triage": ("answers in, proposals out", "casebook triage answers.yaml"),
    "worksheet": (
        "one calculation; alone it lists them",
        "casebook worksheet tap-drill thread=3-48 material=brass",
    ),
    "record": ("store new cases from YAML, or update known ones by number", "casebook record cases.yaml"),
    "show": ("one case, whole, as it was decided", "casebook show B-0101"),
    "find": ("search all cases; typing errors and units are forgiven", "casebook find coned hole .205"),
    "similar": (
        "damages like this one, what agrees, what differs, how they turned out",
        "casebook similar B-0101",
    ),
    "due": ("repairs to look at again, as a list or a calendar file", "casebook due --ics looks.ics"),
    "quote": ("what it will cost, ready to read out on the phone", "casebook quote B-0101"),
    "shop": ("the shop's settings: what is set, an example to begin with, a check", "casebook shop example"),
    "packs": ("list the rule packs, check them, or print their schema", "casebook packs check"),
}

EPILOG = """\
exit status: 0 fine; 1 ran and found a problem, or nothing; 2 wrong use or bad worksheet input;
3 broken input file (answers, case, rule pack); 4 the book cannot be read or written.
Without a command the screens open."""


class _Help(argparse.RawDescriptionHelpFormatter):
    """Help that fits a terminal of 80 columns; asking for the real width takes every start an import more."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=78)


def parser(words: Sequence[str]) -> argparse.ArgumentParser:
    """Build the parser for these words: every command is named, the one asked for has its arguments."""
    top = argparse.ArgumentParser(
        prog="casebook",
        description="For people who repair keyed wooden woodwinds: judge a damage, work it out, record it,"
        " find it again.",
        epilog=EPILOG,
        formatter_class=_Help,
    )
    top.add_argument("--version", action="version", version=f"casebook {__version__}")
    top.add_argument(
        "--book",
        metavar="PATH_OR_URL",
        default=os.environ.get("CASEBOOK_BOOK") or None,
        help="the book of cases: a file, or a postgresql+psycopg:// URL"
        " (else CASEBOOK_BOOK, else your data folder)",
    )
    top.add_argument(
        "--packs",
        metavar="DIR",
        default=os.environ.get("CASEBOOK_PACKS") or None,
        help="a folder of rule packs laid over the shipped ones (else CASEBOOK_PACKS)",
    )
    top.add_argument(
        "--shop",
        metavar="FILE",
        default=os.environ.get("CASEBOOK_SHOP") or None,
        help="the shop's settings (else CASEBOOK_SHOP, else shop.yaml in your data folder)",
    )
    top.add_argument(
        "--unit", choices=("mm", "in", "thou"), help="unit in which sizes are shown (else the shop's, or mm)"
    )
    commands = top.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    for name, (does, example) in COMMANDS.items():
        asked = name in words
        one = commands.add_parser(
            name,
            help=does,
            description=does[0].upper() + does[1:] + ".",
            epilog=f"example: {example}",
            add_help=asked and name != "worksheet",
        )
        if asked:
            _arguments(name, one)
    return top


def _arguments(name: str, one: argparse.ArgumentParser) -> None:
    # A worksheet's help shows the inputs of the one named, so it reads its words itself (see `parsed`).
    if name not in ("demo", "worksheet"):
        one.add_argument("--json", action="store_true", help="print data instead of text")
    if name == "triage":
        one.add_argument("file", metavar="FILE", help="an answers file; - reads standard input")
        one.add_argument(
            "--change", action="append", default=[], metavar="STRATEGY", help="say what would make it fit"
        )
    elif name == "record":
        one.add_argument("files", metavar="FILE", nargs="+", help="case files; - reads standard input")
    elif name == "show":
        one.add_argument("case", metavar="CASE", help="the case's number")
    elif name == "find":
        one.add_argument("words", metavar="WORDS", nargs="+", help="what to look for")
    elif name == "similar":
        one.add_argument("what", metavar="CASE-or-FILE", help="a case's number, or an answers file")
        one.add_argument(
            "--damage", type=int, default=1, metavar="N", help="which damage of the case (default 1)"
        )
    elif name == "packs":
        one.add_argument(
            "what", nargs="?", choices=("check", "schema"), help="check proves packs; schema is for editors"
        )
        one.add_argument(
            "paths", nargs="*", metavar="PATH", help="pack files or folders to check; all packs if none"
        )
    elif name == "shop":
        one.add_argument(
            "what", nargs="?", choices=("example", "check"), help="print an example, or check a file"
        )
        one.add_argument("file", nargs="?", metavar="FILE", help="the file to check; else the shop's own")
    elif name == "quote":
        one.add_argument("what", metavar="FILE-or-CASE", help="an answers file, or a case's number")
        one.add_argument("--materials", type=_money, metavar="SUM", help="price of parts and materials")
        for option, does in (("--must", "must be done"), ("--can-wait", "can wait and is not in the sum")):
            one.add_argument(
                option, type=int, action="append", default=[], metavar="N", help=f"damage N {does}"
            )
    elif name == "due":
        one.add_argument("--ics", metavar="FILE", help="write them to a calendar file (iCalendar)")
        one.add_argument(
            "--season-end",
            type=_month_and_day,
            metavar="MM-DD",
            help="the day the heating season ends (else the shop's, or 04-15)",
        )
    if name in ("find", "similar"):
        one.add_argument(
            "--limit", type=_limit, default=10, metavar="N", help="how many at most (default 10)"
        )


def _money(typed: str) -> float:
    try:
        value = float(typed.replace(",", "."))
    except ValueError:
        value = -1.0
    if not 0 <= value <= 1_000_000:
        raise argparse.ArgumentTypeError(f"{typed!r} is no sum of money: write it as 12 or 12.50")
    return value


def _month_and_day(typed: str) -> tuple[int, int]:
    from datetime import date

    try:
        # A year that is no leap year, so that the day is there every year.
        day = date.fromisoformat(f"2001-{typed}")
    except ValueError:
        raise argparse.ArgumentTypeError(f"{typed!r} is no day of every year: write it as 04-15") from None
    return day.month, day.day


def _limit(typed: str) -> int:
    if not typed.isdecimal() or not 1 <= int(typed) <= 10_000:
        raise argparse.ArgumentTypeError(f"{typed!r} is no number from 1 to 10000")
    return int(typed)


def parsed(words: Sequence[str]) -> argparse.Namespace:
    """Read the words; leaves with SystemExit for help, for the version, and for wrong use."""
    top = parser(words)
    args, rest = top.parse_known_args(words)
    if args.command == "worksheet":
        args.words = rest
    elif rest:
        top.error(f"unrecognized arguments: {' '.join(rest)}")
    return args
