"""Rows of a spreadsheet that were not taken, as comma-separated values with the reasons."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from tallybed.publishing.files.csv_text import MADE_WORDS, RUN

WHY = "why it was skipped"
"""The heading of the reasons."""


def skipped_rows(names: Sequence[str], rows: Iterable[tuple[Sequence[str], str]]) -> bytes:
    """Return a file of rows, each its cells and why it was skipped, below the headings they had.

    A column of reasons from an earlier time is left out.
    """
    kept = [place for place, name in enumerate(names) if name.casefold() != WHY]
    out = io.StringIO(newline="")
    sheet = csv.writer(out)
    sheet.writerow([*(_inert(names[place]) for place in kept), WHY])
    for cells, why in rows:
        sheet.writerow([*(_inert(cells[place]) if place < len(cells) else "" for place in kept), _inert(why)])
    return out.getvalue().encode("utf-8-sig")  # the mark lets spreadsheet programs read it as UTF-8


def _inert(text: str) -> str:
    """Return a cell that no spreadsheet program runs."""
    return MADE_WORDS + text if text.startswith((*RUN, MADE_WORDS)) else text
