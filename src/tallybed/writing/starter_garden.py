"""A new garden folder, with examples to write over."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from tallybed.publishing.swap import disk
from tallybed.publishing.swap.refused import RefusedError

_YEAR = "YEAR"
"""What stands for the year in the examples, in their text and in their names."""


def start(folder: Path, year: int) -> tuple[Path, ...]:
    """Write a garden whose first season is ``year`` into a new or empty folder; return the files written.

    Raises RefusedError where something lies in the folder, OSError where the machine fails.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise RefusedError(f"{folder} exists already and is not empty; name a new folder")
    new = not folder.exists()
    try:
        return tuple(_write(folder, year))
    except BaseException:
        # Half a garden would be in the way of the next try; nothing else can lie in that folder.
        with suppress(OSError):
            for made in folder.iterdir():
                disk.remove(made)
            if new:
                folder.rmdir()
        raise


def _write(folder: Path, year: int) -> Iterator[Path]:
    """Write the example files; yield each that is there."""
    for name, text in _examples(files("tallybed.writing") / "starter"):
        path = folder / name.replace(_YEAR, str(year))
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text.replace(_YEAR, str(year)), encoding="utf-8", newline="\n")
        yield path


def _examples(folder: Traversable, above: str = "") -> list[tuple[str, str]]:
    """Return the example files below a folder, each with its path and text, in order."""
    found: list[tuple[str, str]] = []
    for item in sorted(folder.iterdir(), key=lambda item: item.name):
        name = f"{above}{item.name}"
        if item.is_dir():
            found += _examples(item, f"{name}/")
        else:
            found.append((name, item.read_text(encoding="utf-8")))
    return found
