"""``tallybed check``: all that is wrong or doubtful in a garden."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from tallybed.commands.screen.options import as_of_option, folder_argument
from tallybed.commands.screen.telling import CONTENT_ERRORS, counted, kept_back, print_findings
from tallybed.garden.findings import has_errors, unsettled
from tallybed.tasks import check as checking


@click.command()
@folder_argument
@as_of_option
@click.option(
    "--library", is_flag=True, help="Tell what the crop library's figures rest on, and nothing else."
)
@click.option("--all", "every", is_flag=True, help="Tell the advice on closed seasons too.")
def check(folder: Path, as_of: date | None, library: bool, every: bool) -> None:
    """List what is wrong or doubtful in the garden in FOLDER, without writing a site."""
    if library and (every or as_of):
        raise click.UsageError("use --library without --all and --as-of: it tells of no garden")
    if library:
        click.echo(checking.library_kinds(), nl=False)
        return
    findings = checking.check(folder, as_of=as_of)
    shown = findings if every else unsettled(findings)
    print_findings(shown)
    click.echo(" ".join(filter(None, [f"{counted(shown)}.", "" if every else kept_back(findings)])))
    if has_errors(findings):
        sys.exit(CONTENT_ERRORS)
