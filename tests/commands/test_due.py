"""`due`, and what a case file may say of the workshop around the damage."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import icalendar
import pytest

from tests.line import Casebook

Write = Callable[[str, str], str]

OLD = """\
cases:
  - number: "V-1"
    title: Low D pad
    taken_in: 2026-06-01
    needed_by: 2026-06-20
    pays: school
    waits: [{for: glue, since: 2026-06-02, until: 2026-06-03, at: "14:30", note: hide glue}]
    damages:
      - family: pads_and_seats
        place: low D
        consents: [{said: yes, who: the school, up_to: 40}]
        done: New pad.
        repaired_on: 2026-06-03
        outcome: {kind: not_seen, looked: 2026-06-04}
"""


def test_due_lists_repairs_and_writes_a_calendar(casebook: Casebook, write: Write, tmp_path: Path) -> None:
    assert casebook("record", write("old.yaml", OLD)).status == 0
    said = casebook("due")
    assert said.status == 0
    assert "V-1 damage 1  Low D pad, low D" in said.out
    [due] = casebook("due", "--json").data
    assert (due["case"], due["damage"], due["why"]) == ("V-1", 1, "after 4 to 6 weeks")
    file = tmp_path / "looks.ics"
    assert casebook("due", "--ics", str(file)).status == 0
    assert len(list(icalendar.Calendar.from_ical(file.read_bytes()).walk("VEVENT"))) == 1
    assert casebook("due", "--ics", str(tmp_path / "no" / "looks.ics")).status == 2
    for typed in ("02-29", "soon", "2026-04-15"):
        assert casebook("due", "--season-end", typed).status == 2


def test_nothing_due_is_said_in_one_line(casebook: Casebook, write: Write) -> None:
    casebook("record", write("old.yaml", OLD.replace("kind: not_seen", "kind: let_go, what: glue")))
    said = casebook("due")
    assert said.status == 1
    assert "no repair is waiting" in said.one_line()


def test_a_case_file_tells_the_visit_and_an_update_leaves_the_rest(casebook: Casebook, write: Write) -> None:
    casebook("record", write("old.yaml", OLD))
    more = 'cases: [{number: "V-1", needed_for: the concert, damages: [{family: pads_and_seats, departures: [{planned: cork}]}]}]'
    assert casebook("record", write("more.yaml", more)).status == 0
    data = casebook("show", "V-1", "--json").data
    assert (data["visit"]["needed_by"], data["visit"]["needed_for"]) == ("2026-06-20", "the concert")
    assert data["waits"][0]["at"] == "14:30"
    assert data["damages"][0]["consents"][0]["up_to"] == "40"
    assert data["damages"][0]["departures"][0]["planned"] == "cork"
    assert "agreed: the school, up to 40" in casebook("show", "V-1").out


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("repaired_on: 2026-06-03", "repaired_on: 2026-05-03",
         "line 13: damage 1: repaired on 2026-05-03 is before it was taken in on 2026-06-01"),
        ("looked: 2026-06-04", "looked: 2026-06-02", "line 14: damage 1: looked 2026-06-02 is before it was repaired on"),
        ("needed_by: 2026-06-20", "needed_by: 2026-05-20", "line 5: needed by 2026-05-20 is before it was taken in"),
        ("until: 2026-06-03", "until: 2026-06-01", "line 7: until 2026-06-01 is before the wait began"),
        ("pays: school", "comes_back_from: X-9", "line 6: comes_back_from: there is no case X-9"),
        ("up_to: 40", "up_to: -40", "line 11: up_to: '-40' is less than nothing"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_its_line_and_nothing_is_stored(
    casebook: Casebook, write: Write, old: str, new: str, says: str
) -> None:
    assert old in OLD
    said = casebook("record", write("old.yaml", OLD.replace(old, new)))
    assert said.status == 3
    assert says in said.one_line()
    assert casebook("show", "V-1").status == 1


def test_the_shops_own_heating_season_counts(casebook: Casebook, write: Write) -> None:
    """And one named on the line stands before it."""
    casebook(
        "record", write("old.yaml", OLD.replace("2026-06-0", "2025-06-0").replace("2026-06-20", "2025-06-20"))
    )
    shop = write("shop.yaml", "season_end: 05-10\n")
    assert casebook("--shop", shop, "due", "--json").data[0]["since"] == "2026-05-10"
    assert casebook("--shop", shop, "due", "--season-end", "03-31", "--json").data[0]["since"] == "2026-03-31"
