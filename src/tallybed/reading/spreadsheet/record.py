"""``taken-in.yaml``: what was taken from which spreadsheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tallybed.garden.records.pickings import SheetRow
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.base.scanners import chosen, every, said, wrong_kind
from tallybed.reading.shapes.common import LINE
from tallybed.reading.spreadsheet.alike import by_value
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.spreadsheet.rows import KEPT
from tallybed.reading.text import measures, texts
from tallybed.reading.yaml.nodes import Items, Node, Text, parse

_FILES = "a list of files with their rows"
_NUMBER = Key("row", said(measures.whole(1), measures.WHOLE), measures.WHOLE, required=True)
_CELLS = tuple(Key(meaning, said(str, texts.NOTE), texts.NOTE) for meaning in KEPT)
ROW = Shape("a row that was taken", (_NUMBER, *_CELLS))


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenFile:
    """What was taken from one file."""

    name: str
    order: DateOrder | None = None
    rows: tuple[SheetRow, ...] = ()


def _row(node: Node, context: Context) -> SheetRow:
    """Read a row that was taken. Raises LeftOut."""
    row = take(node, ROW, context)
    row.finish()
    told = ((key.name, row.get(key)) for key in _CELLS)
    cells = tuple((name, text) for name, text in told if text)
    return SheetRow(number=row[_NUMBER], cells=cells, values=by_value(cells))


def _rows(node: Node, context: Context) -> tuple[SheetRow, ...]:
    """Read a file's rows, of which there may be none. Raises LeftOut."""
    if isinstance(node, Items) and not node.items:
        return ()
    return every(_row, "a list of rows")(node, context)


_FROM = Key("from", LINE, "the name of a file", required=True)
_ORDER = Key(
    "dates", chosen({order.value: order for order in DateOrder}, "an order of dates"), "an order of dates"
)
_TAKEN = Key("rows", _rows, "a list of rows", required=True)
FILE = Shape("a file that was taken in", (_FROM, _ORDER, _TAKEN))


def _file(node: Node, context: Context) -> TakenFile:
    """Read what was taken from one file. Raises LeftOut."""
    row: KeyedValues = take(node, FILE, context)
    row.finish()
    return TakenFile(name=row[_FROM], order=row.get(_ORDER), rows=row[_TAKEN])


def taken_files(text: str, file: str, problems: Problems) -> Mapping[str, TakenFile]:
    """Return what was taken, by the files' names. Raises LeftOut after telling what is wrong."""
    node = parse(text, file, problems)
    if node is None or (isinstance(node, Text) and not node.text):
        return {}
    context = Context(problems=problems)
    if not isinstance(node, Items):
        wrong_kind(node, _FILES, context)
    found = every(_file, _FILES)(node, context) if node.items else ()
    if problems.all():
        raise LeftOut
    return {one.name: one for one in found}
