"""``tallybed start``: a new garden folder."""

from __future__ import annotations

from pathlib import Path

import click

from tallybed.commands.screen import terminal
from tallybed.commands.screen.options import PATH
from tallybed.tasks import start as starting


def _this_year() -> int:
    """Return the year of today."""
    return terminal.today().year


@click.command()
@click.argument("folder", type=PATH)
@click.option(
    "--year",
    type=click.IntRange(1900, 2999),
    metavar="YEAR",
    help="Year of the first season [this year].",
    default=_this_year,
)
def start(folder: Path, year: int) -> None:
    """Make a new garden FOLDER with examples to write over."""
    starting.start(folder, year)
    then = terminal.typed("tallybed", "preview", folder)
    terminal.say(f"{folder} is ready. Next: read {folder / 'README.txt'}, then run: {then}")
