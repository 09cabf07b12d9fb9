"""Where the user's own files lie. Kept light: every worksheet looks here whether the shop has settings.

So it does without pathlib and, where the rule is short, without platformdirs: they cost every start 6 ms.
"""
# ruff: noqa: PTH111, PTH113, PTH118

from __future__ import annotations

import os
import sys

_PLATFORM: str = sys.platform


def data_folder() -> str:
    """Give the folder of the user's data for this program, which need not be there yet."""
    if _PLATFORM == "linux":
        base = os.environ.get("XDG_DATA_HOME", "").strip() or os.path.expanduser("~/.local/share")
        return os.path.join(base, "casebook")
    from platformdirs import user_data_dir

    return user_data_dir("casebook")


def shop_file(asked: str | None) -> str:
    """Give the place of the shop's settings: as asked for, else in the data folder."""
    return os.path.expanduser(asked) if asked else os.path.join(data_folder(), "shop.yaml")


def has_shop_file(asked: str | None) -> bool:
    """Whether settings are to be read: a file that was asked for must be there, the usual one may be."""
    return bool(asked) or os.path.isfile(shop_file(None))
