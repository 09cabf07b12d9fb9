"""The library: which rule packs there are, the shop's own laid over the shipped ones, and their guides."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from importlib.resources.abc import Traversable
from pathlib import Path

from casebook.guide.build import build
from casebook.guide.guide import Guide
from casebook.guide.pack import CROSS_CUTTING, Pack
from casebook.guide.pack_file import read_pack
from casebook.resources import folder, yaml_files
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile


class Library:
    """The rule packs of this shop.

    Packs are read and guides are built when they are first asked for, then kept.

    Args:
        own: a folder of rule packs laid over the shipped ones by pack id; None for the shipped ones alone.

    Raises:
        BrokenFile: `own` is no folder; later, a pack that cannot be read or does not fit the others.
    """

    def __init__(self, own: Path | None = None) -> None:
        if own is not None and not own.is_dir():
            raise BrokenFile(str(own), None, "there is no such folder of rule packs")
        self._own = own
        self._guides: dict[str, Guide] = {}

    @cached_property
    def packs(self) -> dict[str, Pack]:
        """Every pack by id, the shop's own in place of a shipped one of the same id."""
        packs = {pack.id: pack for pack in _read_all(yaml_files(folder("rules")), "rules/")}
        if self._own is not None:
            mine: dict[str, Pack] = {}
            for pack in _read_all(yaml_files(self._own), f"{self._own}/"):
                if pack.id in mine:
                    raise BrokenFile(pack.file, None, f"pack {pack.id} stands in {mine[pack.id].file} too")
                mine[pack.id] = pack
            packs |= mine
        return packs

    @property
    def families(self) -> list[Pack]:
        """The packs of damage families, in the order of the files."""
        return [pack for id, pack in self.packs.items() if id != CROSS_CUTTING]

    @property
    def cross_cutting(self) -> Pack | None:
        """The pack that applies everywhere."""
        return self.packs.get(CROSS_CUTTING)

    def guide(self, family: str) -> Guide:
        """Give the guide of a family.

        Raises:
            KeyError: there is no pack for it; the message names the nearest.
            BrokenFile: its pack does not hold together.
        """
        if family not in self._guides:
            pack = self.packs.get(family)
            if pack is None or family == CROSS_CUTTING:
                known = [one.id for one in self.families]
                hint = nearest(family, known) or f" (known: {', '.join(known)})"
                raise KeyError(f"no rule pack for {family!r}{hint}")
            self._guides[family] = build(self.cross_cutting, pack)
        return self._guides[family]

    def intake(self) -> Guide:
        """Give a guide of the cross-cutting questions alone."""
        if CROSS_CUTTING not in self._guides:
            cross = self.cross_cutting
            if cross is None:
                raise BrokenFile("rules", None, f"there is no pack {CROSS_CUTTING}")
            self._guides[CROSS_CUTTING] = build(None, cross)
        return self._guides[CROSS_CUTTING]


def _read_all(files: Iterable[Traversable], prefix: str) -> list[Pack]:
    return [read_one(file, f"{prefix}{file.name}") for file in files]


def read_one(file: Traversable | Path, name: str) -> Pack:
    """Read one pack file.

    Raises:
        BrokenFile: it cannot be read, is no UTF-8, or is no pack.
    """
    try:
        text = file.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        raise BrokenFile(name, None, "is not UTF-8 text: save it as UTF-8") from None
    except OSError as error:
        raise BrokenFile(name, None, f"cannot be read: {error.strerror or error}") from None
    return read_pack(text, name)
