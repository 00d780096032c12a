"""A code to scan: an address as a QR code.

Source: ISO/IEC 18004, as the library segno computes it; the clear border is the 4
modules that the standard asks for. It is black on white in every colour scheme, since
many scanners read no other.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

import segno
from segno import DataOverflowError

from tallybed.drawing.base.svg import path, rect, sheet

BORDER = 4
"""Clear modules on each side (ISO/IEC 18004, quiet zone)."""


def scan_code(address: str, *, ident: str, title: str, sturdy: bool = False) -> str:
    """Return the SVG markup of an address as a QR code; nothing for an address too long for one.

    ``sturdy`` True lets a quarter of it be soiled instead of about a seventh.
    """
    try:
        made = segno.make(address, error="q" if sturdy else "m", micro=False, boost_error=False)
    except DataOverflowError:
        return ""
    data = "".join(
        _row(row, number + BORDER) for number, row in enumerate(made.matrix_iter(scale=1, border=0))
    )
    size = made.symbol_size(scale=1, border=BORDER)[0]
    return sheet(
        ident,
        size,
        size,
        rect(0, 0, size, size, fill="#fff", stroke="none"),
        path(data, fill="#000", stroke="none"),
        title=title,
        desc=address,
        class_="scan-code",
        shape_rendering="crispEdges",
    )


def _row(row: Iterable[int], y: int) -> str:
    """Return path data of a row's dark runs."""
    found = []
    x = BORDER
    for dark, run in groupby(row):
        length = len(list(run))
        if dark:
            found.append(f"M{x} {y}h{length}v1h-{length}z")
        x += length
    return "".join(found)
