"""How the words and measures of a case are spelt in the search text, and so how a search must spell them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from fractions import Fraction

from casebook.quantity import NotUnderstood, read_length

THOU = Fraction(254, 10_000)  # mm
_SIGNS = str.maketrans({"♭": "b", "♯": "#", "_": " "})
_BETWEEN = re.compile(r"(?<=\d)(?=[^\W\d])|(?<=[^\W\d])(?=\d)")
_WORD = re.compile(r"[^\W_]+")
_NOTE = re.compile(r"\b([A-Ga-g])(?:([♭b])(?!\w)|([♯#])|[ -]?(flat|sharp)\b)")
# Digits are bounded, so that a text of digits alone costs no more than any other.
_NUMBER = r"(?:\d{1,4} )?\d{1,4} ?/ ?\d{1,4}|\d{0,6}[.,]?\d{1,8}"
_MEASURE = re.compile(
    rf"(?<![\w.,/])(?:(?P<size>(?:{_NUMBER}|(?:\d )?[¼½¾⅛⅜⅝⅞]) ?(?:mm|thou|inches|inch|in|[\"″])(?!\w)"
    r"|(?:\d{1,4} )?\d{1,4}/\d{1,4}(?![\w/])|\#\d{1,2}(?!\w))|(?P<inches>\.\d{2,4})(?!\w))",
    re.IGNORECASE,
)


def words(text: str) -> list[str]:
    """Give the words of a text as the index knows them: small letters, no accents, signs in ASCII.

    A number and its letters are two words, so that ``4.57mm`` and ``4.57 mm``, ``6BA`` and ``6 BA`` agree.
    """
    plain = text.translate(_SIGNS).casefold()
    if not plain.isascii():
        apart = unicodedata.normalize("NFD", plain)
        plain = "".join(character for character in apart if not unicodedata.combining(character))
    return _WORD.findall(_BETWEEN.sub(" ", plain))


def notes(text: str) -> list[str]:
    """Give one word for every note with a flat or sharp: ``B♭``, ``Bb`` and ``B flat`` are all ``bflat``."""
    return [word for word, _ in note_spots(text)]


def note_spots(text: str) -> Iterator[tuple[str, tuple[int, int]]]:
    """Find the notes of a text with where they stand; ``a flat`` file is none, ``A flat`` is."""
    for found in _NOTE.finditer(text):
        if found[4] and found[1] == "a":
            continue
        flat = found[2] or found[4] == "flat"
        yield found[1].lower() + ("flat" if flat else "sharp"), found.span()


def measures(text: str) -> list[str]:
    """Give one word for every length of a text, whatever its unit: ``thou180`` for ``.180"`` and 4.57 mm."""
    return [measure_word(thou) for thou, _ in measure_spots(text)]


def measure_spots(text: str) -> Iterator[tuple[int, tuple[int, int]]]:
    """Find the lengths of a text in whole thousandths of an inch, with where they stand.

    A bare number is none, but for one written like ``.180``, which nobody writes in mm.
    """
    for found in _MEASURE.finditer(text):
        typed = found["size"] or f"{found['inches']} in"
        try:
            thou = round(read_length(typed).value / THOU)
        except NotUnderstood:
            continue
        if thou:
            yield thou, found.span()


def measure_word(thou: int) -> str:
    """Give the word under which a length stands in the index."""
    return f"thou{thou}"


def measured(word: str) -> int | None:
    """Give the length of a word made by `measure_word`, or None for any other word."""
    digits = word.removeprefix("thou")
    return int(digits) if word != digits and digits.isdecimal() else None
