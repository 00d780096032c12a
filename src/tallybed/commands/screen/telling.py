"""How commands tell what is wrong or doubtful, and with which number they end."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Sequence

import click

from tallybed.commands.screen.terminal import printable
from tallybed.garden.findings import Finding, Severity, has_errors, worded

CONTENT_ERRORS, WRONG_USAGE, MACHINE_TROUBLE = 1, 2, 3
"""The exit codes of a command that content, its own words or the machine kept from its work."""
STOPPED = 130
"""What a shell gives a command that Ctrl-C ended: 128 and the signal's number."""


def complain(text: str) -> None:
    """Print why a command cannot do its work."""
    click.echo(printable(f"tallybed: {text}"), err=True)


def kept_back(findings: Sequence[Finding]) -> str:
    """Return as a sentence how much advice on closed seasons is not told; empty for none."""
    number = sum(finding.settled for finding in findings)
    if not number:
        return ""
    pieces = "One more piece" if number == 1 else f"{number} more pieces"
    return f"{pieces} of advice on closed seasons: tallybed check --all."


def print_findings(findings: Iterable[Finding], *, quiet: bool = False) -> None:
    """Print findings where errors are read; ``quiet`` leaves out all but errors."""
    for finding in findings:
        if not quiet or finding.severity is Severity.ERROR:
            click.echo(printable(worded(finding)), err=True)


def counted(findings: Iterable[Finding]) -> str:
    """Return ``2 errors, 1 warning``."""
    counts = Counter(finding.severity for finding in findings)
    if not counts:
        return "Nothing to correct"
    words = {
        Severity.ERROR: ("error", "errors"),
        Severity.WARNING: ("warning", "warnings"),
        Severity.ADVICE: ("piece of advice", "pieces of advice"),
    }
    return ", ".join(
        f"{counts[severity]} {one if counts[severity] == 1 else many}"
        for severity, (one, many) in words.items()
        if counts[severity]
    )


def tell_errors(errors: Sequence[Finding]) -> None:
    """Print errors that do not end the command, and what follows from them."""
    if errors:
        print_findings(errors)
        click.echo(f"{counted(errors)}: what cannot be understood is not counted here.", err=True)


def end_on_errors(findings: Sequence[Finding]) -> None:
    """Print the errors among findings and end the command, if there are any."""
    if has_errors(findings):
        errors = [finding for finding in findings if finding.severity is Severity.ERROR]
        print_findings(errors)
        click.echo(f"{counted(errors)}.", err=True)
        sys.exit(CONTENT_ERRORS)
