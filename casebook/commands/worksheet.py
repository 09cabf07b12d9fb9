"""`casebook worksheet`: one calculation from the command line."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from casebook import figures
from casebook.commands.exits import FINE, USAGE, Failure
from casebook.commands.output import print_json, print_text
from casebook.commands.places import has_shop_file
from casebook.figures.inputs import NO_DRAWER, USUAL_ERROR, BadInput, Drawer, no_such, read
from casebook.figures.worksheet import Worksheet
from casebook.quantity import TOOL_ERRORS, NotUnderstood, ToolError, read_length

if TYPE_CHECKING:
    import argparse

_USE = "casebook worksheet ID name=value ... [--json]; `casebook worksheet ID --help` shows its inputs"

# What is typed for a kind of input, and in what unit.
_KINDS = {
    "length": "length (mm, in, thou)", "sizes": "lengths (mm, in, thou)", "pitch": "pitch (mm, tpi)",
    "force": "force (N, g)", "angle": "angle (degrees)", "percent": "percent", "humidity": "percent",
    "temperature": "temperature (C, F)", "any_size": "length or count", "sets": "words",
}  # fmt: skip


def run(args: argparse.Namespace) -> int:
    """List the worksheets, explain one, or compute it."""
    words: list[str] = args.words
    as_json = "--json" in words
    wants_help = "--help" in words or "-h" in words
    rest = [word for word in words if word not in ("--json", "--help", "-h")]
    if not rest:
        _list(as_json, wants_help)
        return FINE
    sheet = _sheet(rest[0])
    if wants_help:
        _explain(sheet)
        return FINE
    typed, error = _inputs(sheet, rest[1:])
    drawer, tools = _shop(args)
    try:
        result = sheet.run(read(sheet.inputs, typed, error=error, drawer=drawer, tools=tools))
    except BadInput as problem:
        raise Failure(USAGE, f"worksheet {sheet.id}: {problem}") from None
    if not (result.figures or result.checks or result.rows):
        needed = ", ".join(item.name for item in sheet.inputs if item.default is None and not item.shelf)
        raise Failure(USAGE, f"worksheet {sheet.id}: nothing can be worked out from that; it takes {needed}")
    if as_json:
        from casebook.figures.as_json import result_json

        print_json(result_json(result))
    else:
        from casebook.figures.as_text import result_text

        print(result_text(result, args.unit))
    return FINE


def _shop(args: argparse.Namespace) -> tuple[Drawer, Mapping[str, ToolError]]:
    """Give the shop's drawer and its errors by tool; a shop without a file costs no start anything."""
    if not has_shop_file(args.shop):
        args.unit = args.unit or "mm"
        return NO_DRAWER, TOOL_ERRORS
    from casebook.commands.sources import shop

    here = shop(args)
    return here.drawer, here.tools


def _sheet(id: str) -> Worksheet:
    try:
        return figures.worksheet(id)
    except KeyError:
        from casebook.shape import nearest

        hint = nearest(id.replace("-", "_"), figures.IDS) or f" (there are: {', '.join(figures.IDS)})"
        raise Failure(USAGE, f"there is no worksheet {id!r}{hint}") from None


def _inputs(sheet: Worksheet, words: list[str]) -> tuple[dict[str, str], Fraction]:
    typed: dict[str, str] = {}
    error = USUAL_ERROR
    for word in words:
        name, equals, value = word.partition("=")
        name = name.strip().replace("-", "_")
        if not equals or not name:
            raise Failure(USAGE, f"worksheet {sheet.id}: {word!r} is no name=value. Use: {_USE}")
        if name in typed:
            raise Failure(USAGE, f"worksheet {sheet.id}: {name} is given twice")
        if name == "error":
            error = _error(sheet, value)
        elif name not in {item.name for item in sheet.inputs}:
            raise Failure(
                USAGE, f"worksheet {sheet.id}: {name}: {no_such(name, [i.name for i in sheet.inputs])}"
            )
        else:
            typed[name] = value
    return typed, error


def _error(sheet: Worksheet, value: str) -> Fraction:
    try:
        error = read_length(value).value
    except NotUnderstood as problem:
        raise Failure(USAGE, f"worksheet {sheet.id}: error: {problem}") from None
    if error > 5:
        raise Failure(
            USAGE, f"worksheet {sheet.id}: error: {value!r} makes no sense (sensible: 0 mm to 5 mm)"
        )
    return error


def _list(as_json: bool, wants_help: bool) -> None:
    sheets = [figures.worksheet(id) for id in figures.IDS]
    if as_json:
        print_json([{"worksheet": sheet.id, "title": sheet.title} for sheet in sheets])
        return
    if wants_help:
        print_text(f"usage: {_USE}", "")
    width = max(len(sheet.id) for sheet in sheets)
    for sheet in sheets:
        print_text(f"{sheet.id:<{width}}  {sheet.title}")
    print_text("", "example: casebook worksheet tap-drill thread=3-48 material=brass")


def _explain(sheet: Worksheet) -> None:
    print_text(
        f"{sheet.id}: {sheet.title}", "", f"usage: casebook worksheet {sheet.id} name=value ... [--json]", ""
    )
    width = max(len(item.name) for item in sheet.inputs)
    for item in sheet.inputs:
        about = item.help
        if item.shelf:
            about += " (else from the shop's drawer)"
        if item.choices:
            about += f" ({', '.join(item.choices)})"
        if item.default is not None:
            about += f"; default {item.default}"
        elif item.low is not None or item.high is not None:
            about += f"; from {item.low or '...'} to {item.high or '...'}"
        print_text(f"  {item.name:<{width}}  {_KINDS.get(item.kind, item.kind)}: {about}")
    print_text(
        f"  {'error':<{width}}  length: reading error of all measured lengths;"
        f" default {float(USUAL_ERROR)} mm. One input may carry its own,"
        " 'hole=5.2mm +- 0.05', or name its tool: 'hole=5.2mm by inside jaws'",
        "",
        f"example: casebook worksheet {sheet.id} {sheet.example}",
    )
