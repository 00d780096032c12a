"""Words that several commands understand alike."""

from __future__ import annotations

from pathlib import Path

import click

from tallybed.commands.screen.terminal import day

PATH = click.Path(path_type=Path)

folder_argument = click.argument("folder", type=PATH, default=".")
"""The garden, for a command that is about all of it."""
folder_option = click.option(
    "--folder", type=PATH, default=".", metavar="FOLDER", help="The garden's folder [here]."
)
"""The garden, for a command that is about something else first."""
as_of_option = click.option(
    "--as-of",
    type=day,
    metavar="DATE",
    help="Leave out records later than this day, such as 2026-07-01.",
)
