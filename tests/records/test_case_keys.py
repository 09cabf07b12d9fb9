"""The list of keys of a case file is the whole list: every field that is written has its key there."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import pytest

from casebook.records import case_keys
from casebook.records.case import FollowUp, Measured, StepDone
from casebook.records.flat import key_of
from casebook.records.workshop import (
    BeforeAfter,
    Confirmed,
    Consent,
    Departure,
    Visit,
    Wait,
    WoodReading,
)


@pytest.mark.parametrize(
    ("kind", "keys"),
    [
        (StepDone, case_keys.STEP),
        (Measured, case_keys.MEASURED),
        (FollowUp, case_keys.FOLLOW_UP),
        (Wait, case_keys.WAIT),
        (WoodReading, case_keys.WOOD_READING),
        (Consent, case_keys.CONSENT),
        (Departure, case_keys.DEPARTURE),
        (BeforeAfter, case_keys.BEFORE_AFTER),
        (Confirmed, case_keys.CONFIRMED),
    ],
)
def test_every_field_has_its_key_and_every_key_its_field(kind: type[Any], keys: dict[str, str]) -> None:
    assert {key_of(field) for field in fields(kind)} == set(keys)


def test_the_fields_of_a_visit_are_keys_of_the_case() -> None:
    assert {field.name for field in fields(Visit)} <= set(case_keys.CASE)
