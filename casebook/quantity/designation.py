"""How threads are named: 3-48, 1/4-20, M2.5, M2.5x0.45, 6BA, 1/8-40 BSW, or any major diameter by pitch."""

from __future__ import annotations

import re
from fractions import Fraction

from casebook.quantity.reading import NotUnderstood
from casebook.quantity.size import INCH, size_mm
from casebook.quantity.spelling import decimal, tidy
from casebook.quantity.thread import Thread, make, number_size, standard_thread, standard_threads

_EXAMPLES = "type it as 3-48, 1/4-20, M2.5x0.45, 6BA or 2.8 mm x 48 tpi"
# A pitch coarser than this share of the major diameter leaves no core worth the name.
_COARSEST = Fraction(1, 2)
LARGEST_NUMBER_SIZE = 14

_SERIES = {
    "unc": "UNC", "unf": "UNF", "unef": "UNEF", "un": "UN", "uns": "UN",
    "bsw": "BSW", "whit": "BSW", "whitworth": "BSW",
}  # fmt: skip
_SUFFIX = rf"(?: ?({'|'.join(_SERIES)}))?"
_NUMBERED = r"(?:#|no\.? ?)?([0-9]{1,3}) ?- ?([0-9]{1,3})" + _SUFFIX
_FRACTIONAL = r'([0-9]+/[0-9]+)(?: ?in| ?")? ?- ?([0-9]{1,3})' + _SUFFIX
_METRIC = r"m ?([0-9]+(?:[.,][0-9]+)?)(?: ?[x*-] ?([0-9]*[.,]?[0-9]+) ?(?:mm)?)?"
_BA = r"(?:#|no\.? ?)?([0-9]{1,2}) ?b\.? ?a\.?|b\.? ?a\.? ?([0-9]{1,2})"
_BY = r"(.+?) ?[x*] ?(.+)"
_TPI = r"([0-9]+(?:[.,][0-9]+)?) ?(?:tpi|t\.p\.i\.?|threads (?:per|an|to the) inch)"
_SIZE_ALONE = r"(?:#|no\.? ?)?([0-9]{1,2})"


def pitch_mm(text: str, typed: str) -> Fraction | None:
    """Read threads per inch as the pitch in mm, or give None when `text` names no such thing.

    Raises:
        NotUnderstood: no threads an inch.
    """
    found = re.fullmatch(_TPI, text)
    if not found:
        return None
    count = decimal(found.group(1), typed)
    if not count:
        raise NotUnderstood(typed, "no threads at all", "type it as 48 tpi or 0.53 mm")
    return INCH / count


def screw_size_mm(text: str) -> Fraction | None:
    """Read ``#3`` or ``No. 3`` as the major diameter in mm of a numbered screw, or give None."""
    found = re.fullmatch(_SIZE_ALONE, text)
    if not found or text[0].isdigit() or int(found.group(1)) > LARGEST_NUMBER_SIZE:
        return None
    return number_size(found.group(1))


def thread_of(text: str, typed: str) -> Thread | None:
    """Read a thread from tidy text, or give None when it has the shape of none.

    Raises:
        NotUnderstood: of the shape of a thread, but in no table, or not whole.
    """
    for pattern, look_up in ((_BA, _ba), (_METRIC, _metric), (_NUMBERED, _inch), (_FRACTIONAL, _inch)):
        found = re.fullmatch(pattern, text)
        if found:
            return look_up(found, typed)
    by = re.fullmatch(_BY, text)
    return _major_by_pitch(by.group(1), by.group(2), typed) if by else None


def read_thread(typed: str) -> Thread:
    """Read a thread's designation.

    Args:
        typed: as it stands on the packet (``3-48``, ``M2.5``, ``6BA``), or any major diameter by pitch, both
            with their unit (``2.8mm x 48tpi``). An M size alone is its coarse pitch.

    Raises:
        NotUnderstood: no thread, not whole (a size without a pitch), or in no table.
    """
    text = tidy(typed)
    thread = thread_of(text, typed)
    if thread is not None:
        return thread
    size = re.fullmatch(_SIZE_ALONE, text)
    if size:
        like = _like(f"{size.group(1)}-")
        instead = f"add the threads per inch: {' or '.join(like)}" if like else _EXAMPLES
        raise NotUnderstood(typed, "a size alone names no thread", instead)
    if re.fullmatch(_TPI, text):
        raise NotUnderstood(typed, "a pitch alone names no thread", "add the size: 3-48 or 2.8 mm x 48 tpi")
    raise NotUnderstood(typed, "no thread that is known here", _EXAMPLES)


def _ba(found: re.Match[str], typed: str) -> Thread:
    return _from_table(f"{int(found.group(1) or found.group(2))}BA", typed, "BA goes from 0BA to 16BA")


def _metric(found: re.Match[str], typed: str) -> Thread:
    major = decimal(found.group(1), typed)
    pitch = decimal(found.group(2), typed) if found.group(2) else None
    assert major is not None
    called = f"M{_trim(major)}"
    if pitch is None:
        listed = [thread for thread in standard_threads().values() if thread.system == "metric"]
        coarse = [thread for thread in listed if thread.major == major and thread.series == "coarse"]
        if coarse:
            return coarse[0]
        like = _like(f"{called}x")
        raise NotUnderstood(
            typed,
            "no coarse pitch is known for it",
            f"add the pitch: {' or '.join(like)}" if like else f"add the pitch in mm, as in {called}x0.5",
        )
    known = standard_thread(f"{called}x{_trim(pitch)}")
    return known or _sound(make(f"{called}x{_trim(pitch)}", "metric", major, pitch, series="special"), typed)


def _inch(found: re.Match[str], typed: str) -> Thread:
    size, count, suffix = found.groups()
    series = _SERIES[suffix] if suffix else ""
    if series == "BSW":
        return _from_table(f"{size}-{count} BSW", typed, "")
    thread = standard_thread(f"{size}-{count}")
    if thread is None and not series:
        thread = standard_thread(f"{size}-{count} BSW")
    if thread is None or (series and series not in (thread.series, "UN")):
        return _from_table(f"{size}-{count} {series}".strip(), typed, "")
    return thread


def _from_table(designation: str, typed: str, otherwise: str) -> Thread:
    thread = standard_thread(designation)
    if thread is not None:
        return thread
    like = _like(designation.split("-")[0] + "-") if "-" in designation else []
    known = otherwise or (f"the tables have {', '.join(like)}" if like else _EXAMPLES)
    raise NotUnderstood(typed, "in no table", f"{known}; a special one is typed as 0.099 in x 50 tpi")


def _like(start: str) -> list[str]:
    return [name for name in standard_threads() if name.startswith(start)]


def _major_by_pitch(left: str, right: str, typed: str) -> Thread:
    major = screw_size_mm(left) or size_mm(left, typed, None)
    pitch = pitch_mm(right, typed) or size_mm(right, typed, None)
    if not major or not pitch:
        raise NotUnderstood(
            typed, "no major diameter by pitch", "type it as 2.8 mm x 48 tpi or 2.8 mm x 0.53 mm"
        )
    return _sound(make(f"{left} x {right}", "other", major, pitch), typed)


def _sound(thread: Thread, typed: str) -> Thread:
    if not 0 < thread.pitch <= thread.major * _COARSEST:
        raise NotUnderstood(typed, "the pitch does not go with that diameter", "check both, and their units")
    return thread


def _trim(number: Fraction) -> str:
    return f"{float(number):.6g}"
