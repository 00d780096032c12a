"""What rows told when they were taken and no column of the sheet tells any more: it stays as it was taken."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from tallybed.garden.records.pickings import SheetRow
from tallybed.reading.spreadsheet.alike import by_value
from tallybed.reading.spreadsheet.columns import Heading
from tallybed.reading.spreadsheet.rows import KEPT

_ALWAYS = frozenset({"date", "crop", "variety", "weight"})
"""What a title, a heading of a crop or a tag may tell as well as a column."""


def lost_columns(
    rows: Sequence[SheetRow], taken: Sequence[SheetRow], headings: Iterable[Heading]
) -> frozenset[str]:
    """Return what taken rows tell and the sheet has no column for, by its meaning.

    Not what stands in a column that is read as something else now: nobody can tell which is right.
    """
    now, then = _texts(rows), _texts(taken)
    lost = then.keys() - now.keys() - {heading.meaning for heading in headings} - _ALWAYS
    elsewhere = {text for meaning, texts in now.items() if meaning not in then for text in texts}
    return frozenset(meaning for meaning in lost if elsewhere.isdisjoint(then[meaning]))


def with_lost(row: SheetRow, old: SheetRow, lost: Collection[str]) -> SheetRow:
    """Return a row with what the taken one tells of that."""
    told = dict(row.cells) | {meaning: text for meaning, text in old.cells if meaning in lost}
    cells = tuple((meaning, told[meaning]) for meaning in KEPT if meaning in told)
    return SheetRow(number=row.number, cells=cells, values=by_value(cells))


def _texts(rows: Iterable[SheetRow]) -> dict[str, set[str]]:
    """Return what rows tell, by its meaning."""
    found: dict[str, set[str]] = {}
    for row in rows:
        for meaning, text in row.cells:
            found.setdefault(meaning, set()).add(text)
    return found
