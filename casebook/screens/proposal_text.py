"""One proposal in words: why it stands where it stands, what to mind, what it takes, and its steps."""

from __future__ import annotations

from collections.abc import Container

from textual.content import Content

from casebook import figures
from casebook.bench.cautions_read import split
from casebook.bench.changing import above_the_next, change_text
from casebook.bench.danger import cautions_of
from casebook.guide.advice import Advice, Proposal
from casebook.screens.plain import (
    BOLD,
    COLOURS,
    FAINT,
    GLYPHS,
    LEVEL_COLOURS,
    LEVEL_WORDS,
    WORDS,
    joined,
    lines,
    plain,
)

_SCALES = {
    "original": (
        "original material kept",
        {"all": "all", "nearly_all": "nearly all", "part": "part", "little": "little"},
    ),
    "reversible": ("can be undone", {"yes": "yes", "partly": "partly", "no": "no"}),
    "strength": ("strength", {"strong": "strong", "medium": "medium", "light": "light"}),
    "seen": ("seen afterwards", {"hidden": "hidden", "slight": "slightly", "plain": "plainly"}),
    "serviceable": ("can be serviced", {"yes": "yes", "partly": "partly", "no": "no"}),
}

_WITH = "would fit with "


def proposal_text(advice: Advice, proposal: Proposal, accepted: Container[str]) -> Content:
    """Word one proposal.

    Args:
        advice: the advice it stands in.
        proposal: the one.
        accepted: ids of the shop rules that were accepted once: they are named in one line.
    """
    strategy = advice.guide.strategies[proposal.id].strategy
    standing = plain(
        f"{GLYPHS[proposal.standing]} {WORDS[proposal.standing]}", f"bold {COLOURS[proposal.standing]}"
    )
    parts: list[Content | str] = [joined(plain(strategy.title, BOLD), "   ", standing), plain(strategy.what)]
    if proposal.because:
        parts += ["", plain("Because", BOLD), *[f"- {reason}" for reason in proposal.because]]
    if proposal.waiting_on:
        names = ", ".join(advice.guide.questions[id].name for id in proposal.waiting_on)
        parts += ["", joined(plain("Waits for  ", BOLD), names)]
    if proposal.standing != "fits":
        said = change_text(advice, proposal.id).removeprefix(f"{proposal.title}: ")
        answers = said.removeprefix(_WITH)
        label = "What would change it  " if answers == said else "Would fit with  "
        parts += ["", joined(plain(label, BOLD), answers)]
    above = above_the_next(advice, proposal)
    if above:
        parts += ["", joined(plain("Above the next  ", FAINT), above)]
    parts += _cautions(advice, proposal.id, accepted)
    parts += ["", joined(plain("Kept of the original  ", FAINT), strategy.keeps_original)]
    scales = [f"{name}: {words.get(strategy.scales[scale], strategy.scales[scale])}"
              for scale, (name, words) in _SCALES.items()]  # fmt: skip
    parts.append(plain("; ".join(scales), FAINT))
    least, likely, most = strategy.hours
    parts.append(joined(plain("Hours  ", FAINT), f"about {likely:g} (from {least:g} to {most:g})"))
    needs = ", ".join((*strategy.tools, *strategy.materials))
    if needs:
        parts.append(joined(plain("Needs  ", FAINT), needs))
    sheets = [figures.worksheet(id).title for id in strategy.worksheets if id in figures.IDS]
    if sheets:
        parts.append(joined(plain("Worksheets (f)  ", FAINT), "; ".join(sheets)))
    parts += ["", plain("Steps", BOLD), *[f"{n}. {step}" for n, step in enumerate(strategy.steps, 1)]]
    return lines(parts)


def _cautions(advice: Advice, strategy: str, accepted: Container[str]) -> list[Content | str]:
    found = split(cautions_of(advice, strategy), accepted)
    shown: list[Content | str] = []
    for caution in found.special:
        word = plain(f"{LEVEL_WORDS[caution.level]}  ", LEVEL_COLOURS[caution.level])
        shown.append(joined(word, plain(caution.text)))
    if found.shop_rules:
        shown.append(plain(found.shop_rules, FAINT))
    return ["", *shown] if shown else []
