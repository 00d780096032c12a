"""Tables as files for spreadsheets and programs: comma-separated values (RFC 4180), in UTF-8."""

from __future__ import annotations

import csv
import io

from tallybed.pages.frame.page import DataFile

RUN = ("=", "+", "-", "@", "\t", "\r", "\n")
"""Signs at whose sight some spreadsheets run a cell instead of showing it (OWASP, "CSV Injection")."""
MADE_WORDS = "'"
"""The sign that makes such a text words. A text that begins with it gets one more, so that taking one off
always gives the text as it was."""


def written(file: DataFile) -> bytes:
    """Return the file, each line ended by CR and LF; no text in it can make a spreadsheet run it."""
    return csv_text(file).encode()


def csv_text(file: DataFile) -> str:
    """Return the file as text."""
    page = io.StringIO(newline="")
    writer = csv.writer(page, lineterminator="\r\n")
    writer.writerow(file.heads)
    for row in file.rows:
        writer.writerow(_shown(cell) for cell in row)
    return page.getvalue()


def _shown(cell: str | int) -> str | int:
    """Return a text that would be run with an apostrophe before it, which makes it words."""
    if isinstance(cell, str) and cell.lstrip(" ").startswith((*RUN, MADE_WORDS)):
        return MADE_WORDS + cell
    return cell
