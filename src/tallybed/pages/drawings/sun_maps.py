"""Maps of the sun as pages hold them, and their legend."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from markupsafe import Markup

from tallybed.drawing.sun.sun_map import WORTH_TELLING, SquareHours, figures_of, sun_map, sun_swatches
from tallybed.garden.days import Month
from tallybed.garden.squares import Bed, Square
from tallybed.pages.drawings.kept import kept_drawing
from tallybed.pages.drawings.maps import BedMaps, LegendPart, LegendRow
from tallybed.reckoning.calendar.month_state import MonthState
from tallybed.reckoning.year import Year

WIDE = "on a wide page and on paper"


def sun_maps(
    year: Year, bed: Bed, squares: Mapping[Square, SquareHours], month: Month, kind: MonthState
) -> BedMaps:
    """Return the map of a bed's sun in a month, for wide pages and for narrow ones."""
    flat, upright = (
        kept_drawing(
            year.years,
            sun_map,
            bed,
            squares,
            ident=f"map-{name}",
            when=str(month),
            kind=kind,
            upright=turned,
            showing=year.garden.showing,
        )
        for name, turned in (("flat", False), ("upright", True))
    )
    return BedMaps.drawn(flat, upright)


def sun_legend(
    year: Year, bed: Bed, squares: Mapping[Square, SquareHours], maps: BedMaps
) -> tuple[LegendPart, ...]:
    """Return what the map's grounds and figures mean, told by the figures of a square that has both."""
    losing = [square for square, one in squares.items() if one.lost >= WORTH_TELLING]
    sample = next(iter(losing or squares))
    told = [*_hours(year, bed, squares, sample)]
    if losing and ">−" in maps.flat:
        # The squares of a narrow map may have no room for it.
        where = "" if ">−" in maps.upright else WIDE
        told.append((f"−{squares[sample].lost:.1f}", "hours a day that neighbours take from it", where))
    grounds = tuple(
        LegendRow(swatch=Markup(swatch), sign="", words=words, detail="", to="")  # noqa: S704
        for swatch, words in sun_swatches()
    )
    figures = tuple(
        LegendRow(swatch=Markup(""), sign=sign, words=words, detail=detail, to="")
        for sign, words, detail in told
    )
    parts = (
        LegendPart(title="Direct sun a day", rows=grounds),
        LegendPart(title="In a square", rows=figures),
    )
    return tuple(part for part in parts if part.rows)


def _hours(
    year: Year, bed: Bed, squares: Mapping[Square, SquareHours], sample: Square
) -> Iterator[tuple[str, str, str]]:
    """Yield a figure as the maps have it, what it is, and which of the two has it where the other has not."""
    wide, narrow = (
        figures_of(bed, squares, upright=upright, showing=year.garden.showing) for upright in (False, True)
    )
    places = {wide: ""} if wide is narrow else {wide: WIDE, narrow: "on a narrow page"}
    for figures, where in places.items():
        if figures:
            yield figures.of(squares[sample].hours), f"{figures} of sun a day, here in {sample.label}", where
