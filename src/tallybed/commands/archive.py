"""``tallybed archive``: a season in one file that opens without the web."""

from __future__ import annotations

from pathlib import Path

import click

from tallybed.commands.screen.options import PATH, folder_argument
from tallybed.commands.screen.telling import end_on_errors
from tallybed.commands.screen.terminal import say
from tallybed.tasks import archive as archiving


@click.command()
@click.argument("season")
@folder_argument
@click.option("--to", type=PATH, metavar="FILE", help="The file to write [FOLDER/SEASON.zip].")
@click.option("--replace", is_flag=True, help="Overwrite the file, if it exists.")
def archive(season: str, folder: Path, to: Path | None, replace: bool) -> None:
    """Put SEASON, such as 2026, of the garden in FOLDER into one file that opens without the web."""
    done = archiving.archive(folder, season, to, replace=replace)
    end_on_errors(done.findings)
    megabytes = f"{done.bytes / 1_000_000:.1f}"
    say(f"{done.files} files, {megabytes} MB, written to {done.path}.")
