"""How a person at a terminal is asked to choose."""

from __future__ import annotations

import click
import pytest
from click.testing import CliRunner

from tallybed.commands.screen.terminal import chosen, yes


@pytest.mark.parametrize(
    ("choices", "asked"), [(["kale"], "Which? [1, Enter"), (["kale", "leek"], "Which? [1 to 2, Enter")]
)
def test_one_choice_is_not_a_range(choices: list[str], asked: str) -> None:
    command = click.command()(lambda: click.echo(chosen("What", choices)))
    shown = CliRunner().invoke(command, input="1\n").output
    assert asked in shown
    assert shown.endswith("0\n")


@pytest.mark.parametrize(
    ("typed", "said", "found"),
    [
        ("TO2\n", "", "1"),
        ("not weighed\n", "", "2"),
        ("tomato 2 lb\n1\n", "“tomato 2 lb” is not one of these answers. Type its number", "0"),
        ("TO\n\n", "“TO” is not one", "None"),
        ("7\n\n", "“7” is not one", "None"),
    ],
)
def test_an_answer_in_words_is_taken_and_another_one_is_told(typed: str, said: str, found: str) -> None:
    choices = ["TO1 indeterminate tomato", "TO2 determinate tomato", "not weighed", "7 oz"]
    command = click.command()(lambda: click.echo(repr(chosen("What", choices))))
    shown = CliRunner().invoke(command, input=typed).output
    assert said in shown
    assert ("is not one" in shown) == bool(said)
    assert shown.endswith(f"{found}\n")


@pytest.mark.parametrize(("question", "line"), [("What", "What:"), ("Is it kale?", "Is it kale?")])
def test_a_question_ends_with_one_sign(question: str, line: str) -> None:
    command = click.command()(lambda: click.echo(repr(chosen(question, ["kale"]))))
    assert CliRunner().invoke(command, input="1\n").output.splitlines()[0] == line


def test_what_is_neither_yes_nor_no_is_told() -> None:
    command = click.command()(lambda: click.echo(yes("Write this?")))
    shown = CliRunner().invoke(command, input="kale 3 oz\ny\n").output
    assert "Type y for yes or n for no" in shown
    assert shown.endswith("True\n")
