"""The tables of what stands around a damage; their columns are named as the fields of the flat values."""

from __future__ import annotations

from datetime import date

from sqlalchemy import CheckConstraint
from sqlmodel import Field

from casebook.records.tables import Row, part_of
from casebook.records.workshop import SAID, WAITS_FOR


class WaitRecord(Row, table=True):
    """A job that waits, or waited."""

    __tablename__ = "waits"
    __table_args__ = (CheckConstraint(f"what IN {WAITS_FOR}", "what_is_known"),)
    id: int | None = Field(default=None, primary_key=True)
    case_id: int = part_of("cases")
    what: str
    since: date | None = None
    until: date | None = None
    at: str = ""
    ended: date | None = None
    damage: int = 0
    note: str = ""


class WoodReadingRecord(Row, table=True):
    """A dated reading of wood; `widths` is the JSON text of a list."""

    __tablename__ = "wood_readings"
    id: int | None = Field(default=None, primary_key=True)
    case_id: int = part_of("cases")
    read_on: date | None = None
    part: str = ""
    weight: str = ""
    humidity: str = ""
    widths: str = "[]"
    note: str = ""


class ConfirmedRecord(Row, table=True):
    """A danger that somebody read and confirmed."""

    __tablename__ = "dangers_confirmed"
    id: int | None = Field(default=None, primary_key=True)
    case_id: int = part_of("cases")
    caution: str
    confirmed_on: date | None = None
    by: str = ""


class ConsentRecord(Row, table=True):
    """What somebody said to work on a damage."""

    __tablename__ = "consents"
    __table_args__ = (CheckConstraint(f"said IN {SAID}", "said_is_known"),)
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages")
    said: str
    given_on: date | None = None
    who: str = ""
    how: str = ""
    up_to: str = ""
    to_what: str = ""
    pays: str = ""
    note: str = ""


class DepartureRecord(Row, table=True):
    """What was done otherwise than planned."""

    __tablename__ = "departures"
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages")
    planned: str
    did: str = ""
    why: str = ""


class BeforeAfterRecord(Row, table=True):
    """A reading before and after the work."""

    __tablename__ = "readings_before_after"
    id: int | None = Field(default=None, primary_key=True)
    damage_id: int = part_of("damages")
    what: str
    before: str = ""
    after: str = ""
    note: str = ""
