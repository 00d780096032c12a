"""The figures of other gardens that come with the package: ``library/benchmarks.yaml``."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from tallybed.reading.folder.library import read_page
from tallybed.reading.shapes.benchmarks import Benchmarks, benchmarks


@cache
def load_benchmarks() -> Benchmarks:
    """Return the figures of the package, read once. Raises LibraryError."""
    return read_benchmarks(files("tallybed") / "library" / "benchmarks.yaml")


def read_benchmarks(page: Traversable) -> Benchmarks:
    """Read figures from a file. Raises LibraryError with the first problem found in it."""
    return read_page(page, benchmarks)
