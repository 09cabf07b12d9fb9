"""How numbers are typed at a bench: decimals with point or comma, fractions, and the signs beside them."""

from __future__ import annotations

import re
from fractions import Fraction
from unicodedata import normalize

from casebook.quantity.reading import NotUnderstood
from casebook.safe_text import unsafe_character

LONGEST = 60

# Signs that mean the same on one keyboard or another; what NFKC already folds is not repeated here.
_SAME = str.maketrans({
    "″": '"', "“": '"', "”": '"', "„": '"', "′": "'", "’": "'", "‘": "'", "−": "-", "–": "-", "×": "x",
    "±": "+-", "⁄": "/",
})  # fmt: skip
_VULGAR = "[¼½¾⅐-⅞↉]"
_DECIMAL = r"[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+"
_THOUSANDS = r"[1-9][0-9]{0,2},[0-9]{3}"
_FRACTION = r"(?:([0-9]+)[ -]+)?([0-9]+) ?/ ?([0-9]+)"

# A number as it stands at the front of something typed; what follows is its unit.
AMOUNT = r"(?:[0-9]+[ -]+)?[0-9]+ ?/ ?[0-9]+|[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+"


def tidy(typed: str) -> str:
    """Give what was typed with its signs made alike, in lower case and with single spaces.

    Raises:
        NotUnderstood: nothing there, far too long, or a character that has no place in a number.
    """
    if not typed.strip():
        raise NotUnderstood(typed, "nothing there", "type a value")
    if len(typed) > LONGEST or unsafe_character(typed):
        raise NotUnderstood(typed, "too long or with stray characters", "type the value alone")
    text = re.sub(_VULGAR, lambda sign: f" {normalize('NFKC', sign.group())}", typed).translate(_SAME)
    text = normalize("NFKC", text).translate(_SAME).replace("''", '"').replace("+/-", "+-")
    return " ".join(text.casefold().split())


def decimal(text: str, typed: str) -> Fraction | None:
    """Give the exact value of a decimal number, or None when `text` is none.

    Raises:
        NotUnderstood: a comma that could part decimals or thousands.
    """
    if not re.fullmatch(_DECIMAL, text):
        return None
    if re.fullmatch(_THOUSANDS, text):
        part, whole = text.replace(",", "."), text.replace(",", "")
        raise NotUnderstood(typed, f"could be {part} or {whole}", f"type {part} or {whole}")
    return Fraction("0" + text.replace(",", ".").rstrip(".") if text[0] in ".," else text.replace(",", "."))


def fraction(text: str, typed: str) -> Fraction | None:
    """Give the exact value of a fraction, whole inches before it or not, or None when `text` is none.

    Raises:
        NotUnderstood: a fraction by nothing, or a mixed one that is not below one.
    """
    found = re.fullmatch(_FRACTION, text)
    if not found:
        return None
    whole, above, below = (int(part or 0) for part in found.groups())
    if below == 0:
        raise NotUnderstood(typed, "a fraction over 0", "type it as 3/16")
    if found.group(1) and above >= below:
        raise NotUnderstood(typed, f"{above}/{below} beside a whole number is not below one", "type 1 3/16")
    return whole + Fraction(above, below)


def plain(typed: str, what: str, *, units: str = "") -> Fraction:
    """Read a number that may carry one of a few unit words.

    Args:
        typed: what was typed.
        what: how the refusal calls it, with an example.
        units: a pattern of the unit words that may follow.

    Raises:
        NotUnderstood: no such number.
    """
    text = tidy(typed)
    bare = re.sub(rf" ?(?:{units})$", "", text) if units else text
    value = decimal(bare, typed)
    if value is None:
        sign = "a minus makes no sense here" if text.startswith("-") else "not understood"
        raise NotUnderstood(typed, sign, f"type {what}")
    return value
