"""``tallybed seeds``: what a plan needs before it begins."""

from __future__ import annotations

from pathlib import Path

import click

from tallybed.commands.screen.options import folder_argument
from tallybed.commands.screen.telling import end_on_errors
from tallybed.commands.screen.terminal import print_file
from tallybed.tasks.seeds import seed_list


@click.command()
@folder_argument
@click.option(
    "--season", metavar="YEAR", default="", help="Season, by its folder's name [the one under way]."
)
@click.option("--csv", "spreadsheet", is_flag=True, help="Print comma-separated values for a spreadsheet.")
def seeds(folder: Path, season: str, spreadsheet: bool) -> None:
    """List the seeds, plants and supports that a plan of the garden in FOLDER needs."""
    answer = seed_list(folder, season=season, spreadsheet=spreadsheet)
    end_on_errors(answer.findings)
    print_file(answer.text)
