"""The small forms of the shop screen: one for each setting that is a value by itself."""

from __future__ import annotations

from casebook.bench.shop_settings import tool_change, tools_typed
from casebook.figures.inputs import USUAL_ERROR
from casebook.quantity import TOOL_ERRORS
from casebook.quantity.tool import TOOLS
from casebook.screens.form import Entry, Form
from casebook.screens.way import Way
from casebook.strict_yaml import Text

# Setting -> its label, what may be typed, and what it is for.
VALUES = {
    "currency": ("Currency", "EUR", "How it is written after a sum; empty for bare numbers."),
    "rate": ("An hour", "65", "Before tax. Empty where you do not say; then no price is made."),
    "minimum": ("Least charge", "30", "The least a job costs, before tax; empty for none."),
    "tax": ("Percent", "19", "Tax on top of all; empty for none."),
    "looking": ("Looking", "25", "Opening up and looking; it comes off the bill. Empty: not charged."),
    "contingency": ("Percent", "20", "On the work, for what cleaning may show; empty for none."),
    "chance": ("Percent", "80", "Of your jobs, how many are to end within the range you tell."),
    "once": ("Hours", "0.8/1/1.5", "Low/likely/high: keys off, on, regulate, play test; once an instrument."),
    "season_end": ("Day", "04-15", "Month and day the heating season ends here; empty for the usual one."),
}  # fmt: skip
UNITS = (("mm", "mm"), ("in", "in"), ("thou", "thou"))


def form_for(shop: Way, id: str, name: str) -> Form:
    """Make the form that changes a setting.

    Args:
        shop: the way through the screens, on the desk of the shop.
        id: ``unit``, ``reading_errors`` or one of `VALUES`.
        name: what it is called.
    """
    if id == "unit":
        return _unit_form(shop)
    return _tools_form(shop) if id == "reading_errors" else _value_form(shop, id, name)


def without(typed: str, *words: str) -> str | None:
    """Give what was typed without a word that stands after it anyway; None for nothing."""
    text = typed.strip()
    for word in words:
        if word and text.lower().endswith(word.lower()):
            text = text[: -len(word)].rstrip()
    return text or None


def _value_form(shop: Way, id: str, name: str) -> Form:
    label, hint, note = VALUES[id]
    file = shop.desk.shop_file
    said = file.written.get(id, "") if file else ""
    money = shop.desk.shop.money if shop.desk.shop else None
    endings = () if id == "currency" else (money.currency if money else "", "percent", "%", "hours")

    def take(written: dict[str, str]) -> None:
        shop.change_shop(((id,), without(written[id], *endings)))

    value = str(said) if isinstance(said, Text) and not said.is_null else ""
    return Form(f"The shop: {name}", [Entry(id, label, value=value, hint=hint)], take, note)


def _unit_form(shop: Way) -> Form:
    def take(written: dict[str, str]) -> None:
        shop.change_shop((("unit",), written["unit"]))

    unit = shop.desk.shop.unit if shop.desk.shop else "mm"
    note = "Of a bare number, and in which sizes are shown. Bare sizes of the drawer count in it too."
    return Form("The shop: unit", [Entry("unit", "Unit", "pick", value=unit, choices=UNITS)], take, note)


def _tools_form(shop: Way) -> Form:
    before = tools_typed(shop.desk)

    def take(written: dict[str, str]) -> None:
        shop.change_shop(
            *(tool_change(tool, written[tool]) for tool in TOOLS if written[tool] != before[tool])
        )

    entries = [Entry(tool, tool.replace("_", " "), value=before[tool], hint=_usual(tool)) for tool in TOOLS]
    note = "How far a reading may be off; measure a gauge block ten times. Empty: the usual error."
    return Form("Reading errors, by tool", entries, take, note)


def _usual(tool: str) -> str:
    error = TOOL_ERRORS.get(tool)
    if error is None:
        return f"usual: {float(USUAL_ERROR):g} mm"
    below, above = (f"{float(part):g} mm" for part in error)
    return f"usual: {below}" if below == above else f"usual: {below} less, {above} more"
