"""``tallybed bulletin``: what a week gave, in under 120 words to read out or to paste."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from tallybed.commands.screen.options import PATH, as_of_option, folder_argument
from tallybed.commands.screen.telling import end_on_errors
from tallybed.commands.screen.terminal import printable
from tallybed.garden.days import FIRST_YEAR, LAST_YEAR, Week
from tallybed.tasks import bulletin as telling


def week(text: str) -> Week:
    """Return an ISO 8601 week from ``2026-W31``, or from a day in it."""
    try:
        found = Week.of(date.fromisoformat(text))
    except ValueError:
        raise click.BadParameter(f"{text!r} is not a week such as 2026-W31") from None
    if not FIRST_YEAR <= found.year <= LAST_YEAR:
        raise click.BadParameter(f"{text!r} is not a week of the years {FIRST_YEAR} to {LAST_YEAR}")
    return found


@click.command()
@folder_argument
@click.option(
    "--week", "asked", type=week, metavar="WEEK", help="Week, such as 2026-W31 [that of the newest record]."
)
@click.option("--html", is_flag=True, help="Print it as HTML for a mail.")
@click.option("--picture", type=PATH, metavar="FILE", help="Draw a picture of it to a PNG file.")
@click.option("--replace", is_flag=True, help="Overwrite the picture's file, if it exists.")
@as_of_option
def bulletin(
    folder: Path, asked: Week | None, html: bool, picture: Path | None, replace: bool, as_of: date | None
) -> None:
    """Tell a week of the garden in FOLDER in under 120 words, to read out or to paste."""
    if replace and picture is None:
        raise click.UsageError("--replace works only together with --picture")
    answer = telling.bulletin(folder, asked, as_of=as_of, html=html, picture=picture, replace=replace)
    end_on_errors(answer.findings)
    click.echo(printable(answer.text), nl=False)
