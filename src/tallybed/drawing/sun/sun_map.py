"""The map of one bed's hours of direct sun: the bed as ever, a figure in each square."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.patterns import HATCH, tiles
from tallybed.drawing.base.svg import Element, defs, group, path, rect, sheet, text
from tallybed.drawing.bedmap import outside, surround
from tallybed.drawing.bedmap.layout import Layout
from tallybed.drawing.bedmap.margins import laid_out
from tallybed.drawing.bedmap.swatches import WHOLE, boxed, framed
from tallybed.garden.days import hours_words
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import IN_FEET, Showing

STEPS = (2, 4, 6, 8)
"""Hours at which the ground is drawn a step lighter."""
STEP_WORDS = ("under 2 hours", "2 to 4 hours", "4 to 6 hours", "6 to 8 hours", "8 hours and more")
WORTH_TELLING = 0.05
"""Hours below which a loss is shown as none."""
_FIGURE, _SMALLER = 1.55, (1.15, 1.0)
"""Sizes of a square's hours, as multiples of the text around them: with three lines, and with one."""
_LINES = 4.6
"""Height of a square that holds three lines, as a multiple of the text size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareHours:
    """What a square of the map says."""

    hours: float
    """Hours of direct sun a day."""
    lost: float
    """Hours a day lost to neighbouring plantings."""
    name: str
    """What stands in it; empty for bare ground."""
    tag: str = ""
    """What is written where the name has no room."""


class Figures(StrEnum):
    """How the hours stand in the squares of a map: all of them alike, as their width allows."""

    TENTHS = "hours"
    FULL = "full hours"
    NONE = ""

    def of(self, hours: float) -> str:
        """Return a square's hours as they stand in it; full ones lie in the same step of light."""
        if self is Figures.NONE:
            return ""
        return f"{hours:.1f}" if self is Figures.TENTHS else str(int(round(hours, 1)))


def sun_map(
    bed: Bed,
    squares: Mapping[Square, SquareHours],
    *,
    ident: str,
    when: str,
    kind: str,
    upright: bool = False,
    showing: Showing = IN_FEET,
) -> str:
    """Return the SVG markup of a bed's sun, for inside an HTML page.

    ``ident`` begins every id; ``when`` says over which days; ``kind`` is the month's, as
    for ``bed_maps``; ``upright`` draws for narrow pages.
    """
    layout = laid_out(bed, {}, upright=upright, showing=showing)
    figures, size = _figures(layout, squares)
    return sheet(
        ident,
        layout.width,
        layout.size[1],
        defs(*tiles(ident, [HATCH] if bed.paths else ())),
        group(*outside.paths(layout, ident), class_="d-grounds"),
        surround.boards(layout, kind),
        group(*_grounds(layout, squares), class_="d-soils"),
        surround.twine(layout),
        group(*outside.trellises(layout), class_="d-trellises"),
        group(*outside.names(layout, showing, run_outs=False), class_="d-around"),
        group(
            *(_words(layout, square, one, figures.of(one.hours), size) for square, one in squares.items()),
            class_="d-hours",
        ),
        surround.names(layout),
        surround.scales(layout, showing),
        surround.stake(layout),
        *surround.head(layout, bed.title, f"Hours of direct sun a day, {when}", kind),
        title=f"{bed.title}: hours of direct sun a day, {when}",
        desc=_described(squares),
        width_=round(layout.least * look.GROWS),
        class_=f"bedmap bedmap-{'upright' if upright else 'flat'} sunmap kind-{kind}",
    )


def figures_of(
    bed: Bed, squares: Mapping[Square, SquareHours], *, upright: bool, showing: Showing = IN_FEET
) -> Figures:
    """Return how the hours stand in the squares of the map that is drawn of them."""
    figures, _size = _figures(laid_out(bed, {}, upright=upright, showing=showing), squares)
    return figures


def _figures(layout: Layout, squares: Mapping[Square, SquareHours]) -> tuple[Figures, float]:
    """Return how the hours stand in the squares, and in which size: as much as has room in each of them."""
    side = layout.side * look.PER_INCH
    for figures in (Figures.TENTHS, Figures.FULL):
        for times in (_FIGURE,) if _holds_three(layout) else _SMALLER:
            size = layout.text * times
            if all(width_of(figures.of(one.hours), size, bold=True) <= side for one in squares.values()):
                return figures, size
    return Figures.NONE, layout.text


def _holds_three(layout: Layout) -> bool:
    """Return whether a square has room for three lines."""
    return layout.side * look.PER_INCH >= layout.text * _LINES


def step(hours: float) -> int:
    """Return in which step of light some hours lie, from 0."""
    return sum(round(hours, 1) >= bound for bound in STEPS)


def sun_swatches() -> tuple[tuple[str, str], ...]:
    """Return the legend's swatches with their words, the most sun first."""
    found = []
    for number, words in reversed(list(enumerate(STEP_WORDS))):
        ground = rect(*WHOLE, class_=f"d-sun sun-{number}", stroke="none")
        found.append((framed(ground, boxed()), words))
    return tuple(found)


def _grounds(layout: Layout, squares: Mapping[Square, SquareHours]) -> Iterator[Element]:
    for number in range(len(STEP_WORDS)):
        own = [square for square, one in squares.items() if step(one.hours) == number]
        if own:
            yield path(surround.ring(layout, own, 0), class_=f"d-sun sun-{number}", stroke="none")


def _words(layout: Layout, square: Square, one: SquareHours, figure: str, big: float) -> Element:
    """Write a square's hours, with what stands there above and what it loses below, where there is room."""
    left, top, width, height = layout.block(square, square)
    size, middle = layout.text, left + width / 2
    whole = _holds_three(layout)
    room = width - 2 * look.GAP
    lines = []
    if whole and one.name:
        fits = not one.tag or width_of(one.name, size) <= room
        name = clipped(one.name if fits else one.tag, size, room)
        lines.append(_line(middle, top + size * 1.2, name, size, "d-note"))
    if figure:
        lines.append(_line(middle, top + height / 2 + big * 0.36, figure, big, "d-letters"))
    lost = f"−{one.lost:.1f}"
    if whole and one.lost >= WORTH_TELLING and width_of(lost, size) <= room:
        lines.append(_line(middle, top + height - size * 0.5, lost, size, "d-note"))
    return group(*lines, class_="d-sun-square", data_square=square.label)


def _line(x: float, y: float, words: str, size: float, name: str) -> Element:
    return text(x, y, words, size, class_=name, text_anchor="middle")


def _described(squares: Mapping[Square, SquareHours]) -> str:
    found = []
    for square, one in squares.items():
        lost = f", {hours_words(one.lost)} lost to neighbours" if one.lost >= WORTH_TELLING else ""
        found.append(f"{square.label}, {one.name or 'bare'}: {hours_words(one.hours)}{lost}.")
    return " ".join(found)
