"""The demonstration garden's site, built once for every test that looks at it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.tasks.build import build
from tests.tools import ROOT


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration garden's site, built from ``content/``."""
    target = tmp_path_factory.mktemp("demo") / "site"
    built = build(ROOT, target)
    assert built.good
    return target
