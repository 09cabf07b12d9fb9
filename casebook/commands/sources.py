"""What commands read and open: input files, the rule packs, the book. Failures become one line here."""

from __future__ import annotations

import argparse
import sys
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from casebook.commands.exits import BROKEN_FILE, STORAGE, USAGE, Failure
from casebook.commands.places import data_folder, has_shop_file, shop_file
from casebook.strict_yaml import MAX_CHARACTERS, BrokenFile

if TYPE_CHECKING:
    from casebook.bench.desk import Desk
    from casebook.bench.library import Library
    from casebook.bench.shop import Shop


def read_text(name: str) -> tuple[str, str]:
    """Read an input file, or standard input for ``-``; gives its text and how messages call it.

    Raises:
        Failure: it is not there (status 2), or is no readable UTF-8 text (status 3).
    """
    shown = "standard input" if name == "-" else name
    try:
        if name == "-":
            data = sys.stdin.buffer.read(4 * MAX_CHARACTERS + 1)
        else:
            with Path(name).open("rb") as file:
                data = file.read(4 * MAX_CHARACTERS + 1)
        return data.decode("utf-8"), shown
    except FileNotFoundError:
        raise Failure(USAGE, f"{shown}: there is no such file") from None
    except UnicodeDecodeError:
        raise Failure(BROKEN_FILE, f"{shown}: is not UTF-8 text: save it as UTF-8") from None
    except OSError as error:
        raise Failure(USAGE, f"{shown}: cannot be read ({error.strerror})") from None


def library(args: argparse.Namespace) -> Library:
    """Open the rule packs.

    Raises:
        Failure: the folder named by --packs is not there, or a pack is broken.
    """
    from casebook.bench.library import Library

    try:
        own = None if args.packs is None else Path(args.packs).expanduser()
        packs = Library(own)
        _ = packs.packs
    except BrokenFile as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    return packs


def book_place(args: argparse.Namespace) -> str:
    """Give the place of the book: as asked for, else in the user's data folder."""
    if args.book:
        return str(args.book)
    return str(Path(data_folder()) / "book.db")


def has_book(args: argparse.Namespace) -> bool:
    """Whether there is a book to look into; a server's is taken to be there."""
    place = book_place(args)
    return "://" in place or Path(place).expanduser().is_file()


def shop_place(args: argparse.Namespace) -> Path:
    """Give the place of the shop's settings: as asked for, else in the user's data folder."""
    return Path(shop_file(args.shop))


def shop(args: argparse.Namespace) -> Shop:
    """Read the shop's settings; without a file in the data folder the defaults. Their unit is the shown one.

    Raises:
        Failure: the file that was named is not there, or it is broken.
    """
    from casebook.bench.shop import Shop

    found = Shop()
    place = shop_place(args)
    if has_shop_file(args.shop):
        from casebook.bench.shop_file import read_shop

        text, name = read_text(str(place))
        try:
            found = read_shop(text, name, date.today())
        except BrokenFile as error:
            raise Failure(BROKEN_FILE, str(error)) from None
    args.unit = args.unit or found.unit
    return found


def desk(args: argparse.Namespace, *, create: bool = False) -> Desk:
    """Open the book and put it on the desk.

    Raises:
        Failure: the book cannot be opened, or is not there and not to be made.
    """
    from casebook.bench.desk import Desk
    from casebook.bench.shop_keeping import ShopFile
    from casebook.records.book import Book
    from casebook.records.errors import StorageError

    packs = library(args)
    shop(args)
    try:
        file = ShopFile(shop_place(args), packs, date.today())
        book = Book.open(book_place(args), create=create)
    except BrokenFile as error:
        raise Failure(BROKEN_FILE, str(error)) from None
    except StorageError as error:
        raise Failure(STORAGE, str(error)) from None
    return Desk(book, packs, date.today(), args.unit, clock=datetime.now, shop_file=file)


def has_terminal() -> bool:
    """Whether there is a terminal that screens can be shown on."""
    import os

    return sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM", "dumb") != "dumb"
