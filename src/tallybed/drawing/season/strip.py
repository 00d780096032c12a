"""A bed's season as a strip: a line for squares with the same story, a bar for each planting.

What was meant lies behind, pale and within dots; what happened lies before it. Bars
follow the maps: names say the crop, ground and plants the stage, the line how well it
is known.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from tallybed.drawing.base import look
from tallybed.drawing.base.flags import Flag, HungFlag, drawn, hung, knot
from tallybed.drawing.base.patterns import textures
from tallybed.drawing.base.svg import Element, defs, group, sheet
from tallybed.drawing.season.bars import bars, meant, plants_of
from tallybed.drawing.season.description import described
from tallybed.drawing.season.lanes import lanes
from tallybed.drawing.season.ruled_sheet import SeasonPage, laid_out, marked, ruled, scale
from tallybed.garden.days import Span
from tallybed.garden.squares import Bed
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.calendar.strips import PlantingStrip


def season_strip(
    bed: Bed,
    span: Span,
    planting_strips: tuple[PlantingStrip, ...],
    *,
    ident: str,
    title: str,
    links: Mapping[str, str],
    flags: Sequence[Flag] = (),
    today: date | None = None,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of a bed's season.

    ``links``: planting's key to the address of its page. ``flags``: titles to hang above
    the months, those first that room is looked for. ``today``: the day up to which
    it is recorded, marked if it lies in the season. ``narrow``: the drawing for narrow
    pages; ``map.css`` shows one of the two.
    """
    placed = lanes(bed, planting_strips)
    page = laid_out(span, placed, narrow=narrow)
    titles = hung(
        flags[: look.FLAG_MOST[narrow]],
        x=page.x,
        edges=(look.PAD, page.right),
        rows=look.FLAG_ROWS,
        size=page.text,
    )
    page = _lowered(page, _band(page, titles) if flags else 0.0)
    return sheet(
        ident,
        look.SEASON_NARROW if narrow else look.SEASON_WIDE,
        page.bottom + page.text + look.GAP + look.PAD,
        defs(
            *textures(ident, Stage, page.text),
            *plants_of(ident, (each for each in planting_strips if each.courses)),
        ),
        ruled(page, placed),
        group(*meant(page, placed), class_="d-meant-all"),
        group(*bars(page, placed, planting_strips, ident, links), class_="d-bars"),
        scale(page),
        *_titled(page, flags, titles),
        *([marked(page, today)] if today is not None and today in span else ()),
        title=title,
        desc=described(bed, span, planting_strips, today),
        linked=any(each.planting in links for each in planting_strips) or any(flag.to for flag in flags),
        class_=f"strip strip-{'narrow' if narrow else 'wide'}",
    )


def _band(page: SeasonPage, titles: Sequence[HungFlag]) -> float:
    """Return the height that titles and their knots need above the months."""
    rows = max((one.row + 1 for one in titles), default=0)
    return rows * page.text * look.FLAG_ROW + look.FLAG_KNOT * 2 + look.GAP


def _lowered(page: SeasonPage, by: float) -> SeasonPage:
    """Return the sheet moved down."""
    return replace(page, top=page.top + by, rows=tuple(row + by for row in page.rows))


def _titled(page: SeasonPage, flags: Sequence[Flag], titles: Sequence[HungFlag]) -> tuple[Element, ...]:
    """Return the titles that have room, by day, and a knot at each day that the log tells of."""
    if not flags:
        return ()
    axis = page.top - look.SEASON_HEAD - look.FLAG_KNOT
    pitch = page.text * look.FLAG_ROW
    marks = sorted({page.x(flag.day) for flag in flags})
    return (
        *(
            drawn(one, axis=axis, baseline=axis - look.GAP * 1.5 - one.row * pitch, size=page.text)
            for one in sorted(titles, key=lambda one: one.flag.day)
        ),
        group(*(knot(x, axis) for x in marks), class_="d-knots"),
    )
