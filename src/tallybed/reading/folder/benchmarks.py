"""The figures of other gardens that come with the package: ``library/benchmarks.yaml``."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from tallybed.reading.folder.library import FOLDER, read_page
from tallybed.reading.shapes.benchmarks import Benchmarks, benchmarks


@cache
def load_benchmarks() -> Benchmarks:
    """Return the figures of the package, read once. Raises LibraryError."""
    return read_benchmarks(FOLDER / "benchmarks.yaml")


def read_benchmarks(page: Path) -> Benchmarks:
    """Read figures from a file. Raises LibraryError with the first problem found in it."""
    return read_page(page, benchmarks)
