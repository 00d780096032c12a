"""One dot a planting, all seasons in one drawing, and the same in a table."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tallybed.drawing.rows.dots import CropDots, PlantingDot, planting_dots
from tallybed.pages.drawings.charts import both
from tallybed.pages.rows.parts import RowsPart, per_area, to
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, link, text
from tallybed.pages.wording import names
from tallybed.reckoning.medians import median
from tallybed.reckoning.rows.planting_yields import PlantingYield
from tallybed.reckoning.rows.printed import Printed
from tallybed.reckoning.rows.season import crop_verdict, crop_yields, printed_yields
from tallybed.reckoning.rows.verdicts import NOISE, Verdict
from tallybed.reckoning.year import Year, Years


def plantings_part(year: Year) -> RowsPart | None:
    """Return the section with every planting of every season over the printed range of its crop.

    None where no planting of a crop with a printed row yield has a weight.
    """
    years = year.years
    crops = ordered(years)
    drawn_crops = tuple(_dots(year, slug) for slug in crops if known(years, slug))
    if not drawn_crops:
        return None

    def drawn(narrow: bool, name: str) -> str:
        return planting_dots(
            drawn_crops,
            season=year.name,
            ident=name,
            title="Each planting beside printed yields",
            narrow=narrow,
        )

    return RowsPart(
        ident="plantings",
        title="Planting by planting",
        stands_open=True,
        said=(
            "Each dot is one planting, all seasons together: its weight over its squares, the ground its "
            "vines were led out over, and its squares’ share of the path. That is like the ground of a row. "
            "The pale twin stands on the squares alone.",
            "The band is what is printed for rows of that crop. Crops stand in the order of how far their "
            "dots lie from the band.",
        ),
        charts=(both(drawn, "c-plantings"),),
        folded=(("The same in a table", _table(years, crops)),),
        notes=(
            "A square that two crops shared is counted whole for each, which makes both look low. A planting "
            "is open where something of it was not weighed, where a picking nobody put down to a planting "
            "may have been its own, or where it still stands: its true figure is at least this. One of "
            "which nothing was weighed has no dot and counts in no median, unless it was lost: then it gave "
            "nothing.",
        ),
    )


def shown(years: Years, slug: str) -> tuple[PlantingYield, ...]:
    """Return the plantings of a crop that there is something to show of.

    One that still stands and has given nothing yet is left out.
    """
    return tuple(one for one in crop_yields(years).get(slug, ()) if one.weight or one.ended)


def known(years: Years, slug: str) -> tuple[PlantingYield, ...]:
    """Return those of them of which it is known what they gave, in part at least."""
    return tuple(one for one in shown(years, slug) if not one.unknown)


def ordered(years: Years) -> list[str]:
    """Return the crops with a printed row yield and a planting to show, by how far they lie from the band.

    The furthest above it is first, the furthest below it last.
    """
    every = (slug for slug in printed_yields(years) if shown(years, slug))
    return sorted(every, key=lambda slug: _distance(years, slug))


def _distance(years: Years, slug: str) -> tuple[bool, Fraction, Fraction, str]:
    """Return how far a crop's median lies below its band (negative: above), in times; then within it.

    Crops without a median come last.
    """
    printed, values = printed_yields(years)[slug], [one.like_for_like for one in known(years, slug)]
    if not values:
        return True, Fraction(0), Fraction(0), slug
    middle = median(values)
    outside = Fraction(0)
    if middle > printed.high:
        outside = -middle / printed.high
    elif middle < printed.low:
        outside = printed.low / middle if middle else Fraction(10**9)
    return False, outside, -middle / printed.middle, slug


def _dots(year: Year, slug: str) -> CropDots:
    """Return a crop with its band and its dots."""
    years = year.years
    printed = printed_yields(years)[slug]
    judged = [one.like_for_like for one in shown(years, slug) if one.counts]
    return CropDots(
        name=names.listed_crop(years.garden, slug).text,
        verdict=str(crop_verdict(years, slug) or Verdict.UNKNOWN),
        low=printed.low,
        middle=printed.middle,
        high=printed.high,
        near=(printed.low / NOISE, printed.high * NOISE),
        median=median(judged) if judged else None,
        dots=tuple(_dot(year, one) for one in known(years, slug)),
    )


def _dot(year: Year, one: PlantingYield) -> PlantingDot:
    """Return one planting’s dot."""
    return PlantingDot(
        name=f"{names.planting_words(year.garden, one.planting)}, {one.season}",
        value=one.like_for_like,
        twin=one.on_squares,
        present=one.season == year.name,
        open=one.at_least or not one.ended,
    )


def _table(years: Years, crops: list[str]) -> Table:
    """Return every planting, crop by crop."""
    showing = years.garden.showing
    columns = (
        f"Weight, {showing.unit}",
        f"Ground, {showing.area_unit}",
        f"Over that ground, {showing.per_area_unit}",
        f"Over its squares, {showing.per_area_unit}",
    )
    rows = [row for slug in crops for row in _rows(years, slug)]
    return Table(
        ident="t-plantings",
        caption="Every planting of a crop with a printed row yield",
        heads=heads("Planting", "Season", *columns, "Printed for rows", numbers=columns),
        rows=tuple(rows),
    )


def _rows(years: Years, slug: str) -> Iterator[Row]:
    """Yield the plantings of a crop, then its median and what may be said."""
    showing, printed = years.garden.showing, printed_yields(years)[slug]
    for one in shown(years, slug):
        weighed = "not weighed" if one.unknown else "at least" if one.at_least else ""
        state = "" if one.ended else "still stands"
        note = "; ".join(filter(None, (weighed, state, "lost or cut short" if one.lost else "")))
        yield Row(
            cells=(
                link(names.listed_planting(years.garden, one.planting)),
                text(one.season),
                Cell(text=_told(one, showing.number(one.weight, 2)), number=True, note=note),
                figure(showing.area_number(one.ground.whole)),
                figure(_told(one, per_area(showing, one.like_for_like))),
                figure(_told(one, per_area(showing, one.on_squares))),
                text(_printed(years, printed)),
            )
        )
    yield Row(
        cells=(
            text(names.listed_crop(years.garden, slug).text),
            text(""),
            figure(""),
            figure(""),
            figure(_median(years, slug)),
            figure(""),
            text(str(crop_verdict(years, slug))),
        ),
        mark="total",
    )


def _told(one: PlantingYield, words: str) -> str:
    """Return a figure of what a planting gave; nothing where that is not known."""
    return "" if one.unknown else words


def _printed(years: Years, printed: Printed) -> str:
    """Return the printed range in words."""
    showing = years.garden.showing
    return to(per_area(showing, printed.low), per_area(showing, printed.high))


def _median(years: Years, slug: str) -> str:
    """Return the median of what may be judged, in words; empty for none."""
    judged = [one.like_for_like for one in shown(years, slug) if one.counts]
    return f"median {per_area(years.garden.showing, median(judged))}" if judged else ""
