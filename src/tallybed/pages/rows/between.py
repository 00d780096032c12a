"""Season beside season: to the same date and to the end, crop by crop, and what was lost."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from tallybed.garden.days import without_year
from tallybed.pages.frame import addresses
from tallybed.pages.rows.measures import Measure, every_measure
from tallybed.pages.rows.parts import RowsPart, per_area, percent, to
from tallybed.pages.tables.tables import Cell, ColumnHead, Row, Table, figure, heads, link, text
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import counted, listed
from tallybed.reckoning.medians import FEWEST, Spread, median, spread
from tallybed.reckoning.rows.planting_yields import PlantingYield, losses
from tallybed.reckoning.rows.season import answer, crop_yields, same_day
from tallybed.reckoning.year import Year, Years


def between_part(year: Year) -> RowsPart | None:
    """Return the section that holds the seasons against each other; None for a single one."""
    years = year.years
    views = [one for one in years.all if one.lines]
    if len(views) < 2:
        return None
    measures = every_measure(years.garden)
    ended = [one for one in views if one.is_over]
    same = _same_date(years, views, measures)
    whole = _to_the_end(ended, measures) if ended else None
    lost = _losses(years)
    every = [("The seasons that are over, to their end", whole)] if same and whole else []
    every.append(("Every crop in every season", _crops(year)))
    if lost.rows:
        every.append((f"What failed or was lost: {counted(len(lost.rows), 'line')} of the log", lost))
    return RowsPart(
        ident="between",
        title="Season beside season",
        answer=listed(year.name for year in views),
        said=(
            "The same figures for each season: up to the same date, so that one under way is not held "
            "against whole ones, and then to the end."
            if same
            else "The same figures for each season, to its end.",
        ),
        tables=tuple(table for table in (same or whole,) if table),
        folded=tuple(every),
        notes=(
            f"Median and range are of the seasons in the table. With fewer than {FEWEST} seasons no interval "
            "is told: it would say nothing.",
        ),
    )


def _same_date(years: Years, views: Sequence[Year], measures: Sequence[Measure]) -> Table | None:
    """Return the seasons up to the day the garden is seen from; None where all of them are over."""
    if all(year.is_over for year in views):
        return None
    kept = [(year, day) for year in views if (day := same_day(year, years.today)) is not None]
    return _table(
        kept,
        measures,
        ident="t-same-date",
        caption=f"The seasons up to {without_year(years.today)}",
    )


def _to_the_end(ended: Sequence[Year], measures: Sequence[Measure]) -> Table:
    """Return the seasons that are over, whole."""
    kept = [(year, year.season.span.last) for year in ended]
    return _table(kept, measures, ident="t-to-the-end", caption="The seasons that are over, to their end")


def _table(
    kept: Sequence[tuple[Year, date]], measures: Sequence[Measure], *, ident: str, caption: str
) -> Table:
    """Return the measures of seasons, each up to its day."""
    found = [row for one in measures if (row := _row(one, kept))]
    said = Row(
        cells=(text("What may be said"), *(figure(_said(*one)) for one in kept), figure(""), figure(""))
    )
    return Table(
        ident=ident,
        caption=caption,
        heads=(
            ColumnHead(text="Measure"),
            *(ColumnHead(text=year.name, number=True, to=addresses.rows(year)) for year, _day in kept),
            ColumnHead(text="Median", number=True),
            ColumnHead(text="Range", number=True),
        ),
        rows=(*found, said),
    )


def _said(year: Year, day: date) -> str:
    """Return what may be said of a season up to a day, worked out once likewise."""

    def said() -> str:
        found = answer(year, day)
        return str(found.verdict) if found else "nothing weighed"

    return year.years.kept(("may be said", year.name, day), said)


def _row(one: Measure, kept: Sequence[tuple[Year, date]]) -> Row | None:
    """Return a measure's row, or None where no season has it."""
    values = [_value(one, year, day) for year, day in kept]
    known = [value for value in values if value is not None]
    found = spread(known)
    if found is None:
        return None
    cells = [
        Cell(
            text="" if value is None else one.words(value),
            number=True,
            note="not on record" if value is None else _note(one, year, day),
        )
        for value, (year, day) in zip(values, kept, strict=True)
    ]
    return Row(cells=(text(one.name), *cells, _middle(one, found), _range(one, found)))


def _value(one: Measure, year: Year, day: date) -> Fraction | None:
    """Return a measure of a season, worked out once for the pages of all seasons that tell it."""
    return year.years.kept(("measure", one.name, year.name, day), lambda: one.value(year, day))


def _note(one: Measure, year: Year, day: date) -> str:
    """Return what stands below a measure of a season, worked out once likewise."""
    note = one.note
    if note is None:
        return ""
    return year.years.kept(("note", one.name, year.name, day), lambda: note(year, day) or "")


def _middle(one: Measure, found: Spread) -> Cell:
    """Return the median of a measure, with its interval where there is one."""
    if found.interval is None:
        return figure(one.words(found.median))
    low, high = (one.words(value) for value in found.interval)
    return Cell(
        text=one.words(found.median),
        number=True,
        note=f"{percent(found.coverage)} interval {low} to {high}",
    )


def _range(one: Measure, found: Spread) -> Cell:
    """Return the lowest and the highest of a measure."""
    return figure(to(one.words(found.low), one.words(found.high)))


def _crops(year: Year) -> Table:
    """Return every crop of every season; those of the page's own season lead to their pages."""
    years = year.years
    views = [one for one in years.all if one.season.ledger is not None]
    by_crop = {
        slug: own for slug, own in crop_yields(years).items() if any(one.weight or one.ended for one in own)
    }
    rows = tuple(
        Row(
            cells=(
                _called(year, slug, by_crop[slug]),
                *(_crop_cell(view, by_crop[slug]) for view in views),
            )
        )
        for slug in sorted(by_crop, key=lambda slug: names.listed_crop(years.garden, slug).text.casefold())
    )
    return Table(
        ident="t-crops-between",
        caption="Every crop in every season: the median of its plantings over their like-for-like ground, "
        f"in {years.garden.showing.per_area_unit}",
        heads=(ColumnHead(text="Crop"), *(ColumnHead(text=one.name, number=True) for one in views)),
        rows=rows,
        notes=(
            "An empty cell: not grown that season. A planting that was lost before it gave anything counts "
            "as nothing; one of which nothing was weighed counts in no median.",
        ),
    )


def _called(year: Year, slug: str, own: tuple[PlantingYield, ...]) -> Cell:
    """Return a crop’s name; it leads to its page where this season grew it."""
    called = names.listed_crop(year.garden, slug)
    return link(called) if any(one.season == year.name for one in own) else text(called.text)


def _crop_cell(year: Year, own: tuple[PlantingYield, ...]) -> Cell:
    """Return what a crop gave in a season, with its plantings and losses."""
    here = [one for one in own if one.season == year.name and (one.weight or one.ended)]
    if not here:
        return figure("")
    known = [one for one in here if not one.unknown]
    if not known:
        return Cell(number=True, note="not weighed")
    least = any(one.at_least or not one.ended for one in known)
    lost = sum(one.lost for one in here)
    without = len(here) - len(known)
    note = "; ".join(
        filter(
            None,
            (
                "at least" if least else "",
                counted(len(here), "planting") if len(here) > 1 else "",
                f"{without} not weighed" if without else "",
                f"{lost} lost or cut short" if lost else "",
            ),
        )
    )
    middle = median([one.like_for_like for one in known])
    return Cell(text=per_area(year.garden.showing, middle), number=True, note=note)


def _losses(years: Years) -> Table:
    """Return the table of what failed or was lost."""
    rows = tuple(
        Row(
            cells=(
                link(names.listed_planting(years.garden, one.planting)),
                text(year.name),
                text(without_year(one.day)),
                figure("all" if one.plants is None else f"{one.plants:,}"),
                text(one.because),
            )
        )
        for year in years.all
        for one in losses(year.plantings, year.today)
    )
    return Table(
        ident="t-losses",
        caption="What failed or was lost",
        heads=heads("Planting", "Season", "Day", "Plants", "Cause", numbers=("Plants",)),
        rows=rows,
        notes=("“All” are all plants in the squares that the log names. A freeze ends some crops in time.",),
    )
