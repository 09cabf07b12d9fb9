"""The shop's file while the program is open: one value changed at a time, everything else left as written."""

from __future__ import annotations

import os
import shutil
from datetime import date
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any, TypeAlias

from casebook.bench import file_lines
from casebook.bench.file_lines import NotInPlace, Written
from casebook.bench.library import Library
from casebook.bench.shop import Shop
from casebook.bench.shop_file import read_shop
from casebook.bench.shop_ids import refuse_unknown
from casebook.safe_text import unsafe_character
from casebook.strict_yaml import MAX_CHARACTERS, BrokenFile, Mapping, parse

Change: TypeAlias = "tuple[file_lines.Path, Written | None]"

_BEGINNING = """\
# The shop's own facts; what is left out keeps its usual value. The shop screen changes single lines and
# leaves all others as they are; `casebook shop example` prints everything that can be set.
"""


class NotKept(ValueError):
    """A change of the shop's settings that cannot be kept, in one line; nothing was written."""


class ShopFile:
    """The file of one shop's settings.

    Attributes:
        shop: the settings as read last.
        written: the same as they stand in the file.

    Args:
        path: where it lies, or will be made.
        library: the rule packs its ids are held against.
        today: the date of the shop.

    Raises:
        BrokenFile: it cannot be read, or holds nonsense; with file and line.
    """

    def __init__(self, path: Path, library: Library, today: date) -> None:
        self.path = path
        self._library = library
        self.shop = Shop()
        self.written = Mapping()
        self._data: bytes | None = None
        self._take(self._on_disk(), today)

    @property
    def is_there(self) -> bool:
        """Whether there is a file; without one the usual values hold."""
        return self._data is not None

    @property
    def unknown(self) -> str:
        """The line for an id that the rule packs do not have; empty where all are known."""
        return self._unknown(self.shop)

    def change(self, today: date, *changes: Change) -> None:
        """Change values, all or none; makes the file where there is none.

        Args:
            today: the date of the shop.
            changes: a path into the file and what is to stand there; None takes it out.

        Raises:
            NotKept: a value that makes no sense, a file somebody else changed meanwhile (theirs is read), one
                written so that this cannot be changed by itself, or one that cannot be written.
            BrokenFile: somebody else's change of the file left it broken.
        """
        if self._on_disk() != self._data:
            self._take(self._on_disk(), today)
            raise NotKept(
                f"{self.path.name} was changed outside meanwhile and is read anew: look, then do it again"
            )
        before = _BEGINNING if self._data is None else _text(self._data, self.path)
        after = self._changed(before, changes)
        shop = self._checked(before, after, changes, today)
        data = after.encode("utf-8")
        if data != self._data:
            self._write(data)
        self._data, self.shop, self.written = data, shop, _mapping(after)

    def _changed(self, text: str, changes: tuple[Change, ...]) -> str:
        mark = "\ufeff" if text.startswith("\ufeff") else ""
        text = text.removeprefix(mark)
        for path, value in changes:
            stray = _stray(value)
            if stray:
                raise NotKept(f"{_called(path)}: control character {stray} is not allowed: take it out")
            try:
                text = file_lines.changed(text, path, value)
            except NotInPlace as problem:
                raise NotKept(f"{_called(path)}: {problem}, in {self.path}") from None
        return mark + text

    def _checked(self, before: str, after: str, changes: tuple[Change, ...], today: date) -> Shop:
        try:
            shop = read_shop(after, self.path.name, today)
            now = _mapping(after)
        except BrokenFile as error:
            raise NotKept(error.problem.removeprefix("the shop: ")) from None
        was, touched = _mapping(before), {path[0] for path, _ in changes}
        if any(was.get(key) != now.get(key) for key in (was.keys() | now.keys()) - touched):
            raise NotKept(f"{_called(changes[0][0])}: cannot be changed by itself: do it in {self.path}")
        unknown = self._unknown(shop)
        if unknown and unknown != self.unknown:
            raise NotKept(unknown)
        return shop

    def _unknown(self, shop: Shop) -> str:
        try:
            refuse_unknown(shop, self._library, self.path.name)
        except BrokenFile as error:
            return error.problem
        return ""

    def _take(self, data: bytes | None, today: date) -> None:
        text = "" if data is None else _text(data, self.path)
        self.shop = read_shop(text, str(self.path), today)
        self.written = _mapping(text)
        self._data = data

    def _on_disk(self) -> bytes | None:
        try:
            with self.path.open("rb") as file:
                return file.read(4 * MAX_CHARACTERS + 1)
        except FileNotFoundError:
            return None
        except OSError as error:
            raise BrokenFile(str(self.path), None, f"cannot be read ({error.strerror})") from None

    def _write(self, data: bytes) -> None:
        """Put the new file in place of the old one, whole or not at all."""
        beside: Path | None = None
        try:
            place = self.path.resolve()
            place.parent.mkdir(parents=True, exist_ok=True)
            with NamedTemporaryFile(dir=place.parent, prefix=f".{place.name}.", delete=False) as file:
                beside = Path(file.name)
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            if place.exists():
                shutil.copymode(place, beside)
            beside.replace(place)
        except OSError as error:
            if beside is not None:
                beside.unlink(missing_ok=True)
            raise NotKept(f"{self.path} cannot be written ({error.strerror}): nothing was changed") from None


def _text(data: bytes, path: Path) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        raise BrokenFile(str(path), None, "is not UTF-8 text: save it as UTF-8") from None


def _mapping(text: str) -> Mapping:
    node: Any = parse(text, "the shop")
    return node if isinstance(node, Mapping) else Mapping()


def _called(path: file_lines.Path) -> str:
    return ", ".join(str(key + 1) if isinstance(key, int) else key.replace("_", " ") for key in path)


def _stray(value: Written | None) -> str | None:
    """Name the first character that no text may hold, wherever it stands."""
    if value is None or isinstance(value, str):
        return unsafe_character(value or "")
    parts = [*value, *value.values()] if isinstance(value, dict) else list(value)
    return next(filter(None, map(_stray, parts)), None)
