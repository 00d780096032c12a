"""``tallybed marks``: how to mark out a bed."""

from __future__ import annotations

from pathlib import Path

import click

from tallybed.commands.screen.options import folder_option
from tallybed.commands.screen.telling import end_on_errors
from tallybed.commands.screen.terminal import print_file
from tallybed.tasks.marks import marking_sheet


@click.command()
@click.argument("bed", default="")
@folder_option
@click.option("--depth", metavar="LENGTH", default="", help="Depth to fill the bed to, such as '6 in'.")
@click.option(
    "--bag", "bags", metavar="SIZE", multiple=True, help="Size of a bag, such as '1.5 cu ft' or '40 L'."
)
def marks(bed: str, folder: Path, depth: str, bags: tuple[str, ...]) -> None:
    """Tell how to mark out BED: stakes, marks, lines, twine, and what fills it.

    A garden's only bed need not be named.
    """
    answer = marking_sheet(folder, bed, depth=depth, bags=bags)
    end_on_errors(answer.findings)
    print_file(answer.text)
