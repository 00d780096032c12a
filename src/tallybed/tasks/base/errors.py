"""What ends a command with a sentence. Apart from the tasks, since the command line itself knows these."""

from __future__ import annotations

from tallybed.garden.findings import Finding


class UsageError(Exception):
    """The command was asked for something that makes no sense; the message says what to do."""


class BrokenError(UsageError):
    """The garden's own file cannot be understood, so that nothing can be done with it."""

    def __init__(self, file: str, errors: tuple[Finding, ...]) -> None:
        super().__init__(f"{file} cannot be understood")
        self.errors = errors
        """Every error in the content, sorted by place."""
