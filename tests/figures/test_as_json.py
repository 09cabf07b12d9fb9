"""The JSON form of a result."""

import json

from casebook.figures import worksheet
from casebook.figures.as_json import result_json
from casebook.figures.inputs import read


def as_json(id: str, **typed: str) -> dict[str, object]:
    sheet = worksheet(id)
    data: dict[str, object] = json.loads(json.dumps(result_json(sheet.run(read(sheet.inputs, typed)))))
    return data


def test_it_has_the_keys_that_scripts_rely_on() -> None:
    data = as_json("tap_drill", thread="3-48")
    assert set(data) == {"worksheet", "inputs", "figures", "checks", "rows", "steps", "drawing"}
    assert data["worksheet"] == "tap_drill"


def test_inputs_are_as_typed_with_their_value_in_mm() -> None:
    inputs = as_json("thread", thread="3-48", length="0.190in", turns="3")["inputs"]
    assert isinstance(inputs, dict)
    assert inputs["length"] == {"typed": "0.190in", "mm": 4.826, "low": 4.806, "high": 4.846}
    assert inputs["turns"] == {"typed": "3", "value": 3.0, "unit": "count", "low": 3.0, "high": 3.0}
    assert inputs["thread"]["designation"] == "3-48"


def test_a_choice_is_its_word() -> None:
    inputs = as_json("tap_drill", thread="3-48", material="nickel-silver")["inputs"]
    assert isinstance(inputs, dict)
    assert inputs["material"] == "nickel_silver"


def test_a_figure_says_value_bounds_formula_source_and_how_checked() -> None:
    figures = as_json("tap_drill", thread="3-48")["figures"]
    assert isinstance(figures, dict)
    figure = figures["ideal_hole"]
    assert set(figure) == {"value", "low", "high", "unit", "how", "source", "checked"}
    assert (round(figure["value"], 3), figure["unit"]) == (1.999, "mm")


def test_a_check_says_holds_margin_and_ways_out() -> None:
    checks = as_json("thread", turns="1")["checks"]
    assert isinstance(checks, dict)
    check = checks["threads_hold"]
    assert (check["holds"], check["margin"], check["unit"]) == ("no", -1.0, "count")
    assert check["says"]
    assert check["ways_out"]
