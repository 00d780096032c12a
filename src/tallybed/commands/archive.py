"""``tallybed archive``: a season in one file that opens without the web."""

from __future__ import annotations

from pathlib import Path

import click

from tallybed.commands.telling import end_on_errors
from tallybed.commands.terminal import printable
from tallybed.tasks import bulletin


@click.command()
@click.argument("season")
@click.argument("folder", type=click.Path(path_type=Path), default=".")
@click.option(
    "--to", type=click.Path(path_type=Path), metavar="FILE", help="The file to write [FOLDER/SEASON.zip]."
)
@click.option("--replace", is_flag=True, help="Write over the file, if it is there.")
def archive(season: str, folder: Path, to: Path | None, replace: bool) -> None:
    """Put SEASON, such as 2026, of the garden in FOLDER into one file that opens without the web."""
    done = bulletin.archive_season(folder, season, to, replace=replace)
    end_on_errors(done.findings)
    megabytes = f"{done.bytes / 1_000_000:.1f}"
    click.echo(printable(f"{done.files} files, {megabytes} MB, written to {done.path}."))
