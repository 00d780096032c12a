"""What commands share of a terminal: the day, printing text safely, asking."""

from __future__ import annotations

import os
import shlex
import sys
from collections.abc import Sequence
from datetime import UTC, date, datetime

import click

from tallybed.garden.days import FIRST_YEAR, LAST_YEAR
from tallybed.garden.findings import capital

try:
    import readline
except ImportError:  # not on every system
    readline = None  # type: ignore[assignment]

NOBODY_SAID_YES = 2
"""The exit code of a command that asked, and nobody answered."""
INSIDE_WAIT = 4
"""The exit code of a command that wrote nothing, since a picking may come from inside a wait."""
_LINE_END = "\r\n"
"""Ends a line of comma-separated values (RFC 4180)."""


def today() -> date:
    """Return the day by this machine's clock and time zone; no other part of Tallybed asks the clock."""
    return datetime.now(UTC).astimezone().date()


def day(text: str) -> date:
    """Return a day from its ISO 8601 form."""
    try:
        found = date.fromisoformat(text)
    except ValueError:
        raise click.BadParameter(f"{text!r} is not a date such as 2026-07-01") from None
    if not FIRST_YEAR <= found.year <= LAST_YEAR:
        raise click.BadParameter(f"{text!r} is not a day of the years {FIRST_YEAR} to {LAST_YEAR}")
    return found


def printable(text: str) -> str:
    """Return text that can do nothing to a terminal but stand there, line below line."""
    return "".join(sign if sign.isprintable() or sign == "\n" else ascii(sign)[1:-1] for sign in text)


def as_sentence(words: str) -> str:
    """Return words as a sentence."""
    return f"{capital(words)}."


def typed(*words: object) -> str:
    """Return a command as it is to be typed; a folder of this machine with a space in it stands in quotes.

    The folder that one is in needs no name.
    """
    told = [word for word in map(str, words) if word != os.curdir]
    if os.name == "nt":
        return " ".join(f'"{word}"' if " " in word else word for word in told)
    return shlex.join(told)


def say(text: str = "", *, err: bool = False) -> None:
    """Print a line."""
    click.echo(printable(text), err=err)


def print_file(text: str) -> None:
    """Print the text of a file with its own line ends, which are the same on every system."""
    click.echo(_LINE_END.join(map(printable, text.split(_LINE_END))).encode(), nl=False)


def asked(prompt: str, mend: str = "") -> str | None:
    """Return what a person types, or None where nobody types any more.

    ``mend`` stands there already, to be put right, where the terminal can do that.
    """
    fill = readline is not None and mend and sys.stdin.isatty()
    try:
        if fill and readline is not None:
            readline.set_startup_hook(lambda: readline.insert_text(printable(mend)))
        return input(printable(prompt)).strip()
    except EOFError:
        say()
        return None
    finally:
        if fill and readline is not None:
            readline.set_startup_hook(None)


def yes(prompt: str) -> bool | None:
    """Return whether a person says yes, or None where nobody answers."""
    while True:
        answer = asked(f"{prompt} [y/n] ")
        if answer is None:
            return None
        if answer.casefold() in ("y", "yes"):
            return True
        if answer.casefold() in ("n", "no"):
            return False
        say("Type y for yes or n for no; Ctrl-C stops.")


def agreed(prompt: str, *, already: bool, otherwise: str, doing: str) -> bool:
    """Return whether a person says yes, or has ``already`` said so on the command line.

    Where not, ``otherwise`` is printed; where nobody answers, the command ends after saying
    that --yes is there for ``doing`` it without a question.
    """
    answer = True if already else yes(prompt)
    if answer:
        return True
    say(otherwise, err=True)
    if answer is None:
        say(f"Use --yes to {doing} without being asked.", err=True)
        sys.exit(NOBODY_SAID_YES)
    return False


def chosen(question: str, choices: Sequence[str]) -> int | None:
    """Return the number, from 0, of the answer that a person chooses, or None where nobody does."""
    say(question if question.endswith("?") else f"{question}:")
    for number, choice in enumerate(choices, start=1):
        say(f"  {number}  {choice}")
    while True:
        answer = asked(f"Which? [1{f' to {len(choices)}' if len(choices) > 1 else ''}, Enter for none] ")
        if not answer:
            return None
        if answer.isascii() and answer.isdigit() and 1 <= int(answer) <= len(choices):
            return int(answer) - 1
        meant = [number for number, choice in enumerate(choices) if _says(answer, choice)]
        if len(meant) == 1:
            return meant[0]
        say(f"“{answer}” is not one of these answers. Type its number, or Enter for none.")


def _says(answer: str, choice: str) -> bool:
    """Return whether an answer is a choice in its own words, or the words that it begins with."""
    words, start = answer.casefold().split(), choice.casefold().split()
    return not answer.isdigit() and start[: len(words)] == words


def columns(rows: Sequence[Sequence[str]], indent: str = "  ") -> str:
    """Return rows as text in columns, two spaces apart."""
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    lines = (
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    )
    return "\n".join(f"{indent}{line}" for line in lines)
