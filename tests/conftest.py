"""The demonstration garden's site, built once in a run for every test that looks at it."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from tallybed.publishing.swap.disk import BusyError, alone
from tallybed.tasks.build import build
from tests.tools import ROOT


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """The demonstration garden's site, built from ``content/``; nobody writes to it.

    Of the processes that share the tests out, the first to ask builds it and the others wait.
    """
    folder = tmp_path_factory.getbasetemp()
    if worker_id != "master":
        folder = folder.parent  # the run's own folder, which all of them share
    site = folder / "demonstration" / "site"
    site.parent.mkdir(exist_ok=True)
    while not site.exists():
        try:
            with alone(folder / "demonstration.lock"):
                if not site.exists():
                    assert build(ROOT, site).good
        except BusyError:
            time.sleep(0.2)
    return site
