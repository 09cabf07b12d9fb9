"""A calendar file is renewed, and nothing else is ever written over unasked."""

from __future__ import annotations

from pathlib import Path

import pytest

from casebook.bench.at_desk import NotPossible
from casebook.bench.calendar_file import InTheWay, write_calendar
from casebook.bench.icalendar import MADE_HERE

OURS = f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n{MADE_HERE}\r\nEND:VCALENDAR\r\n"


def test_a_calendar_made_here_is_renewed(tmp_path: Path) -> None:
    place = tmp_path / "looks.ics"
    assert write_calendar(str(place), OURS) == place
    write_calendar(f" {place} ", OURS + "more")
    assert place.read_bytes().decode() == OURS + "more"
    assert list(tmp_path.iterdir()) == [place]


def test_another_file_stays_unless_somebody_says_so(tmp_path: Path) -> None:
    place = tmp_path / "letter.txt"
    place.write_text("Dear owner")
    with pytest.raises(InTheWay, match="is another file"):
        write_calendar(str(place), OURS)
    assert place.read_text() == "Dear owner"
    write_calendar(str(place), OURS, over=True)
    assert place.read_bytes().decode() == OURS


@pytest.mark.parametrize(
    "place", ["", "  ", "{}", "{}/none/looks.ics", "{}/file/looks.ics", "~nobody_of_that_name/x"]
)
def test_a_place_that_cannot_be_is_one_line(tmp_path: Path, place: str) -> None:
    """No name, a folder, no such folder, a file for a folder, no such user: the line says what to do."""
    (tmp_path / "file").write_text("x")
    with pytest.raises(NotPossible, match="name") as caught:
        write_calendar(place.format(tmp_path), OURS)
    assert "\n" not in str(caught.value)
    assert [one.name for one in tmp_path.iterdir()] == ["file"]


def test_a_name_far_too_long_is_one_line(tmp_path: Path) -> None:
    with pytest.raises(NotPossible, match="cannot be written"):
        write_calendar(str(tmp_path / ("x" * 300)), OURS)
