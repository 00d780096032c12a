"""``tallybed withdraw``: a picture, an entry or a name goes for good, once somebody says yes."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import click

from tallybed.commands.screen import terminal
from tallybed.commands.screen.options import folder_argument
from tallybed.commands.screen.terminal import say
from tallybed.commands.screen.waiting import tell_of_waits
from tallybed.garden.records.people import WithdrawnKind
from tallybed.tasks import withdraw as withdrawing
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.withdrawing import names, pictures
from tallybed.tasks.withdrawing.garden_files import archives
from tallybed.tasks.withdrawing.withdrawal import RECORD, Withdrawal

NOT_ALL_GONE = 1
MOST_ALIKE = 30
"""Places of a likeness that are listed; a name that is also an everyday word has many."""


@click.command()
@folder_argument
@click.option("--picture", metavar="FILE", help="A picture, such as 2026/photos/peas.jpg.")
@click.option("--entry", metavar="ENTRY", help="A log entry, such as 2026/2026-04-19-peas-are-up.")
@click.option("--name", metavar="NAME", help='A person’s name as it is written, such as "M.".')
@click.option(
    "--instead", metavar="WORDS", default="", help='Words to put in the name’s place, such as "a visitor".'
)
@click.option("--on", "day", type=terminal.day, metavar="DATE", help="The day to note it under [today].")
@click.option("--yes", is_flag=True, help="Take it out without asking.")
def withdraw(
    folder: Path,
    picture: str | None,
    entry: str | None,
    name: str | None,
    instead: str,
    day: date | None,
    yes: bool,
) -> None:
    """Take a picture, an entry or a name out of the garden in FOLDER for good.

    All that is kept is that something of its kind was withdrawn, and when.
    """
    if sum(one is not None for one in (picture, entry, name)) != 1:
        raise UsageError("use one of --picture, --entry and --name")
    if instead and name is None:
        raise UsageError("--instead goes with --name")
    tell_of_waits()
    if picture is not None:
        found = pictures.picture(folder, picture)
    elif entry is not None:
        found = pictures.entry(folder, entry)
    else:
        found = names.name(folder, name or "", instead)
    _show(found, instead=bool(instead))
    if found.empty:
        say("There is nothing to take out.")
        sys.exit(NOT_ALL_GONE if _still_there(found) else 0)
    if not terminal.agreed(
        "Take this out for good?", already=yes, otherwise="Nothing was taken out.", doing="take it out"
    ):
        return
    withdrawing.carry_out(found, day or terminal.today())
    say(f"Taken out, and noted in {RECORD}.")
    _listed("Made before, these may still hold it; delete them:", archives(folder))
    say(f"Now run: {terminal.typed('tallybed', 'build', folder)}")
    say("Until then the site on this machine still shows it.")
    others = [
        terminal.typed("tallybed", "build", folder, "--to", folder / place)
        for place in withdrawing.built_elsewhere(folder)
    ]
    _listed("So do these; build them again, or delete them:", others)
    say("Copies on a web server or in the history of a version control system are for you to delete.")
    if found.kind is WithdrawnKind.NAME and _still_there(found):
        sys.exit(NOT_ALL_GONE)


def _still_there(found: Withdrawal) -> bool:
    """Return whether what is withdrawn still stands somewhere for the gardener to see to."""
    return bool(found.left or found.named or found.unread)


def _show(found: Withdrawal, *, instead: bool) -> None:
    """Tell what goes, what changes, and what the gardener must see to.

    ``instead``: whether words for a name were given.
    """
    _listed("This goes:", found.gone)
    _listed("This changes:", [f"{edit.file}: {edit.words}" for edit in found.edits])
    if found.kind is WithdrawnKind.NAME:
        heading = (
            f"The name still stands here; edit these places{'' if instead else ', or use --instead WORDS'}:"
        )
        _listed(
            "These files have the name in their own names; rename them, and what names them:", found.named
        )
    else:
        links = found.kind is WithdrawnKind.ENTRY
        blocked = "; no site can be built while a link leads to it" if links else ""
        heading = f"This speaks of it and stays; look whether it still holds{blocked}:"
    _listed(heading, [str(place) for place in found.left])
    places = [str(place) for place in found.alike]
    more = [f"and {len(places) - MOST_ALIKE} places more"] if len(places) > MOST_ALIKE else []
    _listed("This may be the name, written otherwise; look at it:", [*places[:MOST_ALIKE], *more])
    _listed("No build reads these files, but they hold it; delete or edit them:", found.unread)


def _listed(heading: str, lines: Sequence[str]) -> None:
    """Tell lines below a heading; nothing where there are none."""
    if lines:
        say(heading)
    for line in lines:
        say(f"  {line}")
