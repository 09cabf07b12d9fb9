"""Cases for the tests of the record: one told in full, and strategies that make up any case at all."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from hypothesis import strategies as st

from casebook.records.case import (
    HELD,
    Case,
    Choice,
    Damage,
    FiguresUsed,
    FollowUp,
    Instrument,
    Look,
    Measured,
    StepDone,
)
from casebook.records.workshop import (
    LET_GO,
    OUTCOMES,
    PAYERS,
    SAID,
    URGENCIES,
    WAITS_FOR,
    BeforeAfter,
    Confirmed,
    Consent,
    Departure,
    Visit,
    Wait,
    WoodReading,
)
from casebook.safe_text import unsafe_character

PICCOLO = Case(
    number="B-0207",
    title="Piccolo, G sharp post pulled out with its wood",
    taken_in=date(2025, 11, 3),
    instrument=Instrument("piccolo", "conical, B♭ band size", "cocus, silver", "two stars on the barrel"),
    owner="card 41",
    owner_words="It fell off the stand. The band plays on Saturday.",
    answers={"owner_aim": "play_daily", "owner_consent": "yes"},
    damages=(
        Damage(
            family="posts",
            number=1,
            place="G sharp key, lower post",
            story="Post came away with a flake of cocus; old shellac in the hole.",
            looks=(
                Look(
                    {"post_hole": ["sound", "enlarged"], "flange_diameter": '.180"'},
                    taken=date(2025, 11, 3),
                    ended_by="cleaned",
                    note="shellac softened with spirit",
                ),
                Look({"post_hole": {"not": ["coned_out"]}, "hole": {"value": "3,1", "unit": "mm"}}),
            ),
            choice=Choice(
                "post_hidden_bushing", date(2025, 11, 4), "least wood lost", {"place": 1, "wood_left": 1.31}
            ),
            figures=(FiguresUsed("tap_drill", {"thread": "3-48"}, {"ideal_hole": 1.98}),),
            steps=(StepDone("turned the bushing", date(2025, 11, 5), "hk", 1.25, "brass"),),
            measured=(Measured("bushing outside", "0.170 in", "after polishing"),),
            done="Hidden bushing let in, post screwed home.",
            hours=2.5,
            repaired_on=date(2025, 11, 6),
            followups=(
                FollowUp("yes", date(2026, 2, 1), by_phone=True),
                FollowUp(
                    "no",
                    date(2026, 6, 9),
                    "glue",
                    note="turned under the thumb",
                    kind="let_go",
                    what="glue",
                    since=date(2026, 5, 1),
                    redo_hours=0.75,
                ),
            ),
            learned="Groove the bushing deeper.",
            consents=(
                Consent("later", date(2025, 11, 3), "the bandmaster", "at the counter"),
                Consent(
                    "yes",
                    date(2025, 11, 4),
                    "the bandmaster",
                    "by telephone",
                    "80 pounds",
                    "post_hidden_bushing",
                    "insurer",
                ),
            ),
            departures=(Departure("glue gap 0.05 mm", "0.08 mm", "the cutter ran wide"),),
            before_after=(BeforeAfter("spring force", "0.35 N", "0.30 N", "at the touch"),),
            urgency="must",
        ),
        Damage(family="pads_and_seats", number=2, place="low D", story="Pad torn."),
    ),
    visit=Visit(
        comes_back_from="B-0101",
        pays="owner",
        needed_by=date(2025, 11, 8),
        needed_for="the band plays",
        came_in_with="wooden box, one loose pad",
        loaned_out="the metal piccolo",
        loaned_since=date(2025, 11, 3),
        paid="62,50",
        paid_how="cash",
        materials_price="4.20",
    ),
    waits=(Wait("glue", date(2025, 11, 5), date(2025, 11, 6), "14:30", damage=1, note="epoxy"),),
    wood_readings=(WoodReading(date(2025, 11, 3), "body", "61.2 g", "48", ("15.2 mm", "15.3 mm")),),
    confirmed=(Confirmed("caution_heat_near_wood", date(2025, 11, 4), "hk"),),
)

_characters = st.characters(exclude_categories=["Cs"]).filter(lambda c: unsafe_character(c) is None)
texts = st.text(_characters, max_size=40) | st.sampled_from(
    ["", "~", "null", "yes", "no", "on", "12:30", "010", "1e3", "2026-03-09", "# no", "- a", "a: b", "*x",
     "&y", "!z", "<<", "  two", "line\nline", "\n", "tab\there", "line \nend", "'", '"', "%", "[Bb]", "♭♯½″",
     "\ufeff", "--", "'; drop table x", "NUL", "\u2028", "\x0a\x0a", "😀", "..."]
)  # fmt: skip
words = texts.filter(bool)
ids = st.from_regex(r"[a-z][a-z0-9_]{0,12}", fullmatch=True)
days = st.none() | st.dates(date(1900, 1, 1), date(2100, 1, 1))
hours = st.none() | st.floats(0, 1000, allow_nan=False)
jsons = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**60), 2**60)
    | st.floats(allow_nan=False, allow_infinity=False)
    | texts,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
    max_leaves=6,
)
_answers = st.recursive(
    texts, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3), max_leaves=5
)
answers = st.dictionaries(ids, _answers, max_size=3)
amounts = st.just("") | st.decimals(0, 10**9, places=2, allow_nan=False).map(str)
_held = st.sampled_from([(held, "") for held in HELD] + [(held, kind) for kind, held in OUTCOMES.items()])


@st.composite
def _followups(draw: st.DrawFn) -> FollowUp:
    held, kind = draw(_held)
    let_go = held == "no"
    return FollowUp(
        held,  # type: ignore[arg-type]
        draw(days),
        draw(texts),
        draw(st.booleans()),
        draw(texts),
        kind,
        draw(st.sampled_from(["", *LET_GO])) if let_go else "",
        draw(days) if let_go else None,
        draw(hours),
    )


_payers = st.sampled_from(["", *PAYERS])
_visits = st.builds(
    Visit,
    texts,
    _payers,
    days,
    texts,
    texts,
    texts,
    days,
    days,
    days,
    days,
    days,
    amounts,
    texts,
    days,
    amounts,
)
_waits = st.builds(
    Wait,
    st.sampled_from(WAITS_FOR),
    days,
    days,
    st.just("") | st.times().map(lambda at: at.strftime("%H:%M")),
    days,
    st.integers(0, 99),
    texts,
)
_readings = st.builds(WoodReading, days, texts, texts, texts, st.lists(texts, max_size=3).map(tuple), texts)
_consents = st.builds(Consent, st.sampled_from(SAID), days, texts, texts, amounts, texts, _payers, texts)
damages = st.builds(
    Damage,
    family=ids,
    place=texts,
    story=texts,
    looks=st.lists(st.builds(Look, answers, days, texts, texts), min_size=1, max_size=3).map(tuple),
    choice=st.none() | st.builds(Choice, ids, days, texts, jsons),
    figures=st.lists(
        st.builds(FiguresUsed, ids, st.dictionaries(ids, texts, max_size=2), jsons), max_size=1
    ).map(tuple),
    steps=st.lists(st.builds(StepDone, words, days, texts, hours, texts), max_size=2).map(tuple),
    measured=st.lists(st.builds(Measured, words, words, texts), max_size=2).map(tuple),
    done=texts,
    hours=hours,
    repaired_on=days,
    followups=st.lists(_followups(), max_size=2).map(tuple),
    learned=texts,
    consents=st.lists(_consents, max_size=2).map(tuple),
    departures=st.lists(st.builds(Departure, words, texts, texts), max_size=1).map(tuple),
    before_after=st.lists(st.builds(BeforeAfter, words, texts, texts, texts), max_size=1).map(tuple),
    urgency=st.sampled_from(["", *URGENCIES]),
)


def _numbered(case: Case, gaps: list[int]) -> Case:
    numbers: list[int] = []
    for gap, _ in zip(gaps, case.damages, strict=False):
        numbers.append((numbers[-1] if numbers else 0) + gap)
    damages = tuple(replace(d, number=n) for d, n in zip(case.damages, numbers, strict=True))
    return replace(case, damages=damages)


cases = st.builds(
    _numbered,
    st.builds(
        Case,
        title=texts,
        taken_in=days,
        instrument=st.builds(Instrument, texts, texts, texts, texts),
        owner=texts,
        owner_words=texts,
        answers=answers,
        finished=st.booleans(),
        damages=st.lists(damages, max_size=2).map(tuple),
        visit=_visits,
        waits=st.lists(_waits, max_size=1).map(tuple),
        wood_readings=st.lists(_readings, max_size=1).map(tuple),
        confirmed=st.lists(st.builds(Confirmed, ids, days, texts), max_size=1).map(tuple),
    ),
    st.lists(st.integers(1, 3), min_size=2, max_size=2),
)
