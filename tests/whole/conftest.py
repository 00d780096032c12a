"""The demonstration garden, built once for every test here."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.building import build

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration garden's site, built from ``content/``."""
    target = tmp_path_factory.mktemp("demo") / "site"
    built = build(ROOT, target)
    assert built.good
    return target


@pytest.fixture(scope="session")
def pages(demo: Path) -> dict[str, BeautifulSoup]:
    """Every page of that site, parsed, by its path within the site."""
    return {
        str(path.relative_to(demo).as_posix()): BeautifulSoup(path.read_bytes(), "lxml")
        for path in _html(demo)
    }


def _html(site: Path) -> Iterator[Path]:
    yield from sorted(site.rglob("*.html"))
