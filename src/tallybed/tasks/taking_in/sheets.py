"""Which sheet of a file is meant, and under which name its rows are known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from tallybed.garden.invisible import UNSEEN
from tallybed.garden.records.pickings import SheetRow
from tallybed.reading.base.problems import Misread, listed
from tallybed.reading.spreadsheet.cells import LARGEST, SheetCell, TableError
from tallybed.reading.spreadsheet.columns import Heading, MissingColumns, recognised
from tallybed.reading.spreadsheet.crop_columns import Knows, crop_columns
from tallybed.reading.spreadsheet.record import TakenFile
from tallybed.reading.spreadsheet.shaping import HeadedSheet, found_sheet, month_named
from tallybed.reading.spreadsheet.tables import tables
from tallybed.reckoning.harvest.sheet_compare import same_file
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.taking_in.skipped import is_skipped, name_of_whole


class ColumnsUnknownError(UsageError):
    """The columns of a file's only sheet do not suffice, and somebody may say which they are."""

    def __init__(self, message: str, columns: MissingColumns) -> None:
        super().__init__(message)
        self.columns = columns


def contents(path: Path) -> bytes:
    """Return a spreadsheet's bytes, no more than are read at all. Raises UsageError, OSError."""
    if not path.is_file():
        raise UsageError(f"{path} is not a file")
    with path.open("rb") as stream:
        return stream.read(LARGEST + 1)


def sheets_meant(
    name: str,
    data: bytes,
    said: Mapping[str, Heading],
    wanted: str,
    knows: Knows,
    blanks: bool | None,
) -> tuple[tuple[HeadedSheet, ...], tuple[str, ...]]:
    """Return the sheets to be taken in, and the names of those left alone.

    They are the one that is ``wanted``, else the only one that has the headings, else a sheet
    for each month. Raises UsageError, and ColumnsUnknownError where a column may be a needed one.
    """
    try:
        found = tables(name, data, lambda cells: _likely(cells, said, knows))
    except TableError as error:
        raise UsageError(str(error)) from None
    others = [table.name for table in found if wanted and table.name != wanted]
    if wanted:
        found = tuple(table for table in found if table.name == wanted)
    if not found:
        raise UsageError(f"{name} has no sheet {wanted!r}" if wanted else f"{name} is empty")
    fitting: list[HeadedSheet] = []
    wrong: list[str] = []
    unknown: list[MissingColumns] = []
    for table in found:
        try:
            fitting.append(found_sheet(table, said, knows, blanks=blanks))
        except Misread as misread:
            others.append(table.name)
            if isinstance(misread, MissingColumns) and len(misread.free) >= len(misread.missing):
                unknown.append(misread)
            wrong.append(f"{name}{f', sheet {table.name}' if table.name else ''}: {misread.sentence}")
    if not fitting and len(unknown) == len(wrong) == 1:
        raise ColumnsUnknownError(wrong[0], unknown[0])
    if not fitting:
        raise UsageError("\n".join(wrong))
    if len(fitting) > 1 and not all(month_named(sheet.name) for sheet in fitting):
        names = ", ".join(sheet.name for sheet in fitting)
        raise UsageError(f"{name} has several sheets of weighings: {names}; name one with --sheet")
    return tuple(fitting), tuple(others)


def _likely(cells: Sequence[str], said: Mapping[str, Heading], knows: Knows) -> int:
    """Return how much a row of texts looks like headings."""
    return recognised(cells, said) + crop_columns([SheetCell(text) for text in cells], said, knows)


def whole_of(name: str, taken: Mapping[str, Mapping[str, TakenFile]]) -> str:
    """Return the name under which the file is known whose skipped rows these are."""
    every = {one for found in taken.values() for one in found}
    sheets = [one for one in sorted(every) if one.startswith(f"{name} [")]
    return sheets[0] if name not in every and len(sheets) == 1 else name


def name_known(
    name: str,
    sheet: str,
    said: str,
    taken: Mapping[str, Mapping[str, TakenFile]],
    *,
    one_of_several: bool,
) -> str:
    """Return the name under which a sheet of a file is known: its own, or the one it had before.

    ``said`` is what somebody says that it was called, empty where nobody does. A workbook's name
    does for each of its sheets. Raises UsageError where nothing was taken in under that name.
    """
    own = f"{name} [{safe_name(sheet)}]" if sheet else name
    if is_skipped(own):
        own = whole_of(name_of_whole(own), taken)
    if not said:
        return own
    every = sorted({one for found in taken.values() for one in found})
    book = _workbook(said)
    if one_of_several:
        found, known = f"{book} [{safe_name(sheet)}]", any(_workbook(one) == book for one in every)
    else:
        found = whole_of(name_of_whole(said), taken)
        known = found in every
    if not known and book != _workbook(own):
        were = listed(every, "and") or "none"
        raise UsageError(f"nothing was taken in from {said}; files that were: {were}")
    return found


def _workbook(name: str) -> str:
    """Return the name of the file a sheet is of: ``kitchen.xlsx`` of ``kitchen.xlsx [May]``."""
    return name.rpartition(" [")[0] if name.endswith("]") else name


def require_new(called: str, rows: Sequence[SheetRow], taken: Mapping[str, Mapping[str, TakenFile]]) -> None:
    """Stop where most rows were taken under another name. Raises UsageError."""
    by_name: dict[str, list[SheetRow]] = {}
    for found in taken.values():
        for one in found.values():
            by_name.setdefault(one.name, []).extend(one.rows)
    other = same_file(rows, by_name)
    if other:
        raise UsageError(
            f"rows of {called} were taken in from {other} already; if it is that sheet under another name, "
            f'use --as "{other}"; if its rows are others that happen to be equal, use --as "{called}"'
        )


def safe_name(name: str) -> str:
    """Return a file's name as it can be kept: signs that cannot be seen or end a line are left out."""
    return " ".join(UNSEEN.sub("", "".join(sign if sign.isprintable() else " " for sign in name)).split())
