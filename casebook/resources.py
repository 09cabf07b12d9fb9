"""Where the data that comes with the program lies: rule packs, demo cases, published tables.

In a built wheel `rules/` and `demo_cases/` are carried inside the package; in an editable install they
are the folders at the top of the repository.
"""

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


def folder(name: str) -> Traversable:
    """Give the folder `name` (``rules`` or ``demo_cases``) of this installation.

    Raises:
        FileNotFoundError: the installation carries no such folder.
    """
    packed = files("casebook") / "_data" / name
    if packed.is_dir():
        return packed
    beside = Path(__file__).resolve().parent.parent / name
    if beside.is_dir():
        return beside
    raise FileNotFoundError(f"this installation carries no folder {name!r}: install casebook again")


def yaml_files(place: Traversable) -> list[Traversable]:
    """List the YAML files directly in `place`, by name."""
    return sorted(
        (entry for entry in place.iterdir() if entry.is_file() and entry.name.endswith((".yaml", ".yml"))),
        key=lambda entry: entry.name,
    )
