"""A sheet with one column a crop, as a table with a row for each picking."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

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
    columns = _CropColumns.of(names, settled, knows)
    far = list(table.far)
    made: list[NumberedRow] = list(table.rows[: best + 1])
    above: dict[int, SheetCell] = {}
    for number, cells in table.rows[best + 1 :]:
        padded = [*cells, *(EMPTY for _more in range(len(names) - len(cells)))]
        for column in columns.crops:  # above a mark is its own column, not the crop to its left
            if is_ditto(padded[column].text):
                padded[column] = above.get(column, padded[column])
            elif padded[column]:
                above[column] = padded[column]
        far += [  # told by where it stands here: the columns of the table that is made are others
            as_told(column, number, cell)
            for column, cell in enumerate(padded)
            if cell and (column >= len(names) or not names[column])
        ]
        others = tuple(padded[column] for column in columns.others)
        made += [(number, (*others, *picked)) for picked in columns.pickings(padded)]
    heads = [*(names[column] for column in columns.others), "Crop", "Weight", "Unit"]
    return SheetTable(name=table.name, rows=tuple(made), far=tuple(far), told=table.told), heads


@dataclass(frozen=True, slots=True, kw_only=True)
class _CropColumns:
    """What the columns of a sheet with one column a crop hold, by their numbers from 0."""

    crops: Mapping[int, tuple[str, Unit | None]]
    """Those of a crop, with its name and the unit its heading names."""
    others: Sequence[int]
    """All others that have a heading."""
    dates: Sequence[int]
    notes: Sequence[int]
    labels: Sequence[int]
    """All that are neither a crop's nor a remark's, without a heading too: they may say what a row is."""

    @classmethod
    def of(cls, names: Sequence[str], settled: Mapping[str, Heading], knows: Knows) -> _CropColumns:
        """Return what columns of these headings hold."""
        known = {column: settled.get(plain(name)) or heading(name) for column, name in enumerate(names)}
        crops = {
            column: _crop_and_unit(name)
            for column, name in enumerate(names)
            if name and known[column] is None and knows(_crop_and_unit(name)[0])
        }
        dates, notes = (
            [column for column, one in known.items() if one and one.meaning == meaning]
            for meaning in ("date", "note")
        )
        return cls(
            crops=crops,
            others=[column for column, name in enumerate(names) if name and column not in crops],
            dates=dates,
            notes=notes,
            labels=[column for column in known if column not in crops and column not in notes],
        )

    def pickings(self, cells: Sequence[SheetCell]) -> Iterator[tuple[SheetCell, SheetCell, SheetCell]]:
        """Yield crop, weight and unit of each picking that a row tells.

        Once ``Total`` for what it adds up; three empty cells where it tells of none but of something else.
        """
        told = [
            column for column in self.crops if cells[column] and cells[column].text.strip() not in _NOTHING
        ]
        if not told and any(cells[column] for column in self.others):
            yield EMPTY, EMPTY, EMPTY
        is_total = bool(told) and self._is_total(cells)
        picked = [column for column in told if not (is_total or adds_up_its_column(cells[column], column))]
        if len(picked) < len(told):
            yield SheetCell("Total"), EMPTY, EMPTY
        for column in picked:
            crop, unit = self.crops[column]
            yield SheetCell(crop), cells[column], SheetCell(unit.symbol) if unit else EMPTY

    def _is_total(self, cells: Sequence[SheetCell]) -> bool:
        """Return whether a row says that it is a total: in a remark, or in any column that is no crop's."""
        dated = any(cells[column] for column in self.dates)
        return any(notes_a_total(cells[column].text, dated=dated) for column in self.notes) or any(
            TOTAL.search(cells[column].text) and cells[column].day is None for column in self.labels
        )
