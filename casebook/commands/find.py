"""`casebook find`: search all cases by what one remembers."""

from __future__ import annotations

import argparse
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from casebook.commands.exits import FINE, PROBLEM, complain
from casebook.commands.output import print_json, print_text
from casebook.commands.sources import desk

if TYPE_CHECKING:
    from casebook.bench.likeness import Like


def run(args: argparse.Namespace) -> int:
    """Search, and print the hits, the best first."""
    from casebook.bench.likeness import find_cases

    found = find_cases(desk(args), " ".join(args.words), args.limit)
    if args.json:
        print_json([like_data(hit) for hit in found.hits])
    else:
        for typed, used in found.corrected.items():
            print_text(f"(showing results for {used}, not {typed})")
        for hit in found.hits:
            print_text(*like_text(hit))
    if found.hits:
        return FINE
    return complain(PROBLEM, "nothing found; fewer or other words may find it")


def like_data(like: Like) -> dict[str, Any]:
    """Give a hit as plain data."""
    data = asdict(like)
    return {**data, "agrees": list(like.agrees), "differs": list(like.differs)}


def like_text(like: Like) -> list[str]:
    """Word a hit for reading."""
    lines = [f"{like.case}{f' damage {like.damage}' if like.damage > 1 else ''}  {like.title}"]
    if like.agrees:
        lines.append(f"    same: {'; '.join(like.agrees)}")
    if like.differs:
        lines.append(f"    differs: {'; '.join(like.differs)}")
    if like.chosen:
        lines.append(f"    done: {like.chosen}")
    if like.outcome:
        lines.append(f"    turned out: {like.outcome}")
    return lines
