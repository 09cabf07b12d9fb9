"""The published tables, and what a table must say."""

import re
from fractions import Fraction

import pytest

from casebook.strict_yaml import BrokenFile
from casebook.tables import CHECKED, holds_number, load, sections

GOOD = """
taps:
  source: a catalogue
  checked: memory
  columns: [tap, size_mm]
  rows:
  - [47, 1.9939]
"""


def test_a_number_stands_under_a_key_with_a_unit_and_text_under_any_other() -> None:
    (row,) = sections(GOOD, "t.yaml")["taps"]
    assert row.text("tap") == "47"
    assert row.number("size_mm") == Fraction("1.9939")
    assert (row["source"], row.checked) == ("a catalogue", "memory")


def test_an_empty_value_means_that_nobody_knows() -> None:
    (row,) = sections(GOOD.replace("1.9939", "~"), "t.yaml")["taps"]
    assert "size_mm" not in row


@pytest.mark.parametrize(
    ("broken", "said"),
    [
        (GOOD.replace("memory", "surely"), "line 7: needs a source"),
        (GOOD.replace("  source: a catalogue\n", ""), "needs a source"),
        (GOOD.replace("1.9939", "thick"), "line 7: thick is no number"),
        (GOOD.replace(", 1.9939", ""), "line 7: 1 values for 2 columns"),
        (GOOD.replace("1.9939", "[1]"), "line 7: size_mm holds no plain value"),
        (GOOD.replace("rows:", "lines:"), "line 2: section taps has no rows"),
        ("- a", "a table is a mapping"),
    ],
)
def test_a_table_that_does_not_say_what_it_must_is_refused_with_its_line(broken: str, said: str) -> None:
    with pytest.raises(BrokenFile, match=re.escape(said)):
        sections(broken, "t.yaml")


@pytest.mark.parametrize(
    "name", ["threads", "drills", "speeds", "materials", "moisture", "springs", "solders"]
)
def test_every_row_says_where_it_is_from_and_how_that_was_checked(name: str) -> None:
    rows = [row for section in load(name).values() for row in section]
    assert rows
    assert all(row["source"] and row["checked"] in CHECKED for row in rows)


@pytest.mark.parametrize(
    ("key", "number"), [("size_mm", True), ("tpi", True), ("density_kg_m3", True), ("drill", False)]
)
def test_a_key_tells_by_its_end_whether_it_holds_a_number(key: str, number: bool) -> None:
    assert holds_number(key) is number
