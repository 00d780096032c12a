"""``tallybed writeup``: a new log entry, opened to write."""

from __future__ import annotations

import os
import sys
from datetime import date
from pathlib import Path

import click

from tallybed.commands.screen import terminal
from tallybed.commands.screen.options import folder_option
from tallybed.commands.screen.telling import CONTENT_ERRORS, MACHINE_TROUBLE, complain, print_findings
from tallybed.commands.screen.terminal import say
from tallybed.garden.days import in_full
from tallybed.garden.findings import has_errors
from tallybed.tasks import writeup as writing


@click.command()
@click.argument("title")
@folder_option
@click.option("--date", "when", type=terminal.day, metavar="DATE", help="Day of the visit [today].")
@click.option(
    "--photos",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    metavar="DIR",
    help="Folder in which to look for photographs taken that day; they are copied.",
)
@click.option("--no-editor", is_flag=True, help="Write the file without opening it.")
def writeup(title: str, folder: Path, when: date | None, photos: Path | None, no_editor: bool) -> None:
    """Begin a log entry called TITLE, with the jobs that are due, and open it to write."""
    when = when or terminal.today()
    written = writing.write_up(folder, title, when, photos)
    say(f"{written.path} is ready to be written.")
    if photos is not None:
        say(f"Photographs of {in_full(when)}: {', '.join(written.photographs) or 'none found'}.")
    if written.undated:
        say(f"Not copied, because they do not say their day: {', '.join(written.undated)}.")
    if written.unread:
        many = f", and {len(written.unread) - 1} more like it" if len(written.unread) > 1 else ""
        say(f"Not looked at: {written.unread[0]}{many}; to show one of them, save it as JPEG.")
    # Without a terminal an editor that nobody chose would wait for ever.
    if no_editor or not (sys.stdin.isatty() or {"VISUAL", "EDITOR"} & set(os.environ)):
        return
    try:
        click.edit(filename=str(written.path))
    except click.ClickException as error:
        complain(f"{error.message}; open {written.path} yourself")
        sys.exit(MACHINE_TROUBLE)
    findings = writing.findings_in(folder, written.path)
    print_findings(findings)
    if has_errors(findings):
        sys.exit(CONTENT_ERRORS)
