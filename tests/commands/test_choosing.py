"""How a person at a terminal is asked to choose."""

from __future__ import annotations

import click
import pytest
from click.testing import CliRunner

from tallybed.commands.screen.terminal import chosen


@pytest.mark.parametrize(
    ("choices", "asked"), [(["kale"], "Which? [1, Enter"), (["kale", "leek"], "Which? [1 to 2, Enter")]
)
def test_one_choice_is_not_a_range(choices: list[str], asked: str) -> None:
    command = click.command()(lambda: click.echo(chosen("What", choices)))
    shown = CliRunner().invoke(command, input="1\n").output
    assert asked in shown
    assert shown.endswith("0\n")
