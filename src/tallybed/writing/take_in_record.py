"""What was taken from which spreadsheet, as the text of its record.

``ledger`` writes it together with the rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from tallybed.garden.records.pickings import SheetRow
from tallybed.writing.ledger_row import in_braces, scalar

OPENING = """\
# Written by tallybed take-in: what was taken from which file, so that no row is taken twice.
# A row deleted here counts as new the next time its file is taken in.
"""


_COMMENT = re.compile(r"^[ \t]*(#[^\r\n]*)", re.MULTILINE)


def record_text(files: Iterable[tuple[str, str, Sequence[SheetRow]]], before: str = "") -> str:
    """Return the record's text: for each file its name, the order of its dates if settled, its rows.

    Lines of comment that somebody wrote into the text ``before`` are kept, above all rows.
    """
    known = OPENING.splitlines()
    parts = [OPENING, *(f"{own}\n" for own in _COMMENT.findall(before) if own not in known)]
    for name, order, rows in files:
        parts.append(f"- from: {scalar(name)}\n")
        if order:
            parts.append(f"  dates: {order}\n")
        parts.append("  rows:\n" if rows else "  rows: []\n")
        parts += [f"    - {in_braces([('row', str(row.number)), *row.cells])}\n" for row in rows]
    return "".join(parts)
