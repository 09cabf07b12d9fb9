"""`casebook demo`: a throw-away book; screens on it, or without a terminal the main job once, in print."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from casebook.commands.exits import FINE
from casebook.commands.output import print_text
from casebook.commands.sources import has_terminal, library

if TYPE_CHECKING:
    from casebook.bench.desk import Desk

# A post torn out of a boxwood foot joint, as somebody might find it on a Monday morning.
_ANSWERS = """\
family: posts
place: foot joint, E flat key, lower post
story: Torn out with the key still on it; the hole is wider at the top, dry and clean.
answers:
  instrument_kind: simple_system_flute
  body_wood: boxwood
  owner_aim: play_occasional
  historical_importance: ordinary
  owner_consent: sound_repair
  wood_state: stable
  post_problem: torn_out
  post_mount: screwed_in_wood
  post_shank: threaded_good
  post_hole: coned_out
  post_hole_crack: no_crack
  post_hole_to_bore: blind
  prior_solder: no_solder
  prior_adhesive: no_adhesive
  prior_bushing: no_bushing
  prior_plate: no_plate
  flange_seat: recessed
  flange_diameter: 0.250 in
  flange_thickness: 0.7 mm
  body_diameter_here: 26.0 mm
  wall_thickness_here: 6.4 mm
  distance_to_tone_hole: 6.5 mm
  shank_diameter: 3-48
  shank_pitch: 48 tpi
  shank_length: 2.9 mm
  hole_diameter_top: {value: 4.9, unit: mm, error: 0.05}
"""
_SHEET = {
    "flange": "0.250 in",
    "thread": "3-48",
    "engaged": "2.9 mm",
    "hole": "4.9 mm",
    "body": "26.0 mm",
    "wall": "6.4 mm",
    "seat": "recessed",
    "flange_thickness": "0.7 mm",
    "tone_hole": "6.5 mm",
}


def run(args: argparse.Namespace) -> int:
    """Fill a throw-away book and show the main job on it."""
    packs = library(args)
    with TemporaryDirectory(prefix="casebook-demo-") as place:

        def open_desk() -> Desk:
            from casebook.bench.demo import fill, settings, throw_away
            from casebook.bench.desk import Desk
            from casebook.bench.shop_keeping import ShopFile
            from casebook.records.book import Book

            today = date.today()
            file = ShopFile(settings(Path(place), today), packs, today)
            book = Book.open(throw_away(Path(place)))
            desk = Desk(book, packs, today, args.unit or file.shop.unit, shop_file=file)
            fill(desk)
            return desk

        if has_terminal():
            from casebook.screens import run as run_screens

            return run_screens(open_desk)
        _print_main_job(open_desk(), args)
    return FINE


def _print_main_job(desk: Desk, args: argparse.Namespace) -> None:
    from casebook import figures
    from casebook.bench.advice_text import bench_text
    from casebook.bench.case_text import case_text
    from casebook.bench.likeness import find_cases, like_answers
    from casebook.bench.triage import triage
    from casebook.commands.find import like_text
    from casebook.figures.as_text import result_text
    from casebook.figures.inputs import read
    from casebook.guide.knowledge import kept_form
    from casebook.strict_yaml import Mapping, parse

    node = parse(_ANSWERS, "the demo")
    assert isinstance(node, Mapping)
    bench = triage(desk.library, _ANSWERS, "the demo")
    print_text("A damage on the bench", "", f"  {node['place']}", f"  {node['story']}", "")
    print_text(*bench_text(bench))
    print_text("", "Its numbers", "")
    sheet = figures.worksheet("bushing")
    print(result_text(sheet.run(read(sheet.inputs, _SHEET)), args.unit or "mm"))
    print_text("", "Its like in the past", "")
    likes = like_answers(desk, "posts", kept_form(node["answers"]), story=str(node["story"]), limit=3)
    for like in likes:
        print_text(*like_text(like))
    print_text("", "Finding one again, with a slip of the finger: busching epoxi winter", "")
    for hit in find_cases(desk, "busching epoxi winter", 2).hits:
        print_text(*like_text(hit))
    print_text("", "The record of the first of them", "")
    print_text(*case_text(desk.library, desk.book.case(likes[0].case)))
    print_text(
        "",
        f"{desk.book.count()} invented cases in this throw-away book. In a terminal the screens open on it.",
    )
