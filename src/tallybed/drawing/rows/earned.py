"""A bed with a square in each of its squares, as large as the weight that the square gave."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import head, heading
from tallybed.drawing.base.svg import Element, group, rect, sheet, text
from tallybed.garden.squares import Bed, Square, column_letters


@dataclass(frozen=True, slots=True, kw_only=True)
class Earned:
    """What a square gave."""

    amount: Fraction
    """In one unit for all squares."""
    words: str
    """The amount as it is written in the square."""


def earned_bed(
    bed: Bed,
    earned: Mapping[Square, Earned],
    most: Fraction,
    *,
    ident: str,
    title: str,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of a bed; the inner square of area ``most`` would fill its square.

    ``narrow``: the drawing for narrow pages; ``map.css`` shows one of the two.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    size = look.CHART_TEXT[narrow]
    edge = size * 1.6
    side = min(look.EARNED_SQUARE, (width - 2 * look.PAD - edge) / bed.columns)
    left, top = look.PAD + edge, head(size) - size
    letters = [
        text(
            left + side * (column + 0.5),
            top - size * 0.5,
            column_letters(column),
            size,
            class_="d-figure",
            text_anchor="middle",
        )
        for column in range(bed.columns)
    ]
    numbers = [
        text(
            left - look.GAP,
            top + side * (row + 0.5) + size * look.MIDDLE,
            str(row + 1),
            size,
            class_="d-figure",
            text_anchor="end",
        )
        for row in range(bed.rows)
    ]
    cells = [
        _cell(
            square,
            earned.get(square),
            most,
            at=(left + side * square.column, top + side * square.row),
            side=side,
            size=size,
        )
        for square in bed.squares
    ]
    told = (f"{square.label} {earned[square].words}" for square in bed.squares if square in earned)
    return sheet(
        ident,
        width,
        top + side * bed.rows + look.PAD,
        heading(title, width, size),
        *letters,
        *numbers,
        *cells,
        title=title,
        desc=f"{', '.join(told) or 'nothing'}.",
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _cell(
    square: Square,
    one: Earned | None,
    most: Fraction,
    *,
    at: tuple[float, float],
    side: float,
    size: float,
) -> Element:
    """Draw one square with what it gave."""
    x, y = at
    shapes = [rect(x, y, side, side, class_="d-square", stroke_width=look.FINE)]
    if one is not None and one.amount and most:
        own = (side - 2) * sqrt(one.amount / most)
        inset = (side - own) / 2
        shapes.append(rect(x + inset, y + inset, own, own, class_="d-earned", stroke_width=look.HAIR))
    words = one.words if one is not None else "–"
    middle = y + side / 2 + size * look.MIDDLE
    shapes.append(
        text(
            x + side / 2,
            middle,
            words,
            size,
            halo=look.HALO,
            class_="d-line-name" if one is not None else "d-figure",
            text_anchor="middle",
        )
    )
    return group(*shapes, class_="d-cell", data_square=square.label)
