"""A row's cells so that they read alike in another file, without the title and the rest of their column.

There a weight would take another unit, and ``1.125`` or ``4/5/2026`` might be read the other way.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date

from tallybed.reading.spreadsheet.cells import EMPTY, SheetCell
from tallybed.reading.spreadsheet.columns import Heading

_THREE_DECIMALS = re.compile(r"\.[0-9]{3}(?![0-9])")
"""Behind a point they may be taken for thousands; four may not."""


def by_themselves(
    cells: Sequence[SheetCell], headings: Sequence[Heading], days: Mapping[str, date | None], weight: str
) -> tuple[SheetCell, ...]:
    """Return a row's cells with what was understood of them written out in full.

    ``days`` are those understood, by the meaning of their column; ``weight`` is the weight in
    words that need nothing beside them, empty where it was not understood.
    """
    words = _THREE_DECIMALS.sub(lambda found: f"{found.group()}0", weight)
    made = list(cells)
    for place, (heading, cell) in enumerate(zip(headings, cells, strict=False)):
        day = days.get(heading.meaning)
        if cell and day is not None:
            made[place] = SheetCell(day.isoformat(), day)
        elif cell.number and heading.meaning in days:
            made[place] = SheetCell(f"{cell.text}?")  # as text 6.1 would be a day
        elif cell and weight and heading.meaning in ("weight", "unit"):
            made[place] = SheetCell(words) if words and heading.meaning == "weight" else EMPTY
            words = "" if heading.meaning == "weight" else words
    return tuple(made)
