"""The pages of the demonstration garden's site, parsed once for every test here."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup


@pytest.fixture(scope="session")
def pages(demo: Path) -> dict[str, BeautifulSoup]:
    """Every page of that site, parsed, by its path within the site."""
    return {
        str(path.relative_to(demo).as_posix()): BeautifulSoup(path.read_bytes(), "lxml")
        for path in _html(demo)
    }


def _html(site: Path) -> Iterator[Path]:
    yield from sorted(site.rglob("*.html"))
