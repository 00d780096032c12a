"""A bed drawn by what it gave: each of its squares filled as high as the weight that came from it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import head, heading
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, group, num, path, points, rect, sheet, text
from tallybed.drawing.small.frame import SmallFrame
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import AT_LEAST_WORDS, with_at_least

UNKNOWN = "?"
"""What stands in a square from which something was picked and nothing weighed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Earned:
    """What a square gave."""

    amount: Fraction
    """In one unit for all squares."""
    words: str
    """The amount as it is written in the square."""
    at_least: bool = False
    """Whether more was picked there than was weighed."""


def earned_bed(
    bed: Bed,
    earned: Mapping[Square, Earned],
    most: Fraction,
    *,
    ident: str,
    title: str,
    short: str = "",
    across: int,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of a bed as the small maps draw it; ``most`` would fill a square to its top.

    The top of a fill is broken where more was picked than was weighed. ``across``: columns
    of the longest bed beside it, so that squares are alike in all. ``short``: what is written
    over it where the title has no room. ``narrow``: the drawing
    for narrow pages; ``map.css`` shows one of the two.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    size = look.CHART_TEXT[narrow]
    least = SmallFrame(bed=bed, upright=False, side=0.0).size[0]
    frame = SmallFrame(bed=bed, upright=False, side=min(look.EARNED_SQUARE, (width - least) / across))
    top = head(size) - size * 2
    told = (f"{square.label} {_told(earned[square])}" for square in bed.squares if square in earned)
    return sheet(
        ident,
        width,
        top + frame.size[1],
        heading(title, width, size, short),
        group(
            frame.boards(),
            *_fills(frame, earned, most),
            frame.strings(),
            *_figures(frame, earned, most, size),
            frame.names(size),
            transform=f"translate(0 {num(top)})",
        ),
        title=title,
        desc=f"{', '.join(told) or 'nothing'}.",
        class_=f"chart chart-{'narrow' if narrow else 'wide'} smallmap",
    )


def _told(one: Earned) -> str:
    """Return what a square gave in words."""
    if one.words == UNKNOWN:
        return "not weighed"
    return with_at_least(one.words, AT_LEAST_WORDS) if one.at_least else one.words


def _height(frame: SmallFrame, one: Earned, most: Fraction) -> float:
    """Return how high a square is filled."""
    return frame.side * float(one.amount / most) if most else 0.0


def _fills(frame: SmallFrame, earned: Mapping[Square, Earned], most: Fraction) -> Iterator[Element]:
    """Yield what fills each square, standing on its lower string, and the line at its top."""
    for square in frame.bed.squares:
        one = earned.get(square)
        if one is None or not one.amount:
            continue
        left, top = frame.box(square)
        high = _height(frame, one, most)
        y = top + frame.side - high
        yield rect(left, y, frame.side, high, class_="d-earned", stroke="none", data_square=square.label)
        yield path(
            points(((left, y), (left + frame.side, y)), closed=False),
            class_="d-ink",
            stroke_width=look.FINE,
            stroke_dasharray=look.EARNED_OPEN if one.at_least else None,
        )


def _figures(
    frame: SmallFrame, earned: Mapping[Square, Earned], most: Fraction, size: float
) -> Iterator[Element]:
    """Yield the figure of each square: on top of its fill, or just below the top where there is no room.

    In squares too small for their figures none is written: the table beside the drawing tells them.
    """
    widest = max((width_of(one.words, size) for one in earned.values()), default=0.0)
    if frame.side < max(widest, size):
        return
    for square in frame.bed.squares:
        left, top = frame.box(square)
        one = earned.get(square)
        words = "–" if one is None else one.words
        if one is not None and one.at_least and one.words != UNKNOWN:
            signed = with_at_least(one.words, "≥")
            words = signed if width_of(signed, size) <= frame.side else words
        high = _height(frame, one, most) if one is not None else 0.0
        above = top + frame.side - high - look.GAP
        yield text(
            left + frame.side / 2,
            above if above - size * look.CAPITAL_WIDTH > top else above + look.GAP + size,
            words,
            size,
            class_="d-line-name" if one is not None else "d-figure",
            text_anchor="middle",
        )
