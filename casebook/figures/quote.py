"""What a job will cost: hours by step with their spread, a price range at a stated chance, the past."""

from __future__ import annotations

import re
from math import sqrt

from casebook.figures.formula import Formula, term
from casebook.figures.inputs import BadInput, Input, Inputs, Span
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet

_HOURS = Input("hours", "text", "hours of each step, low/likely/high, comma between steps: 0.5/1/2, 1/1.5/3")
_ONCE = Input("once", "text", "keys off, on, regulate and play test, once an instrument: 0.8/1/1.5")
_RATE = Input("rate", "number", "price of an hour", low="0.01", high="10000", measured=False)
_CHANCE = Input(
    "chance", "percent", "chance that the price ends within the range",
    default="80", low="1", high="99.9", measured=False,
)  # fmt: skip
_MATERIALS = Input(
    "materials",
    "number",
    "price of parts and materials",
    default="0",
    low="0",
    high="1000000",
    measured=False,
)
_FLAT = Input(
    "flat", "number", "sum of what is done at flat prices, as 25 or 60.50", default="0",
    low="0", high="1000000", measured=False,
)  # fmt: skip
_CONTINGENCY = Input(
    "contingency", "percent", "on top of the work, for what cleaning may show (30 to 50 on earlier repairs)",
    default="0", low="0", high="300", measured=False,
)  # fmt: skip
_MINIMUM = Input(
    "minimum", "number", "the shop's least charge", default="0", low="0", high="1000000", measured=False
)
_TAX = Input("tax", "percent", "tax on top of all", default="0", low="0", high="100", measured=False)
_WAITING = Input(
    "waiting", "number", "days of resting, curing and waiting for parts", low="0", high="3650", measured=False
)
_AGREED = Input(
    "agreed", "number", "price that the owner has agreed not to pass without a word",
    low="0", high="1000000", measured=False,
)  # fmt: skip
_PAST = Input("past", "text", "the shop's own hours on the like: 3.5, 4, 6.25")

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
# The last number of a step ends at a separator, so that in "0.5/1/2,1/1.5/3" the comma parts no decimals.
_STEP = rf"({_NUMBER})\s*/\s*({_NUMBER})\s*/\s*({_NUMBER})(?=\s*[,;]|$)"
_SEPARATOR = r"\s*[,;]\s*"
# A step of more hours than this is a slip of the finger.
_MOST_HOURS = 500.0
_EXPECT = "low/likely/high in hours, each no less than the one before, as 0.5/1/2, 1/1.5/3"

PERT = "three-point estimate (PERT): mean (low + 4 likely + high) / 6, deviation (high - low) / 6"
_NORMAL = f"{PERT}; normal approximation"

Step = tuple[float, float, float]


def expected(step: Step) -> float:
    """Give the expected hours of one step."""
    low, likely, high = step
    return (low + 4 * likely + high) / 6


def deviation(step: Step) -> float:
    """Give the standard deviation of one step's hours."""
    return (step[2] - step[0]) / 6


def _price(hours: float, rate: float, materials: float, flat: float, minimum: float, tax: float) -> float:
    return max(max(hours, 0.0) * rate + materials + flat, minimum) * (1 + tax / 100)


_PRICE_LOW = Formula(
    lambda expected_hours, spread_hours, deviations, rate, materials, flat, minimum, tax: _price(
        expected_hours - deviations * spread_hours, rate, materials, flat, minimum, tax
    ),
    rises="expected_hours rate materials flat minimum tax",
    falls="spread_hours deviations",
)
_PRICE_LIKELY = Formula(
    lambda expected_hours, rate, materials, flat, minimum, tax: _price(
        expected_hours, rate, materials, flat, minimum, tax
    ),
    rises="expected_hours rate materials flat minimum tax",
)
_PRICE_HIGH = Formula(
    lambda expected_hours, spread_hours, deviations, rate, materials, flat, minimum, tax: _price(
        expected_hours + deviations * spread_hours, rate, materials, flat, minimum, tax
    ),
    rises="expected_hours spread_hours deviations rate materials flat minimum tax",
)
_CONTINGENCY_PRICE = Formula(
    lambda expected_hours, rate, contingency, tax: (
        expected_hours * rate * contingency / 100 * (1 + tax / 100)
    ),
    rises="expected_hours rate contingency tax",
)
_PRICE_MOST = _PRICE_HIGH + _CONTINGENCY_PRICE
_PAST_INSIDE = (
    Formula(
        lambda expected_hours, spread_hours, deviations, past_hours: (
            expected_hours + deviations * spread_hours - past_hours
        ),
        rises="expected_hours spread_hours deviations",
        falls="past_hours",
    ),
    Formula(
        lambda expected_hours, spread_hours, deviations, past_hours: (
            past_hours - expected_hours + deviations * spread_hours
        ),
        rises="past_hours spread_hours deviations",
        falls="expected_hours",
    ),
)


def _run(inputs: Inputs) -> Result:
    result = Result(WORKSHEET.id, inputs)
    steps = _steps(inputs, "hours")
    once = _steps(inputs, "once")
    if len(once) > 1:
        raise BadInput("once", "one estimate only, as 0.8/1/1.5")
    if steps or once or "flat" in inputs.given:
        _derive(inputs, steps + once)
        _prices(result)
    past = sorted(_past(inputs))
    if past:
        middle = (past[(len(past) - 1) // 2] + past[len(past) // 2]) / 2
        inputs.derive("past_hours", Span.exact(middle), "past")
        result.table_figure(
            "past_hours",
            middle,
            unit="hours",
            how=f"middle one of {len(past)} of the shop's own, {past[0]:g} to {past[-1]:g} hours",
            source="the shop's own past",
            checked="formula",
        )
    if "waiting" in inputs:
        result.figure(
            "waiting_days", term("waiting"), unit="days", how="resting, curing, parts", source="as given"
        )
    _checks(result)
    names = [f"step {number}" for number in range(1, len(steps) + 1)] + ["once an instrument"] * len(once)
    for name, step in zip(names, steps + once, strict=True):
        low, likely, high = step
        row = {"step": name, "low": low, "likely": likely, "high": high}
        result.rows.append(row | {"expected": expected(step), "spread": deviation(step)})
    result.steps += _STEPS
    return result


def _steps(inputs: Inputs, name: str) -> list[Step]:
    """Read estimates of hours.

    Raises:
        BadInput: no such estimates, out of order, or far too long.
    """
    typed = inputs.word(name).strip()
    if not typed:
        return []
    if not re.fullmatch(rf"{_STEP}(?:{_SEPARATOR}{_STEP})*", typed):
        raise BadInput(name, f"not understood: {_EXPECT}")
    steps = []
    for found in re.finditer(_STEP, typed):
        low, likely, high = (float(number.replace(",", ".")) for number in found.groups())
        if not low <= likely <= high or high == 0:
            raise BadInput(name, f"{found.group()!r} is out of order: {_EXPECT}")
        if high > _MOST_HOURS:
            raise BadInput(name, f"{found.group()!r} is far too long (sensible: up to {_MOST_HOURS:g} hours)")
        steps.append((low, likely, high))
    return steps


def _past(inputs: Inputs) -> list[float]:
    """Read the shop's own past hours.

    Raises:
        BadInput: no numbers.
    """
    parts = [part for part in re.split(r"\s*;\s*|,\s+|\s+", inputs.word("past").strip()) if part]
    if not all(re.fullmatch(_NUMBER, part) for part in parts):
        raise BadInput("past", "hours with a blank between them, as 3.5 4 6.25")
    hours = [float(part.replace(",", ".")) for part in parts]
    if any(not 0 < one <= _MOST_HOURS for one in hours):
        raise BadInput("past", f"an entry makes no sense (sensible: above 0, up to {_MOST_HOURS:g} hours)")
    return hours


def _derive(inputs: Inputs, steps: list[Step]) -> None:
    """Put the sums over the steps among the numbers, and how many deviations the chance is worth."""
    if not steps:
        # All of it at flat prices: no hour is charged, so it needs no price.
        inputs.spans.setdefault("rate", Span.exact(0.0))
    inputs.derive("expected_hours", Span.exact(sum(map(expected, steps))), "hours")
    inputs.derive("spread_hours", Span.exact(sqrt(sum(deviation(step) ** 2 for step in steps))), "hours")
    from statistics import NormalDist  # slow to import, and only a price needs it

    chance = inputs.spans["chance"].value / 100
    inputs.derive("deviations", Span.exact(NormalDist().inv_cdf((1 + chance) / 2)), "chance")


def _prices(result: Result) -> None:
    chance = result.inputs.spans["chance"].value
    for name, formula, unit, how, source in (
        ("expected_hours", term("expected_hours"), "hours", "sum of (low + 4 likely + high) / 6", PERT),
        ("spread_hours", term("spread_hours"), "hours", "sqrt of the sum of ((high - low) / 6)^2", PERT),
        (
            "price_low",
            _PRICE_LOW,
            "money",
            f"(expected - spread x deviations) x rate + materials + flat; {chance:g} percent lie in it",
            _NORMAL,
        ),
        ("price_likely", _PRICE_LIKELY, "money", "expected x rate + materials + flat prices", PERT),
        (
            "price_high",
            _PRICE_HIGH,
            "money",
            f"(expected + spread x deviations) x rate + materials + flat; {chance:g} percent lie in it",
            _NORMAL,
        ),
        ("contingency_price", _CONTINGENCY_PRICE, "money", "expected x rate x contingency", COMMON_PRACTICE),
        ("price_most", _PRICE_MOST, "money", "high price + contingency: ring the owner before it", _NORMAL),
    ):
        result.figure(name, formula, unit=unit, how=how, source=source)


def _checks(result: Result) -> None:
    if "past" in result.inputs:
        result.check(
            "past_agrees",
            *_PAST_INSIDE,
            unit="hours",
            yes="the shop's own past lies within the estimate",
            no="the shop's own past lies outside the estimate",
            ways_out=("look at how the past jobs differed", "take the shop's own hours as the likely ones"),
        )
    if "agreed" in result.inputs:
        result.check(
            "within_agreed",
            term("agreed") - _PRICE_MOST,
            unit="money",
            yes="even the high price with its contingency stays within what was agreed",
            no="the high price with its contingency passes what was agreed: ask before you begin",
            ways_out=(
                "ring the owner",
                "quote the opening up first, then a firm price",
                "do less: must before should",
            ),
        )


_STEPS = (
    "Say it as a range: unseen, between the low and the high price, most likely near the middle one.",
    "Name the contingency and ask again when cleaning shows more; quote opening up first where old solder"
    " hides the damage.",
    "A spread that adds up by squares takes the steps as independent: one bad surprise through all of them"
    " costs more.",
)

WORKSHEET = Worksheet(
    id="quote",
    title="Quote: expected hours and spread, a price range at a stated chance",
    inputs=(
        _HOURS, _ONCE, _RATE, _CHANCE, _MATERIALS, _FLAT, _CONTINGENCY, _MINIMUM, _TAX, _WAITING,
        _AGREED, _PAST,
    ),
    run=_run,
    example="hours='0.5/1/2, 1/1.5/3' once=0.8/1/1.5 rate=60 materials=12 contingency=30",
)  # fmt: skip
