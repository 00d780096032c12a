"""What was taken from which spreadsheet, as the text of its record.

``ledger`` writes it together with the rows.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import yaml

from tallybed.garden.records.pickings import SheetRow
from tallybed.writing.ledger_row import in_braces, scalar

OPENING = """\
# Written by tallybed take-in: what was taken from which file, so that no row is taken twice.
# A row deleted here counts as new the next time its file is taken in.
"""


_COMMENT = re.compile(r"[ \t]*(#.*)")
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

Part = tuple[str, str]
"""What a line of the record is about: a file by its name, and one of its keys or the number of a row."""


def record_text(files: Iterable[tuple[str, str, Sequence[SheetRow]]], before: str = "") -> str:
    """Return the record's text: for each file its name, the order of its dates if settled, its rows.

    Comments that somebody wrote into the text ``before`` are kept: at the end of a line of the
    same file and row, and else above all rows.
    """
    above, behind = _comments(before)

    def line(text: str, file: str, part: str) -> str:
        """Return a line of the record with the comment that stood at its end."""
        own = behind.get((file, part))
        return f"{text}  {own.pop(0)}\n" if own else f"{text}\n"

    rows_told: list[str] = []
    for name, order, rows in files:
        rows_told.append(line(f"- from: {scalar(name)}", name, "from"))
        if order:
            rows_told.append(line(f"  dates: {order}", name, "dates"))
        rows_told.append(line("  rows:" if rows else "  rows: []", name, "rows"))
        for row in rows:
            told = in_braces([("row", str(row.number)), *row.cells])
            rows_told.append(line(f"    - {told}", name, str(row.number)))
    above += [one for left in behind.values() for one in left]
    return "".join((OPENING, *(f"{one}\n" for one in above), *rows_told))


def _comments(text: str) -> tuple[list[str], dict[Part, list[str]]]:
    """Return the comments on lines of their own, and those at the ends of lines by what these are about."""
    known = OPENING.splitlines()
    lines = text.splitlines()
    above: list[str] = []
    behind: dict[Part, list[str]] = {}
    if not any("#" in line for line in lines if line not in known):
        return above, behind
    ends: dict[int, int] = {}
    within: set[int] = set()  # a sign there is part of a text of several lines
    for token in yaml.scan(text, Loader=_LOADER):
        within.update(range(token.start_mark.line, token.end_mark.line))
        ends[token.end_mark.line] = max(ends.get(token.end_mark.line, 0), token.end_mark.column)
    starts = sorted(_parts(text))
    for number, line in enumerate(lines):
        match = _COMMENT.fullmatch(line, ends.get(number, 0))
        if match is None or number in within or line in known:
            continue
        at = bisect_right(starts, number, key=lambda one: one[0])
        if at and ends.get(number, 0):
            behind.setdefault(starts[at - 1][1], []).append(match[1])
        else:
            above.append(match[1])
    return above, behind


def _parts(text: str) -> Iterator[tuple[int, Part]]:
    """Yield the line on which each part of a record begins, from 0."""
    root = yaml.compose(text, Loader=_LOADER)
    for file in root.value if root else ():
        pairs = {key.value: (key, value) for key, value in file.value}
        name = pairs["from"][1].value
        for key, value in pairs.values():
            yield key.start_mark.line, (name, key.value)
            for row in value.value if key.value == "rows" and isinstance(value.value, list) else ():
                number = next(told.value for known, told in row.value if known.value == "row")
                yield row.start_mark.line, (name, number)
