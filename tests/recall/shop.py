"""A small book to search in: an invented shop's cases, told shortly."""

from __future__ import annotations

from datetime import date

from casebook.records.book import Book
from casebook.records.case import Case, Choice, Damage, FollowUp, Instrument, Look, Measured


def _case(number: str, title: str, kind: str, *damages: Damage, owner_words: str = "") -> Case:
    return Case(number, title, date(2026, 1, 5), Instrument(kind), owner_words=owner_words, damages=damages)


CASES = (
    _case(
        "B-0301",
        "Low E flat post torn out",
        "bassoon",
        Damage(
            "posts",
            place="low E♭ key, wing joint",
            story="The instrument was knocked off its stand; the post brought a splinter of maple with it.",
            looks=(Look({"post_hole": "coned_out", "flange_diameter": '.180"', "spring_in_post": "yes"}),),
            choice=Choice("post_hidden_bushing", reason="keeps the flange's old mark"),
            measured=(Measured("bushing outside", "0.165 in"),),
            done="Turned a brass bushing, threaded 3-48, bedded in shellac.",
            followups=(FollowUp("yes", date(2026, 6, 1), note="tight after the summer"),),
        ),
        owner_words="My nephew tripped over it.",
    ),
    _case(
        "B-0302",
        "Crack through the barrel",
        "clarinet",
        Damage(
            "cracks",
            place="barrel, from the upper socket",
            story="Hairline crack opened in the heating season, closes by hand.",
            looks=(Look({"crack_length": "22 mm", "crack_open": {"not": ["wide"]}}),),
            done="Pinned with two threaded pins of 2.2mm, capillary glue.",
        ),
    ),
    _case(
        "B-0303",
        "Sagging pads and a loose ring",
        "clarinet",
        Damage(
            "pads_and_seats", place="right hand", story="Pads swollen from rain, sticking in the morning."
        ),
        Damage(
            "rings_and_caps",
            place="bell ring",
            story="Ring rattles; somebody had glued paper under it.",
            done="Shimmed with a strip of linen paper.",
            followups=(FollowUp("no", date(2026, 4, 2), cause="glue"),),
        ),
    ),
    _case(
        "B-0304",
        "Needle spring broken in its post",
        "flute",
        Damage(
            "springs",
            place="G♯ key",
            story="Rusty stump in the hole, drilled before by somebody (No. 60).",
            looks=(Look({"spring_diameter": "goes #72 not #71", "spring_length": "1 3/16 in"}),),
        ),
    ),
    _case("B-0305", "Estimate only, nothing done", "oboe"),
)


def fill(book: Book) -> None:
    """Put the shop's cases into a book."""
    for case in CASES:
        book.add(case)
