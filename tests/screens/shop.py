"""A small shop for the screens: frozen rule packs, three cases, one fixed day."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from casebook.bench.desk import Desk
from casebook.bench.library import Library
from casebook.records.book import Book
from casebook.records.case import Case, Choice, Damage, FollowUp, Instrument, Look, StepDone
from casebook.records.workshop import Consent, Visit

TODAY = date(2026, 3, 9)
PACKS = Path(__file__).parent / "packs"

CASES = (
    Case(
        "B-0301",
        "Throat A key post loose, bushing let go",
        date(2025, 11, 3),
        Instrument("clarinet", "B flat, about fifty years old", "grenadilla, silver-plated keys"),
        owner="owner 4",
        owner_words="It flops about in the middle of the slow movement.",
        answers={"instrument_kind": "clarinet", "owner_consent": "sound_repair"},
        finished=True,
        damages=(
            Damage(
                "posts",
                place="upper joint, throat A key, right post",
                story="Post turns under the finger.",
                looks=(Look({"post_problem": "loose", "post_hole": "enlarged"}, date(2025, 11, 3)),),
                choice=Choice("hidden_bushing", date(2025, 11, 4), "the hole is too wide to pack"),
                steps=(StepDone("Fix the sizes on the bushing worksheet.", date(2025, 11, 4), "JV", 0.5),),
                done="Brass bushing glued into the trued hole.",
                hours=1.4,
                repaired_on=date(2025, 11, 6),
                followups=(FollowUp("no", date(2026, 2, 9), "glue"),),
                learned="Groove the bushing and wash the oil off it.",
            ),
        ),
    ),
    Case(
        "B-0302",
        "G sharp post torn out",
        date(2026, 3, 2),
        Instrument("oboe", "ring keys, about 1960", "cocus"),
        owner_words="I heard it go.",
        answers={"owner_consent": "sound_repair", "white_part": "none_seen"},
        damages=(
            Damage(
                "posts",
                place="G sharp key, upper post",
                looks=(
                    Look(
                        {
                            "post_problem": "torn_out",
                            "post_hole": "coned_out",
                            "prior_solder": "no_solder",
                            "flange_diameter": "7.5 mm",
                            "hole_diameter": {"value": "5.2", "unit": "mm", "error": "0.05"},
                        },
                        date(2026, 3, 2),
                    ),
                ),
                consents=(Consent("yes", date(2026, 3, 3), "the owner", "by telephone", "90"),),
            ),
            Damage("posts", place="low C key, lower post"),
        ),
    ),
    Case(
        "B-0303",
        "Low E flat post soldered by somebody",
        date(2026, 3, 5),
        Instrument("bassoon", "wing joint", "maple"),
        visit=Visit(needed_by=date(2026, 3, 20), needed_for="a concert", came_in_with="case, crook"),
        answers={"owner_consent": "sound_repair", "white_part": "none_seen"},
        damages=(
            Damage(
                "posts",
                place="low E flat key, upper post",
                looks=(
                    Look(
                        {"post_problem": "torn_out", "prior_solder": "soft_solder", "post_hole": "enlarged"},
                        date(2026, 3, 5),
                    ),
                ),
            ),
        ),
    ),
)


def frozen_library() -> Library:
    """Give a library of the frozen packs alone."""
    library = Library(PACKS)
    frozen = {id: pack for id, pack in library.packs.items() if Path(pack.file).parent == PACKS}
    library.packs.clear()
    library.packs.update(frozen)
    return library


def shop(place: Path, *cases: Case) -> Callable[[], Desk]:
    """Give what opens the shop's desk; a book that is not there yet is filled with `cases`."""

    def open_desk() -> Desk:
        if not place.exists():
            place.write_bytes(_filled(cases))
        return Desk(Book.open(place), frozen_library(), TODAY)

    return open_desk


def _filled(cases: tuple[Case, ...]) -> bytes:
    """Give the file of a book with these cases; it is filled once."""
    key = repr(cases)
    if key not in _BOOKS:
        with TemporaryDirectory() as folder:
            place = Path(folder) / "book.db"
            with Book.open(place) as book:
                for case in cases:
                    book.add(case)
            _BOOKS[key] = place.read_bytes()
    return _BOOKS[key]


_BOOKS: dict[str, bytes] = {}
