"""A calendar kept as a file: whole or not at all, and never over a file that is something else."""

from __future__ import annotations

from pathlib import Path

from casebook.bench.at_desk import NotPossible
from casebook.bench.icalendar import MADE_HERE

# A calendar made here says so within its first lines.
_HEAD = 200


class InTheWay(NotPossible):
    """A file that is no calendar of ours has that name; nothing was written."""


def write_calendar(place: str, text: str, *, over: bool = False) -> Path:
    """Write a calendar, in place of one made here before, and give the path of the file.

    Args:
        place: the file; ``~`` is the user's folder.
        text: the calendar.
        over: whether whatever has that name is written over.

    Raises:
        InTheWay: another file has that name.
        NotPossible: no name, a folder, or a place that cannot be written to.
    """
    if not place.strip():
        raise NotPossible("the file needs a name: type where it is to lie")
    try:
        path = Path(place.strip()).expanduser().resolve()
        if path.is_dir():
            raise NotPossible(f"{path} is a folder: add the name of the file")
        if path.exists() and not over and not _made_here(path):
            raise InTheWay(f"{path} is another file: name a new one, or write over it")
        _replace(path, text)
    except (OSError, RuntimeError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise NotPossible(f"{place.strip()}: cannot be written ({why}): name another place") from None
    return path


def _made_here(path: Path) -> bool:
    with path.open("rb") as file:
        return MADE_HERE.encode() in file.read(_HEAD)


def _replace(path: Path, text: str) -> None:
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.write_bytes(text.encode("utf-8"))
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
