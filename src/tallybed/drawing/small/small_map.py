"""A small map of a bed: which squares were touched on a visit."""

from __future__ import annotations

from collections.abc import Mapping

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped
from tallybed.drawing.base.svg import Element, group, rect, sheet, text
from tallybed.drawing.small.frame import SmallFrame
from tallybed.garden.grouping import grouped
from tallybed.garden.squares import Bed, Square, in_words


def _within(bed: Bed, held: Mapping[Square, str]) -> dict[Square, str]:
    """Return what is held of one bed's squares, in their order."""
    return {square: held[square] for square in bed.squares if square in held}


def small_map(bed: Bed, touched: Mapping[Square, str], ident: str, *, when: str, upright: bool) -> str:
    """Return the SVG markup of a small map with the squares of a visit marked.

    ``touched``: squares with the letters to write in each, several plantings' letters apart by
    spaces; squares of other beds are left out. ``when``: the day of the visit, in words. It lies
    as the large maps do: flat on wide pages and paper, ``upright`` on narrow ones.
    """
    marked = _within(bed, touched)
    frame = SmallFrame.fitting(bed, upright=upright)
    return sheet(
        ident,
        *frame.size,
        frame.boards(),
        group(*(_touched(frame, square, marked[square]) for square in marked), class_="d-marked"),
        frame.strings(),
        frame.names(),
        title=f"{bed.title}, {when}: {_summed(marked)}",
        desc=_described(marked),
        class_=f"smallmap smallmap-{'upright' if upright else 'flat'}",
    )


def _touched(frame: SmallFrame, square: Square, letters: str) -> Element:
    """Draw one touched square with the letters in it, two lines at the most."""
    (left, top), side = frame.box(square), frame.side
    words = letters.split()
    lines = words if len(words) <= 2 else [words[0], f"+ {len(words) - 1}"]
    size = look.SMALL_TEXT
    base = top + side / 2 + size * (look.MIDDLE - 0.52 * (len(lines) - 1))
    return group(
        rect(left + 1.5, top + 1.5, side - 3, side - 3, class_="d-touched", stroke_width=look.INK),
        *(
            text(
                left + side / 2,
                base + index * size * 1.04,
                clipped(line, size, side - 0.5, bold=True),
                size,
                class_="d-letters",
                text_anchor="middle",
            )
            for index, line in enumerate(lines)
        ),
        data_square=square.label,
    )


def _summed(marked: Mapping[Square, str]) -> str:
    """Return the touched squares in words."""
    return f"touched {in_words(marked, with_bed=False)}" if marked else "no square touched"


def _described(marked: Mapping[Square, str]) -> str:
    """Return which squares were touched, crop by crop, or nothing where none was."""
    by_letters = grouped(marked, lambda square: marked[square])
    parts = [
        f"{letters or 'the bed'} in {in_words(squares, with_bed=False)}"
        for letters, squares in by_letters.items()
    ]
    return "; ".join(parts)
