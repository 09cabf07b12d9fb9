"""The JSON Schema that editors check packs with, held to a reference validator and a YAML 1.2 reader.

Validator: `jsonschema` (draft 2020-12). Reader: `ruamel.yaml`, which reads YAML 1.2, as editors do: there yes and
no are text, and 65 is a number.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from casebook.guide.pack_file import read_pack
from casebook.guide.pack_shape import json_schema
from casebook.strict_yaml import BrokenFile
from tests.guide.shipped import packs

SMALL = (Path(__file__).parent / "small_pack.yaml").read_text(encoding="utf-8")


def _complaints(text: str) -> list[str]:
    """Read a pack as an editor does and list what the schema holds against it."""
    node: Any = YAML(typ="safe", pure=True).load(text)
    return [error.message for error in Draft202012Validator(json_schema()).iter_errors(node)]


def test_the_schema_is_a_schema() -> None:
    """It holds to the draft it names, so that any editor can use it."""
    schema = json_schema()
    assert schema["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("family", list(packs()))
def test_editors_accept_every_shipped_pack(family: str) -> None:
    """No red line under a pack that is right."""
    assert _complaints(packs()[family].text) == []


def test_editors_accept_the_small_pack() -> None:
    """The pack of the contributor's guide is right in an editor too."""
    assert _complaints(SMALL) == []


WRONG = [
    ("a key spelt wrong", "    kind: yes_no", "    kidn: yes_no"),
    ("a word that is none of the few", "stage: part", "stage: later"),
    ("a part left out", "title: Stands\n", "\n"),
    ("an id with capitals", "  stand_wobbles:", "  Stand_Wobbles:"),
    ("a number as text", "{low: 0.1,", "{low: a little,"),
    ("a list where one text is wanted", "scope: The", "scope: [The]\nold_scope: The"),
    ("a time that waits for nothing known", "{what: cure,", "{what: luck,"),
]


@pytest.mark.parametrize(("before", "after"), [row[1:] for row in WRONG], ids=[row[0] for row in WRONG])
def test_editors_and_reader_refuse_the_same(before: str, after: str) -> None:
    """What the reader refuses by its shape, the editor underlines while one types."""
    text = SMALL.replace(before, after, 1)
    assert text != SMALL
    assert _complaints(text) != []
    with pytest.raises(BrokenFile):
        read_pack(text, "mine.yaml")
