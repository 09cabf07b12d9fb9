"""The built wheel carries rules and demo cases, nothing stray, and works from another folder."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from casebook.resources import folder, yaml_files

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel once."""
    out = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(out), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True)
    return next(out.glob("*.whl"))


def test_it_carries_the_data_and_nothing_stray(wheel: Path) -> None:
    """Every rule pack, demo case and table; only the kinds of file that belong there."""
    names = zipfile.ZipFile(wheel).namelist()
    for part in ("rules", "demo_cases"):
        for file in yaml_files(folder(part)):
            assert f"casebook/_data/{part}/{file.name}" in names
    strays = [
        name for name in names
        if not name.endswith((".py", ".yaml", ".tcss", ".mako")) and ".dist-info/" not in name
    ]  # fmt: skip
    assert strays == []
    assert not any(name.startswith("tests/") for name in names)


def test_it_works_installed_elsewhere(wheel: Path, tmp_path: Path) -> None:
    """Unpacked into a folder of its own and run from another one, it knows its packs and its demo."""
    site = tmp_path / "site"
    zipfile.ZipFile(wheel).extractall(site)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    env = {**os.environ, "PYTHONPATH": str(site)}

    def run(*words: str) -> str:
        command = [sys.executable, "-m", "casebook", *words]
        done = subprocess.run(
            command,
            cwd=elsewhere,
            env=env,
            capture_output=True,
            text=True,
            stdin=subprocess.DEVNULL,
            check=True,
        )
        return done.stdout

    where = "import casebook; print(casebook.__file__)"
    found = subprocess.run(
        [sys.executable, "-c", where], cwd=elsewhere, env=env, capture_output=True, text=True, check=True
    )
    assert found.stdout.strip().startswith(str(site))
    assert "posts" in run("packs")
    assert "Its like in the past" in run("demo")


def test_the_editable_install_finds_the_folders_at_the_top() -> None:
    """While one works on it, rules/ and demo_cases/ are those of the repository."""
    if (Path(str(folder("rules"))).resolve()) != ROOT / "rules":
        pytest.skip("not an editable install")
    assert Path(str(folder("demo_cases"))).resolve() == ROOT / "demo_cases"
