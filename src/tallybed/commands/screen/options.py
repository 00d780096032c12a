"""Words that several commands understand alike."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click
from click.core import ParameterSource

from tallybed.commands.screen.terminal import day

Command = TypeVar("Command", bound=Callable[..., Any])
PATH = click.Path(path_type=Path)

_NAMED = "tallybed.folder"
"""Where a call keeps the folder that it was given by ``--folder``."""


def folder_argument(command: Command) -> Command:
    """Let a command that is about all of a garden take its folder, with ``--folder`` before it or without."""

    def keep(context: click.Context, _option: click.Parameter, value: Path | None) -> None:
        context.meta[_NAMED] = value

    def told(context: click.Context, _argument: click.Parameter, value: Path) -> Path:
        named: Path | None = context.meta[_NAMED]
        if named is None:
            return value
        if context.get_parameter_source("folder") is ParameterSource.COMMANDLINE:
            raise click.UsageError(f"The garden's folder is told twice: {value} and {named}.", context)
        return named

    option = click.option(
        "--folder", "named", type=PATH, hidden=True, is_eager=True, expose_value=False, callback=keep
    )
    return option(click.argument("folder", type=PATH, default=".", callback=told)(command))


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
