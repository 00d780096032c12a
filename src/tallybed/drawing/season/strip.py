"""A bed's season as a strip: a line for squares with the same story, a bar for each planting.

What was meant lies behind, pale and within dots; what happened lies before it. Bars
follow the maps: names say the crop, ground and plants the stage, the line how well it
is known.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from tallybed.drawing.base import look
from tallybed.drawing.base.patterns import textures
from tallybed.drawing.base.svg import defs, group, sheet
from tallybed.drawing.season.bars import bars, meant, plants_of
from tallybed.drawing.season.description import described
from tallybed.drawing.season.lanes import lanes
from tallybed.drawing.season.ruled_sheet import laid_out, marked, ruled, scale
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
    today: date | None = None,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of a bed's season.

    ``links``: planting's key to the address of its page. ``today``: the day up to which
    it is recorded, marked if it lies in the season. ``narrow``: the drawing for narrow
    pages; ``map.css`` shows one of the two.
    """
    placed = lanes(bed, planting_strips)
    page = laid_out(bed, span, placed, narrow=narrow)
    return sheet(
        ident,
        look.SEASON_NARROW if narrow else look.SEASON_WIDE,
        page.bottom + page.text + look.GAP + look.PAD,
        defs(
            *textures(ident, Stage, page.text),
            *plants_of(ident, (each.habit for each in planting_strips if each.courses)),
        ),
        ruled(page, placed),
        group(*meant(page, placed), class_="d-meant-all"),
        group(*bars(page, placed, planting_strips, ident, links), class_="d-bars"),
        scale(page),
        *([marked(page, today)] if today is not None and today in span else ()),
        title=title,
        desc=described(bed, span, planting_strips, today),
        linked=any(each.planting in links for each in planting_strips),
        class_=f"strip strip-{'narrow' if narrow else 'wide'}",
    )
