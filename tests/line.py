"""The command line as a script sees it: words in, status, output and complaints out."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from casebook.commands.line import run


@dataclass(frozen=True)
class Said:
    """What one command line left behind."""

    status: int
    out: str
    err: str

    @property
    def data(self) -> Any:
        """The output as JSON."""
        return json.loads(self.out)

    def one_line(self) -> str:
        """The complaint, which must be a single line."""
        assert self.err.count("\n") == 1, self.err
        assert "Traceback" not in self.err
        return self.err


Casebook = Callable[..., Said]


@pytest.fixture
def casebook(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Casebook:
    """Run a command line on a book of its own."""
    monkeypatch.setenv("CASEBOOK_BOOK", str(tmp_path / "book.db"))
    monkeypatch.delenv("CASEBOOK_PACKS", raising=False)
    monkeypatch.delenv("CASEBOOK_SHOP", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.delenv("CASEBOOK_DEBUG", raising=False)

    def call(*words: str) -> Said:
        capsys.readouterr()
        status = run(words)
        out, err = capsys.readouterr()
        return Said(status, out, err)

    return call


@pytest.fixture
def write(tmp_path: Path) -> Callable[[str, str], str]:
    """Write an input file and give its path."""

    def writing(name: str, text: str) -> str:
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return str(path)

    return writing
