"""Endings: ``post`` and ``posts``, ``glue`` and ``glued``, ``fit`` and ``fitting`` are one word to a search.

Our own few rules for English endings; they only ever widen a search, so a wrong stem does no harm.
"""

from __future__ import annotations

import re
from functools import lru_cache

_PLURAL = re.compile(r"(?<=[a-z]{2})(?:(?<=i)es|(?<=x|h|s|z)es|(?<![sui])s)$")
_ENDING = re.compile(r"(?<=[a-z]{2})(?:ing|ed|e)$")
_DOUBLED = re.compile(r"([bdgklmnprt])\1$")
_Y = re.compile(r"(?<=[^aeiou])y$")
_VOWEL = re.compile(r"[aeiouy]")


@lru_cache(maxsize=50_000)
def stem(word: str) -> str:
    """Give what is left of a word without its ending; short words and words with digits stay whole."""
    if len(word) < 4 or not word.isascii() or not word.isalpha():
        return word
    single = _PLURAL.sub("", word)
    short = _ENDING.sub("", single)
    if len(short) < 3 or not _VOWEL.search(short):
        short = single
    return _Y.sub("i", _DOUBLED.sub(r"\1", short))


def beginning(word: str) -> str:
    """Give letters with which every word of the same stem begins."""
    short = stem(word)
    return short[:-1] if short.endswith("i") and len(short) > 3 else short
