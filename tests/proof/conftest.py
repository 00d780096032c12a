"""The built site in a real browser: one page of every kind, opened from the folder it lies in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright

from tallybed.pages.frame.addresses import NOT_FOUND
from tests import tools
from tests.pages.gardens import leads_on

KIND = re.compile(r'<body class="([a-z-]+)"')


@pytest.fixture(scope="session")
def samples(demo: Path) -> dict[str, Path]:
    """The largest page of every kind, by kind: the frame writes the kind on the body.

    Without the one that only a server shows: what it needs lies at the top of a host.
    """
    found: dict[str, Path] = {}
    for path in sorted(set(demo.rglob("*.html")) - {demo / NOT_FOUND}):
        text = path.read_text(encoding="utf-8")
        if leads_on(text):
            continue
        kind = KIND.search(text)
        assert kind, f"{path.relative_to(demo)} does not say what kind of page it is"
        if kind[1] not in found or path.stat().st_size > found[kind[1]].stat().st_size:
            found[kind[1]] = path
    assert {"home", "bed-month", "tally", "crop", "entry", "leaf"} <= set(found)
    return found


@pytest.fixture(scope="package")
def driver() -> Iterator[Playwright]:
    """What drives browsers."""
    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="package")
def chromium(driver: Playwright) -> Iterator[Browser]:
    """The machine's own browser, without a window."""
    browser = driver.chromium.launch(executable_path=tools.browser(), args=list(tools.SWITCHES))
    yield browser
    browser.close()


@pytest.fixture(scope="package")
def unpainted(driver: Playwright) -> Iterator[Browser]:
    """The same, for pages that are measured or printed alone."""
    browser = driver.chromium.launch(executable_path=tools.browser(), args=[*tools.SWITCHES, tools.UNPAINTED])
    yield browser
    browser.close()


@pytest.fixture
def scripted() -> bool:
    """Whether pages may run script, as some tools do; a module that proves that none is needed says no."""
    return True


@pytest.fixture
def painted() -> bool:
    """Whether pages are painted; a test that clicks, or looks at a picture of a page, says yes."""
    return False


@pytest.fixture
def context(request: pytest.FixtureRequest, scripted: bool, painted: bool) -> Iterator[BrowserContext]:
    """A fresh profile, in which no page may complain or ask another machine for anything."""
    browser: Browser = request.getfixturevalue("chromium" if painted else "unpainted")
    context = browser.new_context(
        viewport={"width": 1280, "height": 900}, reduced_motion="reduce", java_script_enabled=scripted
    )
    context.set_default_timeout(15_000)
    complaints = watched(context)
    yield context
    context.close()
    assert complaints == []


@pytest.fixture
def tab(context: BrowserContext) -> Page:
    """A page to open things in."""
    return context.new_page()


def watched(context: BrowserContext) -> list[str]:
    """Return the list to which whatever goes wrong in any page of a profile is added as it happens."""
    complaints: list[str] = []
    context.on("request", lambda asked: _noted(complaints, asked.url))
    context.on("requestfailed", lambda asked: _unless_left(complaints, asked.url, asked.failure or ""))
    context.on("weberror", lambda error: complaints.append(f"error: {error.error}"))
    context.on(
        "console",
        lambda said: complaints.append(said.text) if said.type in ("error", "warning") else None,
    )
    return complaints


def _noted(complaints: list[str], url: str) -> None:
    if not url.startswith(("file:", "data:")):
        complaints.append(f"asked for {url}")


def _unless_left(complaints: list[str], url: str, why: str) -> None:
    """Note a failed request, unless the test itself left the page before it was answered."""
    if "ERR_ABORTED" not in why:
        complaints.append(f"not there: {url} ({why})")
