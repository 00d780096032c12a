"""``tallybed sun``: hours of direct sun over a bed."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from tallybed.commands.screen.options import folder_option
from tallybed.commands.screen.telling import end_on_errors
from tallybed.commands.screen.terminal import day, print_file
from tallybed.tasks.sun import sun_sheet


@click.command()
@click.argument("bed", default="")
@folder_option
@click.option("--month", metavar="MONTH", default="", help="A month of a season, such as 2026-06 [this one].")
@click.option("--on", "on", type=day, metavar="DATE", help="One day instead, such as 2026-06-21.")
@click.option("--csv", "spreadsheet", is_flag=True, help="Print comma-separated values, one row per square.")
@click.option("--better", is_flag=True, help="Look for two plantings that should change places.")
def sun(bed: str, folder: Path, month: str, on: date | None, spreadsheet: bool, better: bool) -> None:
    """Tell the hours of direct sun in each square of BED, and what they are lost to.

    A garden's only bed need not be named.
    """
    answer = sun_sheet(folder, bed, month=month, on=on, spreadsheet=spreadsheet, better=better)
    end_on_errors(answer.findings)
    print_file(answer.text)
