"""Tables as plain text, for a terminal: columns lined up, figures to the right."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.pages.tables.tables import Cell, Table

_GAP = "  "


def plain(table: Table) -> str:
    """Return a table as lines of text: caption, heads, rule, rows, foot, notes."""
    heads = [head.text for head in table.heads]
    rows = [[_words(cell) for cell in row.cells] for row in (*table.rows, *table.foot)]
    right = [
        head.number or all(row.cells[place].number for row in table.rows)
        for place, head in enumerate(table.heads)
    ]
    widths = [max(len(row[place]) for row in [heads, *rows]) for place in range(len(heads))]
    lines = [table.caption, *_lines([heads], widths, right), _GAP.join("-" * width for width in widths)]
    return "\n".join([*lines, *_lines(rows, widths, right), *table.notes])


def _lines(rows: list[list[str]], widths: list[int], right: list[bool]) -> Iterator[str]:
    """Yield rows as lines of text in columns; ``right`` says which are flush right."""
    for row in rows:
        cells = zip(row, widths, right, strict=True)
        yield _GAP.join(
            text.rjust(width) if flush else text.ljust(width) for text, width, flush in cells
        ).rstrip()


def _words(cell: Cell) -> str:
    """Return a cell's words, its links and its note."""
    links = ", ".join(one.text for one in cell.links)
    words = ", ".join(part for part in (cell.text, links) if part)
    return f"{words} ({cell.note})" if cell.note and words else words or cell.note
