"""A bore measured at stations: how oval it is, how it tapers, where it is out against what it should be."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from casebook.figures.formula import Formula
from casebook.figures.inputs import USUAL_ERROR, BadInput, Input, Inputs, Span, list_of
from casebook.figures.round_body import GEOMETRY
from casebook.figures.section import profile_drawing
from casebook.figures.worksheet import COMMON_PRACTICE, Result, Worksheet
from casebook.quantity import Reading, read_length

_STATIONS = Input(
    "stations", "sizes", "distances of the stations from the end, in order: 0 mm, 20 mm, 40 mm",
    low="0 mm", high="2000 mm",
)  # fmt: skip
_BORE = Input("bore", "sizes", "diameters at the stations", low="1 mm", high="120 mm")
_ACROSS = Input(
    "across", "sizes", "diameters at the stations, a quarter turn round", low="1 mm", high="120 mm"
)
_REFERENCE = Input(
    "reference", "sizes", "diameters there on the sister joint, the other axis known good, or the drawing",
    low="1 mm", high="120 mm",
)  # fmt: skip
_LARGEST = Input(
    "largest", "length", "largest diameter, where only one place was measured", low="1 mm", high="120 mm"
)
_SMALLEST = Input("smallest", "length", "smallest diameter at that place", low="1 mm", high="120 mm")
_GAUGE_ERROR = Input(
    "gauge_error", "length", "error of the bore gauge",
    default=f"{float(USUAL_ERROR)} mm", low="0 mm", high="1 mm", measured=False,
)  # fmt: skip
_MOST_OVAL = Input(
    "most_oval", "percent", "how oval an old bore may be and is left alone, percent of the bore",
    default="1", low="0.05", high="20", measured=False,
)  # fmt: skip
_TOLERANCE = Input(
    "tolerance", "length", "how far the bore may be off the reference",
    default="0.05 mm", low="0 mm", high="2 mm", measured=False,
)  # fmt: skip

# A bore is oval by the larger diameter less the smaller; a gauge's error cannot make it less than round.
OVALITY = Formula(lambda large, small: max(large - small, 0.0), rises="large", falls="small")
OVALITY_PERCENT = Formula(
    lambda large, small: 200 * max(large - small, 0.0) / (large + small), rises="large", falls="small"
)
# most / 100 x mean - (large - small): the larger diameter takes more than it allows while most < 200 percent.
OVAL_SPARE = Formula(
    lambda large, small, most_oval: most_oval / 200 * (large + small) - (large - small),
    rises="small most_oval",
    falls="large",
)
OFF = Formula(lambda large, small, wanted: (large + small) / 2 - wanted, rises="large small", falls="wanted")
_NOT_OVER = Formula(
    lambda large, small, wanted, tolerance: tolerance + wanted - (large + small) / 2,
    rises="tolerance wanted",
    falls="large small",
)
_NOT_UNDER = Formula(
    lambda large, small, wanted, tolerance: tolerance + (large + small) / 2 - wanted,
    rises="tolerance large small",
    falls="wanted",
)


def _run(inputs: Inputs) -> Result:
    result = Result(WORKSHEET.id, inputs)
    places = _derive_stations(inputs)
    if not places:
        places = _derive_place(inputs)
    oval = [n for n in places if f"small_{n}" in inputs.spans and f"large_{n}" in inputs.spans]
    wanted = [n for n in places if f"wanted_{n}" in inputs.spans]
    result.figure(
        "ovality", _most(OVALITY, oval), how="largest - smallest, where it is most", source=GEOMETRY
    )
    result.figure(
        "ovality_percent",
        _most(OVALITY_PERCENT, oval),
        unit="percent",
        how="largest - smallest over their mean, where it is most",
        source=GEOMETRY,
    )
    _taper(result, places)
    result.check(
        "round_enough",
        *(_at(OVAL_SPARE, n) for n in oval or ["1"]),
        yes="no more oval than old bores are: leave it",
        no="more oval than age alone makes it",
        ways_out=("rest the wood and measure again", "look for a liner, ring or plug that presses on it"),
    )
    if wanted:
        result.check(
            "agrees_with_reference",
            *(_at(formula, n, both=n in oval) for n in wanted for formula in (_NOT_OVER, _NOT_UNDER)),
            yes="the bore agrees with the reference at every station",
            no="the bore is off the reference: see the rows for where",
            ways_out=(
                "no reamer without a trusted reference and the owner's consent",
                "rest it and measure again",
            ),
        )
    _rows(result, places)
    result.drawing = profile_drawing(result.rows)
    result.steps += _STEPS
    return result


def _derive_stations(inputs: Inputs) -> list[str]:
    """Put the diameters at each station among the numbers and give the stations' numbers.

    Raises:
        BadInput: lists that do not go together, or stations out of order.
    """
    error = inputs.spans["gauge_error"].value
    lists = {name: _sizes(inputs, name) for name in ("stations", "bore", "across", "reference")}
    count = len(lists["bore"])
    for name in ("stations", "across", "reference"):
        if lists[name] and len(lists[name]) != count:
            raise BadInput(name, f"{len(lists[name])} sizes beside {count} of bore: give one for each")
    if count and not lists["stations"]:
        raise BadInput("stations", "say where the diameters were taken: 0 mm, 20 mm, 40 mm")
    if any(a.value >= b.value for a, b in pairwise(lists["stations"])):
        raise BadInput("stations", "must grow from one end to the other, each once")
    for name in ("bore", "across", "reference"):
        if any(reading.value <= 0 for reading in lists[name]):
            raise BadInput(name, "a diameter of nothing: type sizes above 0")
    for number in range(count):
        n = str(number + 1)
        inputs.derive(f"station_{n}", Span.exact(float(lists["stations"][number].value)), "stations")
        spans = [_blurred(lists[name][number], error) for name in ("bore", "across") if lists[name]]
        spans.sort(key=lambda span: span.value)
        if lists["across"]:
            inputs.derive(f"small_{n}", spans[0], "bore")
        inputs.derive(f"large_{n}", spans[-1], "bore")
        if lists["reference"]:
            inputs.derive(f"wanted_{n}", _blurred(lists["reference"][number], error), "reference")
    return [str(number + 1) for number in range(count)]


def _derive_place(inputs: Inputs) -> list[str]:
    """Take one place measured both ways."""
    inputs.read_as |= {"large_1": "largest", "small_1": "smallest"}
    for name, number in (("largest", "large_1"), ("smallest", "small_1")):
        if name in inputs.spans:
            inputs.derive(number, inputs.spans[name], name)
    large, small = inputs.spans.get("largest"), inputs.spans.get("smallest")
    if large and small and large.value < small.value:
        raise BadInput("smallest", "is larger than the largest: take the two the other way round")
    return ["1"] if large and small else []


def _sizes(inputs: Inputs, name: str) -> list[Reading]:
    return [read_length(part) for part in list_of(inputs.word(name))]


def _blurred(reading: Reading, error: float) -> Span:
    span = Span.of(reading)
    if reading.own_error:
        return span
    return Span(max(span.low - error, 0.0), span.value, span.high + error)


def _at(formula: Formula, n: str, *, both: bool = True) -> Formula:
    """Give a formula for the diameters at station `n`; measured one way only, the mean is that diameter."""
    own = {name: f"{name}_{n}" if name in ("large", "small", "wanted") else name for name in formula.names}
    if not both:
        own["small"] = own["large"]
    return Formula(
        lambda **given: formula.compute(**{name: given[there] for name, there in own.items()}),
        rises=" ".join(own[name] for name in formula.rises),
        falls=" ".join(own[name] for name in formula.falls),
        names=dict.fromkeys(own.values()),
    )


def _most(formula: Formula, places: Iterable[str]) -> Formula:
    """Give the greatest of a formula over the stations; never known without any."""
    parts = [_at(formula, n) for n in places] or [_at(formula, "1")]
    return Formula(
        lambda **given: max(part.compute(**{name: given[name] for name in part.names}) for part in parts),
        rises=" ".join(name for part in parts for name in part.rises),
        falls=" ".join(name for part in parts for name in part.falls),
        names=[name for part in parts for name in part.names],
    )


def _taper(result: Result, places: list[str]) -> None:
    """Give how the bore narrows or widens from the first station to the last."""
    if len(places) < 2:
        return
    spans = result.inputs.spans
    first, last = places[0], places[-1]
    along = spans[f"station_{last}"].value - spans[f"station_{first}"].value
    names = [f"{end}_{n}" for n in (first, last) for end in ("small", "large") if f"{end}_{n}" in spans]

    def taper(**given: float) -> float:
        ends = [[given[name] for name in names if name.endswith(f"_{n}")] for n in (first, last)]
        return 100 * (sum(ends[1]) / len(ends[1]) - sum(ends[0]) / len(ends[0])) / along

    result.figure(
        "taper",
        Formula(
            taper,
            rises=" ".join(name for name in names if name.endswith(f"_{last}")),
            falls=" ".join(name for name in names if name.endswith(f"_{first}")),
            names=names,
        ),
        how="how much wider the mean diameter is at the last station than at the first, on 100 mm",
        source=GEOMETRY,
    )


def _rows(result: Result, places: list[str]) -> None:
    spans = result.inputs.spans
    for n in places:
        row: dict[str, object] = {}
        if f"station_{n}" in spans:
            row["station_depth"] = spans[f"station_{n}"].value
        large = spans[f"large_{n}"].value
        small = spans[f"small_{n}"].value if f"small_{n}" in spans else None
        row["mean_diameter"] = large if small is None else (large + small) / 2
        row["oval_size"] = "" if small is None else large - small
        if f"wanted_{n}" in spans:
            off = large if small is None else (large + small) / 2
            row["off_misfit"] = off - spans[f"wanted_{n}"].value
        result.rows.append(row)


_STEPS = (
    "Gauge along the rings and along the rays; warm hands off the wood, wood at rest.",
    f"Ovality to about 1 percent is age and is left alone ({COMMON_PRACTICE}).",
    "No reamer without a reference; never ream a bore round.",
)

WORKSHEET = Worksheet(
    id="bore_profile",
    title="Bore: ovality and taper at stations, and where it is off a reference",
    inputs=(
        _STATIONS, _BORE, _ACROSS, _REFERENCE, _LARGEST, _SMALLEST, _GAUGE_ERROR, _MOST_OVAL, _TOLERANCE,
    ),
    run=_run,
    example="stations='0 mm, 50 mm, 100 mm' bore='14.90 mm, 14.72 mm, 14.55 mm'"
    " across='14.80 mm, 14.70 mm, 14.52 mm' reference='14.85 mm, 14.70 mm, 14.55 mm'",
)  # fmt: skip
