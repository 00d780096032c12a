"""Tables in prose that would come to more cells than a page can be made of in good time."""

from __future__ import annotations

import re

MOST_CELLS = 5_000
"""Cells of all tables in one text. Our choice: a table of fifty lines by twenty has a thousand. The library
that makes markup of the text gives each line as many cells as its head has, however few are typed, so that
six thousand characters became a million cells, which took half a minute."""
_RULE = re.compile(r"(?=[^|]*\|)[-|:\s>*+.0-9]*-[-|:\s>*+.0-9]*")
"""What may be the line of hyphens below a table's head, in lists and quotations too."""


def too_large(prose: str) -> tuple[int, int] | None:
    """Return the line (from 1) of the table with which a text comes to too many cells, and how many; or None.

    Counted are the columns of a table by as many lines as its paragraph has.
    """
    cells = begun = columns = rule = 0
    for number, line in enumerate([*prose.split("\n"), ""], start=1):
        if line.strip():
            begun = begun or number
            if line.count("|") >= columns and _RULE.fullmatch(line):
                columns, rule = line.count("|") + 1, number
            continue
        cells += columns * (number - begun)
        if columns and cells > MOST_CELLS:
            return rule, cells
        begun = columns = rule = 0
    return None
