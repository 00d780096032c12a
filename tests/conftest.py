"""The demonstration garden's site, built once in a run for every test that looks at it."""

from __future__ import annotations

import gc
import os
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

from tallybed.publishing.swap import disk
from tests.tools import ROOT

if TYPE_CHECKING:
    from tallybed.reckoning.year import Years

FIRST = (
    "proof/test_access.py",
    "tasks/test_take_in.py",
    "proof/",
    "whole/",
    "tasks/",
    "commands/",
    "server/",
)
"""What takes longest is shared out first, so that at the end no process waits long for another.

The first two begin at once, one in each of two processes; the second needs no demonstration.
"""
_UNHURRIED = {"deadline": None, "suppress_health_check": (HealthCheck.too_slow,)}
"""How long a machine takes says nothing of what a law is to show: it may be busy."""
settings.register_profile("gate", **_UNHURRIED)
settings.register_profile("desk", max_examples=10, **_UNHURRIED)
settings.load_profile("gate" if os.environ.get("CI") else "desk")
"""A law is tried on a hundred examples in the gate (``CI=true``), on ten by who changes something."""
gc.set_threshold(50_000, 20, 100)
"""As a command has it: what tests make goes of itself, and looking for what does not took a tenth of them."""
FEW = (
    *("bean-bush", "bean-pole", "beet", "carrot", "chard", "garlic", "kale", "leek", "lettuce-leaf", "okra"),
    *("onion-bulb", "pea-snap", "radish", "spinach"),
)
"""Crops of the small gardens."""
BROWSERS = frozenset({"chromium", "context", "firefox", "webkit"})
"""Fixtures that start a browser."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the tests that need a browser, and put the long ones first."""
    for item in items:
        if BROWSERS & set(getattr(item, "fixturenames", ())):
            item.add_marker("browser")
    items.sort(key=lambda item: _turn(item.path.relative_to(ROOT / "tests").as_posix()))


def _turn(file: str) -> int:
    return next((place for place, begin in enumerate(FIRST) if file.startswith(begin)), len(FIRST))


@pytest.fixture(scope="session", autouse=True)
def unhurried_disk() -> Iterator[None]:
    """Let nobody wait for the disk; commands in processes of their own do."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(disk, "flush_file", lambda _path: None)
        patch.setattr(disk, "flush_folder", lambda _path: None)
        yield


@pytest.fixture(scope="module")
def few_crops(request: pytest.FixtureRequest) -> Iterator[None]:
    """Know the crops of the module's ``KNOWN_CROPS`` alone, or those of the small gardens.

    A site has a page for each crop it knows, which is most of a small garden's.
    """
    from tallybed.garden.naming import Names
    from tallybed.reading.folder import garden_folder
    from tallybed.reading.folder.library import Library, load_library

    whole = load_library()
    crops = {slug: whole.crops[slug] for slug in sorted(getattr(request.module, "KNOWN_CROPS", FEW))}
    some = Library(crops=crops, sources=whole.sources, names=Names.of(crops.values()))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(garden_folder, "load_library", lambda: some)
        yield


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """A new garden, as ``tallybed start`` makes it."""
    from tallybed.writing.starter_garden import start

    start(tmp_path / "garden", 2026)
    return tmp_path / "garden"


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """The demonstration garden's site, built from ``content/``; nobody writes to it.

    Of the processes that share the tests out, the first to ask builds it and the others wait. What builds
    it is loaded here, since it takes longer than most files of tests, which have no use for it.
    """
    from tallybed.tasks.build import build

    folder = tmp_path_factory.getbasetemp()
    if worker_id != "master":
        folder = folder.parent  # the run's own folder, which all of them share
    site = folder / "demonstration" / "site"
    site.parent.mkdir(exist_ok=True)
    while not site.exists():
        try:
            with disk.alone(folder / "demonstration.lock"):
                if not site.exists():
                    assert build(ROOT, site).good
        except disk.BusyError:
            time.sleep(0.2)
    return site


@pytest.fixture(scope="session")
def the_demo() -> Years:
    """What follows from the demonstration garden's records; loaded here, as what builds it is."""
    from tests.demonstration import demo_years

    return demo_years()
