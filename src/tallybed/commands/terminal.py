"""What commands share: reading a day, printing text safely, asking."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import click


def day(text: str) -> date:
    """Return a day from its ISO 8601 form."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise click.BadParameter(f"{text!r} is no date such as 2026-07-01") from None


def printable(text: str) -> str:
    """Return text that can do nothing to a terminal but stand there, line below line."""
    return "".join(sign if sign.isprintable() or sign == "\n" else ascii(sign)[1:-1] for sign in text)


def say(text: str = "", *, err: bool = False) -> None:
    """Print a line."""
    click.echo(printable(text), err=err)


def asked(prompt: str) -> str | None:
    """Return what a person types, or None where nobody types any more."""
    try:
        return input(printable(prompt)).strip()
    except EOFError:
        say()
        return None


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


def chosen(question: str, choices: Sequence[str]) -> int | None:
    """Return the number, from 0, of the answer that a person chooses, or None where nobody does."""
    say(f"{question}:")
    for number, choice in enumerate(choices, start=1):
        say(f"  {number}  {choice}")
    while True:
        answer = asked(f"Which? [1 to {len(choices)}, Enter for none] ")
        if not answer:
            return None
        if answer.isascii() and answer.isdigit() and 1 <= int(answer) <= len(choices):
            return int(answer) - 1


def columns(rows: Sequence[Sequence[str]], indent: str = "  ") -> str:
    """Return rows as text in columns, two spaces apart."""
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    lines = (
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    )
    return "\n".join(f"{indent}{line}" for line in lines)
