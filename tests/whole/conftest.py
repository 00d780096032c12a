"""The pages of the demonstration garden's site, each parsed once for every test here."""

from __future__ import annotations

from pathlib import Path

import pytest
from lxml.html import HtmlElement, document_fromstring

from tallybed.publishing.assets import layouts
from tallybed.publishing.rendering import Rendering
from tests.pages.gardens import Parsed, leads_on


@pytest.fixture(scope="session")
def texts(demo: Path) -> dict[str, str]:
    """Every page of that site by its path within the site, but for addresses that only lead on."""
    every = {
        path.relative_to(demo).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(demo.rglob("*.html"))
    }
    return {path: text for path, text in every.items() if not leads_on(text)}


@pytest.fixture(scope="session")
def pages(texts: dict[str, str]) -> Parsed:
    """The same pages, each parsed when it is first asked for."""
    return Parsed(texts)


@pytest.fixture(scope="session")
def trees(texts: dict[str, str]) -> dict[str, HtmlElement]:
    """The same pages as bare trees, in a twentieth of the time, for tests that go through them all."""
    return {path: document_fromstring(text) for path, text in texts.items()}


@pytest.fixture(scope="session")
def rendering(tmp_path_factory: pytest.TempPathFactory) -> Rendering:
    """What lays pages out by the templates that come with the package."""
    return Rendering(layouts(tmp_path_factory.mktemp("layouts")))
