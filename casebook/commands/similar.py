"""`casebook similar`: damages like one of the book, or like an answers file."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from casebook.commands.exits import BROKEN_FILE, FINE, PROBLEM, Failure, complain
from casebook.commands.find import like_data, like_text
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import desk, read_text
from casebook.strict_yaml import BrokenFile

if TYPE_CHECKING:
    from casebook.bench.desk import Desk
    from casebook.bench.likeness import Like


def run(args: argparse.Namespace) -> int:
    """Print what is most like it, with what agrees, what differs and how each turned out."""
    here = desk(args)
    likes = _of_file(here, args) if args.what == "-" or Path(args.what).is_file() else _of_case(here, args)
    if args.json:
        print_json([like_data(like) for like in likes])
    else:
        for like in likes:
            print_text(*like_text(like))
    return FINE if likes else complain(PROBLEM, "nothing in the book is like it")


def _of_case(here: Desk, args: argparse.Namespace) -> list[Like]:
    from casebook.bench.likeness import like_this
    from casebook.records.errors import NoSuchCase

    try:
        return like_this(here, args.what, args.damage, args.limit)
    except NoSuchCase as error:
        raise Failure(PROBLEM, f"{error} (and no file of that name)") from None
    except KeyError:
        raise Failure(PROBLEM, f"case {args.what} has no damage {args.damage}") from None


def _of_file(here: Desk, args: argparse.Namespace) -> list[Like]:
    from casebook.bench.likeness import like_answers
    from casebook.bench.triage import triage
    from casebook.guide.knowledge import kept_form
    from casebook.strict_yaml import Mapping, parse

    text, name = read_text(args.what)
    try:
        bench = triage(here.library, text, name)
        node = parse(text, name)
    except BrokenFile as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    if not 1 <= args.damage <= len(bench.advices):
        raise Failure(PROBLEM, f"{name} has no damage {args.damage}")
    assert isinstance(node, Mapping)
    damage = node["damages"][args.damage - 1] if bench.several else node
    shared = node.get("answers") if bench.several else None
    answers = {
        **(kept_form(shared) if shared else {}),
        **(kept_form(damage.get("answers")) if damage.get("answers") else {}),
    }
    known = {
        question: answer
        for question, answer in answers.items()
        if answer not in ("", "~", "null", "not_known")
    }
    return like_answers(
        here,
        bench.advices[args.damage - 1].guide.family,
        known,
        story=str(damage.get("story", "")),
        limit=args.limit,
    )
