"""``tallybed withdraw``: what was found to go is taken out of a garden for good."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tallybed.pictures.cache import forget, forget_words
from tallybed.pictures.rooms import FOLDER
from tallybed.reading.folder.known_files import CONTENT
from tallybed.tasks.site.unchanged import SITE
from tallybed.tasks.withdrawing.withdrawal import RECORD, Withdrawal
from tallybed.writing.atomic import write_over
from tallybed.writing.ledger import turn
from tallybed.writing.remnants import sites

_HEAD = "# What was taken out for good: that it happened, and when. What it was is kept nowhere.\n"


def built_elsewhere(root: Path) -> tuple[str, ...]:
    """Return the folders in the garden's that a build wrote to by another name than the usual one."""
    return tuple(one for one in sites(root) if one != SITE)


def carry_out(withdrawal: Withdrawal, day: date) -> None:
    """Take out what a withdrawal names, and note that on that day something was withdrawn.

    The note comes first and is written once, so that a second run finishes what a first
    one, ended halfway, began. Raises OSError (BusyError among them).
    """
    root = withdrawal.root
    with turn(root / CONTENT):
        _note(withdrawal, day)
        for edit in withdrawal.edits:
            write_over(root / edit.file, edit.text.encode())
        for file in withdrawal.gone:
            (root / file).unlink(missing_ok=True)
        for source in sorted(withdrawal.hashes):
            forget(root / FOLDER, source)
        forget_words(root / FOLDER)  # made anew by the next build; it may hold what a text said


def _note(withdrawal: Withdrawal, day: date) -> None:
    """Add a line for each season to the record of withdrawals, unless the line is there already."""
    path = withdrawal.root / RECORD
    old = path.read_bytes().decode("utf-8") if path.exists() else _HEAD
    if old and not old.endswith("\n"):
        old += "\n"
    new = old
    for season in sorted(withdrawal.seasons):
        where = f"season: {season}, " if season else ""
        line = f"- {{withdrawn: {withdrawal.kind}, {where}on: {day.isoformat()}}}\n"
        new += "" if line in new else line
    if new != old:
        write_over(path, new.encode())
