"""What heat and old solder can do to people and instruments, and what comes off before it."""

from __future__ import annotations

from collections.abc import Iterable

from casebook.figures.worksheet import Check, Holds, Result
from casebook.tables import load

# Name, family, lead and cadmium of a solder; the last three are yes, no, a family, or unknown.
About = tuple[str, str, str, str]

CAUTIONS = (
    "Melting ranges are nominal; suppliers differ. Read the data sheet of the one in hand and try on scrap.",
    "Flux fume irritates, fluoride flux more: air drawn away from the face, eye protection, clean hands.",
    "Flame: clear the bench, extinguisher at hand, watch the place for half an hour or longer afterwards.",
    "Local rules for lead, cadmium, fume and hot work come first; beyond the shop's means, a licensed shop.",
)
_LEAD = (
    "Lead: no food or drink at the bench, gloves, wet wiping, waste in a closed tin; solder run on work"
    " before about 2012 counts as leaded until shown otherwise."
)
_CADMIUM = (
    "Cadmium: its fume is poisonous and cannot be smelt. Do not heat the joint until cadmium is ruled out;"
    " take it apart cold, or send it to a shop with extraction for it."
)
# A yes or no that no temperature decides has neither margin nor bounds.
NO_MARGIN = (None, None, None)


def judge_hazards(result: Result, present: list[About], planned: list[About]) -> None:
    """Judge lead, cadmium, and hard solder over soft; with its caution where one may be there."""
    if not present and not planned:
        return
    lead = _any(about[2] for about in (*present, *planned))
    cadmium = _any(about[3] for about in (*present, *planned))
    _keep(
        result,
        "no_lead",
        lead,
        ("no solder here holds lead", "solder with lead is there", "lead is not ruled out"),
        ("a lead-free solder for the new joint", "test the old one, and treat it as leaded meanwhile"),
    )
    _keep(
        result,
        "no_cadmium",
        cadmium,
        (
            "no solder here holds cadmium",
            "solder with cadmium is there",
            "cadmium is not ruled out: stay cold",
        ),
        ("another solder for the new joint", "take the old joint apart cold", "have it tested"),
    )
    if lead != "no":
        result.steps.append(_LEAD)
    if cadmium != "no":
        result.steps.append(_CADMIUM)
    if any(about[1] == "hard" for about in planned):
        _keep(
            result,
            "no_soft_under_hard",
            _any("yes" if about[1] == "soft" else about[1] for about in present),
            (
                "no soft solder is left where hard solder is to flow",
                "soft solder is there: under hard heat it eats into silver and brass and spoils the joint",
                "soft solder is not ruled out where hard solder is to flow",
            ),
            ("remove every trace of soft solder, by scraping and not by flame", "a soft joint again"),
        )


def _any(said: Iterable[str]) -> str:
    words = set(said)
    return "yes" if "yes" in words else "unknown" if "unknown" in words else "no"


def _keep(result: Result, name: str, there: str, says: tuple[str, str, str], ways: tuple[str, ...]) -> None:
    holds: Holds = "yes" if there == "no" else "no" if there == "yes" else "unknown"
    words = dict(zip(("yes", "no", "unknown"), says, strict=True))[holds]
    waits = ("present",) if holds == "unknown" else ()
    kept = () if holds == "yes" else ways
    result.checks[name] = Check(holds, *NO_MARGIN, "number", words, kept, waits)


def take_off(near: Iterable[str]) -> list[str]:
    """Say what must come off, or be kept cold, before there is heat."""
    rows = {row["material"]: row for row in load("solders")["near"]}
    said = []
    for name in near:
        row = rows[name]
        heat = ""
        if "low_celsius" in row:
            low, high = (float(row.number(f"{end}_celsius")) for end in ("low", "high"))
            heat = (
                f" from about {low:g} to {high:g} C (unverified)" if low != high else f" from about {low:g} C"
            )
            heat = heat if "unverified" in heat else f"{heat} (unverified)"
        said.append(f"Before heat, away from {name.replace('_', ' ')}: it {row.text('does')}{heat}.")
    if said:
        said.insert(0, "Take the metal off the body: solder nothing on the instrument.")
    return said
