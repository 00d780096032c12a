"""The rows of a spreadsheet that have no place, as a file beside it to be corrected and taken in."""

from __future__ import annotations

import re
from pathlib import Path

from tallybed.publishing.files.csv_text import skipped_rows
from tallybed.tasks.taking_in.intake import Fate, Intake

SKIPPED = ".skipped.csv"
"""Follows the name under which a sheet is known in that of the file its skipped rows are saved in."""
_IN_NO_NAME = re.compile(r'[\\/:*?"<>|]')


def is_skipped(name: str) -> bool:
    """Return whether a file of that name holds skipped rows of another."""
    return name.endswith(SKIPPED)


def name_of_whole(name: str) -> str:
    """Return the name of the file whose skipped rows one of this name holds, those skipped of these too."""
    while is_skipped(name):
        name = name.removesuffix(SKIPPED)
    return name


def skipped_file(intake: Intake, file: Path) -> Path:
    """Return the file for the skipped rows of a sheet of ``file``; its name tells whose rows they are."""
    found = file.with_name(_IN_NO_NAME.sub(" ", intake.name) + SKIPPED)
    return found.with_name(found.name + SKIPPED) if found == file else found


def skipped(intake: Intake) -> bytes:
    """Return a sheet's skipped rows as their file, each with the reason."""
    rows = [
        ([cell.text for cell in line.cells], line.words)
        for line in intake.lines
        if line.fate is Fate.UNPLACED
    ]
    return skipped_rows(intake.sheet.columns.names, rows)
