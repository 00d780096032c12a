"""A command as somebody types it, run within the tests' own process."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from tallybed.cli import main


def run(*words: str | Path) -> Result:
    """Run a command of these words, with nobody to answer it."""
    return CliRunner().invoke(main, [str(word) for word in words], catch_exceptions=False)
