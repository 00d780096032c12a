"""How commands tell what is wrong or doubtful, and end where the content has errors."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Sequence

import click

from tallybed.commands.terminal import printable
from tallybed.garden.findings import Finding, Severity, has_errors, worded

CONTENT_ERRORS = 1
"""The exit code of a command that content kept from its work."""


def print_findings(findings: Iterable[Finding], *, quiet: bool = False) -> None:
    """Print findings where errors are read; ``quiet`` leaves errors alone."""
    for finding in findings:
        if not quiet or finding.severity is Severity.ERROR:
            click.echo(printable(worded(finding)), err=True)


def counted(findings: Iterable[Finding]) -> str:
    """Return ``2 errors, 1 warning``."""
    counts = Counter(finding.severity for finding in findings)
    if not counts:
        return "Nothing to mend"
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
        print_findings(findings, quiet=True)
        click.echo(f"{counted(findings)}.", err=True)
        sys.exit(CONTENT_ERRORS)
