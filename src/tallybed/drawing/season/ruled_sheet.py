"""The ruled sheet of a season strip: lines of squares, the months along them, the day of the records."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import along, named_months
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, group, line, path, points, rect, text
from tallybed.drawing.season.lanes import Block, Lanes
from tallybed.garden.days import ONE_DAY, Span, short
from tallybed.garden.squares import Square, in_words


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonPage:
    """Where days and squares lie."""

    span: Span
    left: float
    top: float
    width: float
    narrow: bool
    rows: tuple[float, ...]
    """Where each line begins, in bed order, and where the last one ends."""

    @property
    def text(self) -> float:
        """Size of names of squares and months."""
        return look.SEASON_TEXT[self.narrow]

    @property
    def letters(self) -> float:
        """Size of a crop's letters."""
        return look.SEASON_LETTERS[self.narrow]

    def x(self, day: date) -> float:
        """Return where a day begins; days outside the season lie at its ends."""
        return along(self.span, day, self.left, self.width)

    def band(self, block: Block, *, inset: float) -> tuple[float, float]:
        """Return where a block begins and ends down the page, ``inset`` within its line."""
        top, bottom = self.rows[block.top], self.rows[block.bottom + 1]
        if block.of > 1:
            lane = (bottom - top) / block.of
            top, bottom = top + lane * block.lane, top + lane * (block.lane + 1)
        return top + inset, bottom - inset

    @property
    def bottom(self) -> float:
        """Where the last line ends."""
        return self.rows[-1]

    @property
    def right(self) -> float:
        """Where the season ends."""
        return self.left + self.width


def laid_out(span: Span, placed: Lanes, *, narrow: bool) -> SeasonPage:
    """Lay the sheet out: a line for squares with the same story, deeper where plantings share them."""
    width = look.SEASON_NARROW if narrow else look.SEASON_WIDE
    left = max(width_of(_named(line), look.SEASON_TEXT[narrow]) for line in placed.lines) + look.GAP * 2
    rows = [look.SEASON_HEAD]
    for index in range(len(placed.lines)):
        rows.append(rows[-1] + look.SEASON_LANE * placed.depth(index))
    return SeasonPage(
        span=span,
        left=left,
        top=look.SEASON_HEAD,
        width=width - left - look.PAD,
        narrow=narrow,
        rows=tuple(rows),
    )


def _named(line: tuple[Square, ...]) -> str:
    """Return the name of a line: ``A1``, ``A1:B1``."""
    return in_words(line, with_bed=False)


def ruled(page: SeasonPage, placed: Lanes) -> Element:
    """Rule the sheet: strings between lines, strong ones between rows of the bed, a staple at each month."""
    fine, strong, names = "", "", []
    for index, line_ in enumerate(placed.lines):
        y = page.rows[index]
        edge = points(((page.left, y), (page.right, y)), closed=False)
        if index and placed.lines[index - 1][0].row != line_[0].row:
            strong += edge
        else:
            fine += edge
        middle = y + look.SEASON_LANE * placed.depth(index) / 2
        names.append(
            text(
                page.left - look.GAP,
                middle + look.MIDDLE * page.text,
                _named(line_),
                page.text,
                class_="d-name",
                text_anchor="end",
            )
        )
    fine += points(((page.left, page.bottom), (page.right, page.bottom)), closed=False)
    half = look.STAPLE / 2
    staples = "".join(
        points(((page.x(month.first), y - half), (page.x(month.first), y + half)), closed=False)
        for month in page.span.months[1:]
        for y in page.rows
    )
    return group(
        path(fine, class_="d-twine", stroke_width=look.HAIR),
        path(strong, class_="d-twine", stroke_width=look.INK) if strong else group(),
        path(staples, class_="d-ink", stroke_width=look.FINE) if staples else group(),
        rect(
            page.left,
            page.top,
            page.width,
            page.bottom - page.top,
            class_="d-ink",
            stroke_width=look.FINE,
        ),
        *names,
        class_="d-ruled",
    )


def scale(page: SeasonPage) -> Element:
    """Write the months above and below."""
    size = page.text
    names = [
        text(middle, y, name, size, class_="d-figure", text_anchor="middle")
        for middle, name in named_months(page.span, page.left, page.width, size)
        for y in (page.top - look.GAP, page.bottom + size + look.GAP / 2)
    ]
    return group(*names, class_="d-months")


def marked(page: SeasonPage, today: date) -> Element:
    """Mark the end of the last day that is recorded."""
    x = page.x(today + ONE_DAY)
    size = page.text
    words, over = short(today), look.TICK / 2
    half = width_of(words, size) / 2
    return group(
        line(x, page.top - over, x, page.bottom + over, class_="d-today", stroke_width=look.INK),
        text(
            min(max(x, page.left + half), page.right - half),
            page.top - look.GAP - size * 1.15,
            words,
            size,
            class_="d-title",
            text_anchor="middle",
        ),
        class_="d-now",
    )
