"""Tables as files for spreadsheets and programs: comma-separated values (RFC 4180), in UTF-8.

Every cell goes through one guard, ``inert``, so that nothing a gardener typed is run.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from decimal import Decimal

from tallybed.pages.frame.page import DataFile

WHY = "why it was skipped"
"""The heading of the reasons beside rows that were not taken in."""
_STARTS = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
"""Signs that make some spreadsheets run a cell instead of showing it (OWASP, "CSV Injection"), with their
full-width forms (from memory of the same page)."""
_CONTROLS = frozenset("\t\r\n")
"""Signs that do so too, or hide one of those from a reader (same source)."""
_WORDS = "'"
"""The sign that makes such a text words. A text that begins with it gets one more, so that taking one off
always gives the text as it was."""


def inert(text: str) -> str:
    """Return a cell's text so that no spreadsheet runs it, whatever spaces stand before it."""
    bare = text.lstrip()
    lead = text[: len(text) - len(bare)]
    if bare.startswith((*_STARTS, _WORDS)) or _CONTROLS.intersection(lead):
        return _WORDS + text
    return text


def csv_text(file: DataFile) -> str:
    """Return the file as text, each line ended by CR and LF."""
    return _lines([file.heads, *file.rows])


def written(file: DataFile) -> bytes:
    """Return the file; see ``csv_text``."""
    return csv_text(file).encode()


def skipped_rows(names: Sequence[str], rows: Iterable[tuple[Sequence[str], str]]) -> bytes:
    """Return a file of rows of a spreadsheet, each its cells and why it was skipped, below their headings.

    A column of reasons from an earlier time is left out.
    """
    kept = [place for place, name in enumerate(names) if name.casefold() != WHY]
    lines = [[*(names[place] for place in kept), WHY]]
    lines += [[*(cells[place] if place < len(cells) else "" for place in kept), why] for cells, why in rows]
    return _lines(lines).encode("utf-8-sig")  # the mark lets spreadsheet programs read it as UTF-8


def _lines(rows: Iterable[Sequence[str | int | Decimal]]) -> str:
    """Return rows as comma-separated values in which no spreadsheet takes a text for a formula.

    A number below zero stays one.
    """
    page = io.StringIO(newline="")
    writer = csv.writer(page, lineterminator="\r\n")
    writer.writerows(map(_cell, row) for row in rows)
    return page.getvalue()


def _cell(cell: str | int | Decimal) -> str | int:
    """Return a cell as it is written."""
    if isinstance(cell, Decimal):
        return f"{cell:f}"
    return inert(cell) if isinstance(cell, str) else cell
