"""A missing tool skips a test on a person's machine and fails it under CI."""

from __future__ import annotations

import sys

import pytest

from tests import tools


def test_a_missing_tool_skips(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("CI", raising=False)
    with pytest.raises(pytest.skip.Exception, match="no-such-program is missing: build one"):
        tools.program("no-such-program", remedy="build one")


def test_a_missing_tool_fails_under_ci(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match="no-such-program is missing"):
        tools.program("no-such-program", remedy="build one")
    with pytest.raises(pytest.fail.Exception, match="nothing/at-all is missing"):
        tools.packaged("nothing", "at-all")


def test_the_browser_can_be_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CHROMIUM", sys.executable)
    assert tools.browser() == sys.executable
    monkeypatch.setenv("CHROMIUM", "/no/such/browser")
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception):
        tools.browser()
