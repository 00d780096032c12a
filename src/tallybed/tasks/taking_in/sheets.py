"""Which sheet of a file is meant, and under which name its rows are known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from tallybed.garden.pickings import SheetRow
from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.columns import Heading, recognised
from tallybed.reading.spreadsheet.record import TakenFile
from tallybed.reading.spreadsheet.rows import HeadedSheet, found_sheet
from tallybed.reading.spreadsheet.tables import LARGEST, SheetTable, TableError, tables
from tallybed.reckoning.harvest.sheet_compare import same_file
from tallybed.tasks.errors import UsageError


def contents(path: Path) -> bytes:
    """Return a spreadsheet's bytes, no more than are read at all. Raises UsageError, OSError."""
    if not path.is_file():
        raise UsageError(f"{path} is not a file")
    with path.open("rb") as stream:
        return stream.read(LARGEST + 1)


def sheet_meant(
    name: str, data: bytes, said: Mapping[str, Heading], wanted: str
) -> tuple[SheetTable, HeadedSheet]:
    """Return the sheet to be taken in: the one named, else the only one that has the headings."""
    try:
        found = tables(name, data, lambda cells: recognised(cells, said))
    except TableError as error:
        raise UsageError(str(error)) from None
    if wanted:
        found = tuple(table for table in found if table.name == wanted)
    if not found:
        raise UsageError(f"{name} has no sheet {wanted!r}" if wanted else f"{name} is empty")
    fitting: list[tuple[SheetTable, HeadedSheet]] = []
    wrong: list[str] = []
    for table in found:
        try:
            fitting.append((table, found_sheet(table, said)))
        except Misread as misread:
            wrong.append(f"{name}{f', sheet {table.name}' if table.name else ''}: {misread.sentence}")
    if not fitting:
        raise UsageError("\n".join(wrong))
    if len(fitting) > 1:
        names = ", ".join(table.name for table, _sheet in fitting)
        raise UsageError(f"{name} has several sheets of weighings: {names}; name one with --sheet")
    return fitting[0]


def whole_of(name: str, taken: Mapping[str, Mapping[str, TakenFile]]) -> str:
    """Return the name under which the file is known whose skipped rows these are."""
    every = {one for found in taken.values() for one in found}
    sheets = [one for one in sorted(every) if one.startswith(f"{name} [")]
    return sheets[0] if name not in every and len(sheets) == 1 else name


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
