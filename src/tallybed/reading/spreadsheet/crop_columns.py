"""A sheet with one column a crop, as a table with a row for each picking."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from tallybed.garden.days import MONTH_NUMBERS
from tallybed.garden.squares import column_letters
from tallybed.garden.units import WEIGHT_UNITS, Unit
from tallybed.reading.spreadsheet.cells import EMPTY, NumberedRow, SheetCell, SheetTable, as_told
from tallybed.reading.spreadsheet.columns import NOTHING, Heading, heading, plain

Knows = Callable[[str], bool]
"""Says whether a text is the name of a crop."""
_NOTHING = frozenset({"", "-", "–", "—", "0", "0.0", "0.00", "0,0", "none", "nil", "n/a", "/"})
"""What stands in a crop's column where nothing of it was picked. An ``x`` may say that some of it was."""
UNIT_WORDS = {name: unit for unit in WEIGHT_UNITS for name in unit.names if len(name) > 1}
_DITTO = frozenset(
    {
        '"',
        "”",
        "“",
        "„",
        "〃",
        "''",
        "″",
        ",,",
        "do",
        "do.",
        "ditto",
        "dto",
        "dto.",
        "id.",
        "idem",
    }
)
_DITTO_SIGNS = re.compile(r"[-–\s]*(?:[\"”“〃″]|'')[-–\s]*")
TOTAL = re.compile(
    r"(?<![^\W\d_])(?:sub-?|grand\s+)?totals?(?![^\W\d_])|(?<![^\W\d_])(?:sums?|summen?|zwischensumme|gesamt(?:summe)?|somme|suma|totale)(?![^\W\d_])",
    re.IGNORECASE,
)

_BESIDE_TOTAL = frozenset(
    {*MONTH_NUMBERS, "for", "of", "the", "in", "all", "so", "far", "to", "date", "as", "above"}
) | {
    "day",
    "daily",
    "week",
    "weekly",
    "month",
    "monthly",
    "year",
    "yearly",
    "season",
    "running",
    "harvest",
    "weight",
}
"""Words that may stand beside a total in a remark that says nothing else."""
_OWN_COLUMN = re.compile(
    r"=\s*(?:SUM|SUBTOTAL)\s*\((?:\s*[0-9]+\s*,)?\s*\$?([A-Z]{1,3})\$?[0-9]+\s*:\s*\$?\1\$?[0-9]+",
    re.IGNORECASE,
)


def is_ditto(text: str) -> bool:
    """Return whether a cell says that it is as the one above."""
    plain_text = text.strip().casefold()
    return plain_text in _DITTO or _DITTO_SIGNS.fullmatch(plain_text) is not None


def notes_a_total(note: str, *, dated: bool) -> bool:
    """Return whether a remark says that its row is a total; on a row with its day it must say nothing else.

    ``total loss of the peas`` is a remark on a picking of that day.
    """
    if TOTAL.search(note) is None:
        return False
    words = re.findall(r"[^\W\d_]+", TOTAL.sub(" ", note).casefold())
    return not dated or all(word in _BESIDE_TOTAL for word in words)


def adds_up_its_column(cell: SheetCell, column: int) -> bool:
    """Return whether a cell is the sum of others in its column, which is told by its number from 0."""
    found = _OWN_COLUMN.match(cell.formula)
    return found is not None and found.group(1).upper() == column_letters(column)


def _crop_and_unit(name: str) -> tuple[str, Unit | None]:
    """Return the crop of a column's heading, and the unit where it names one: ``Kale (oz)``."""
    words = plain(name)
    head, _space, last = words.rpartition(" ")
    unit = UNIT_WORDS.get(last) or (heading(last) or Heading(NOTHING)).unit
    return (head.removesuffix(" in"), unit) if head and unit else (words, None)


def crop_columns(cells: Sequence[SheetCell], settled: Mapping[str, Heading], knows: Knows) -> int:
    """Return the number of columns that are headed by a crop beside a date and no crop's column; else 0."""
    names = [cell.text for cell in cells]
    meanings = [(settled.get(plain(name)) or heading(name) or Heading(NOTHING)).meaning for name in names]
    if "date" not in meanings or "crop" in meanings or "weight" in meanings:
        return 0
    found = sum(
        meaning == NOTHING and bool(name) and knows(_crop_and_unit(name)[0])
        for name, meaning in zip(names, meanings, strict=True)
    )
    return found if found > 1 else 0


def one_crop_a_row(
    table: SheetTable, best: int, names: Sequence[str], settled: Mapping[str, Heading], knows: Knows
) -> tuple[SheetTable, list[str]]:
    """Return a table with one column a crop as one with a row for each picking, and its headings."""
    own = {
        column: _crop_and_unit(name)
        for column, name in enumerate(names)
        if name and (settled.get(plain(name)) or heading(name)) is None and knows(_crop_and_unit(name)[0])
    }
    rest = [column for column, name in enumerate(names) if name and column not in own]
    dates, notes = (
        [
            column
            for column, name in enumerate(names)
            if (settled.get(plain(name)) or heading(name) or Heading(NOTHING)).meaning == meaning
        ]
        for meaning in ("date", "note")
    )
    far = list(table.far)
    made: list[NumberedRow] = list(table.rows[: best + 1])
    above: dict[int, SheetCell] = {}
    for number, cells in table.rows[best + 1 :]:
        padded = [*cells, *(EMPTY for _more in range(len(names) - len(cells)))]
        for column in own:  # above a mark is its own column, not the crop to its left
            if is_ditto(padded[column].text):
                padded[column] = above.get(column, padded[column])
            elif padded[column]:
                above[column] = padded[column]
        others = tuple(padded[column] for column in rest)
        far += [  # told by where it stands here: the columns of the table that is made are others
            as_told(column, number, cell)
            for column, cell in enumerate(padded)
            if cell and (column >= len(names) or not names[column])
        ]
        told = [column for column in own if padded[column] and padded[column].text.strip() not in _NOTHING]
        if any(adds_up_its_column(padded[column], column) for column in told):
            made.append((number, (*others, SheetCell("Total"), EMPTY, EMPTY)))
            told = [column for column in told if not adds_up_its_column(padded[column], column)]
            if not told:
                continue
        label = [
            cell.text
            for column, cell in enumerate(padded[: len(names)])
            if column not in own and column not in notes and cell.text and cell.day is None
        ]
        dated = any(padded[column] for column in dates)
        is_total = any(TOTAL.search(text) for text in label) or any(
            notes_a_total(padded[column].text, dated=dated) for column in notes
        )
        if not told or is_total:
            if any(others):
                made.append((number, (*others, EMPTY, EMPTY, EMPTY)))
            continue
        for column in told:
            crop, unit = own[column]
            unit_cell = SheetCell(unit.symbol) if unit else EMPTY
            made.append((number, (*others, SheetCell(crop), padded[column], unit_cell)))
    heads = [*(names[column] for column in rest), "Crop", "Weight", "Unit"]
    return SheetTable(name=table.name, rows=tuple(made), far=tuple(far), told=table.told), heads
