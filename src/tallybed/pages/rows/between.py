"""Season beside season: to the same date and to the end, crop by crop, and what was lost."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.garden.days import without_year
from tallybed.garden.garden import Garden
from tallybed.garden.units import GALLON, KILOGRAM, LITRE, POUND, rounded
from tallybed.pages.frame import addresses
from tallybed.pages.rows.parts import RowsPart, per_area, percent, to
from tallybed.pages.tables.tables import Cell, ColumnHead, Row, Table, figure, heads, link, text
from tallybed.pages.wording import names
from tallybed.pages.wording.money import money
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.effort.season import season_costs, season_value, season_water, season_work
from tallybed.reckoning.medians import FEWEST, Spread, median, spread
from tallybed.reckoning.rows.planting_yields import PlantingYield, losses
from tallybed.reckoning.rows.season import Answer, answer, crop_yields, same_day
from tallybed.reckoning.rows.squares import use_by_month
from tallybed.reckoning.year import Year, Years

_Words = Callable[[Fraction], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One quantity of a season up to a day, and how it is written."""

    name: str
    value: Callable[[Year, date], Fraction | None]
    words: _Words
    note: Callable[[Year, date], str] | None = None


def between_part(year: Year) -> RowsPart | None:
    """Return the section that holds the seasons against each other; None for a single one."""
    years = year.years
    views = [one for one in years.all if one.lines]
    if len(views) < 2:
        return None
    measures = _measures(years.garden)
    ended = [one for one in views if one.is_over]
    tables = [_same_date(years, views, measures)]
    if ended:
        tables.append(_to_the_end(ended, measures))
    lost = _losses(years)
    every = [("Every crop in every season", _crops(year))]
    if lost.rows:
        every.append((f"What failed or was lost: {counted(len(lost.rows), 'line')} of the log", lost))
    return RowsPart(
        ident="between",
        title="Season beside season",
        said=(
            "The same figures for each season: up to the same date, so that one under way is not held "
            "against whole ones, and then to the end.",
        ),
        tables=tuple(tables),
        folded=tuple(every),
        notes=(
            f"Median and range are of the seasons in the table. With fewer than {FEWEST} seasons no interval "
            "is told: it would say nothing.",
        ),
    )


def _same_date(years: Years, views: Sequence[Year], measures: Sequence[Measure]) -> Table:
    kept = [(year, day) for year in views if (day := same_day(year)) is not None]
    return _table(
        kept,
        measures,
        ident="t-same-date",
        caption=f"The seasons up to {without_year(years.today)}",
    )


def _to_the_end(ended: Sequence[Year], measures: Sequence[Measure]) -> Table:
    kept = [(year, year.season.span.last) for year in ended]
    return _table(kept, measures, ident="t-to-the-end", caption="The seasons that are over, to their end")


def _table(
    kept: Sequence[tuple[Year, date]], measures: Sequence[Measure], *, ident: str, caption: str
) -> Table:
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
    found = answer(year, day)
    return str(found.verdict) if found else "nothing weighed"


def _row(one: Measure, kept: Sequence[tuple[Year, date]]) -> Row | None:
    """Return a measure's row, or None where no season has it."""
    values = [one.value(year, day) for year, day in kept]
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


def _note(one: Measure, year: Year, day: date) -> str:
    return one.note(year, day) if one.note else ""


def _middle(one: Measure, found: Spread) -> Cell:
    if found.interval is None:
        return figure(one.words(found.median))
    low, high = (one.words(value) for value in found.interval)
    return Cell(
        text=one.words(found.median),
        number=True,
        note=f"{percent(found.coverage)} interval {low} to {high}",
    )


def _range(one: Measure, found: Spread) -> Cell:
    return figure(to(one.words(found.low), one.words(found.high)))


def _places(places: int) -> _Words:
    return lambda value: rounded(value, places)


def _measures(garden: Garden) -> tuple[Measure, ...]:
    showing = garden.showing
    unit = LITRE if showing.metric else GALLON
    large = KILOGRAM if showing.metric else POUND
    cash: _Words = lambda value: money(garden, value)  # noqa: E731 - as short as the others
    least = _note_least
    return (
        Measure(
            name=f"Weight, {showing.unit}",
            value=_of(lambda one: one.rows.weight.within(large)),
            words=_places(1),
            note=least,
        ),
        Measure(
            name=f"Row ground, {showing.area_unit}",
            value=_of(lambda one: showing.area_in(one.rows.square_feet.middle)),
            words=_places(1),
            note=lambda year, day: _row_range(garden, answer(year, day)),
        ),
        *(
            Measure(name=f"Land equivalents over {of}", value=_ratio(of), words=_places(2))
            for of in (
                "the squares",
                "the squares and their run-outs",
                "the squares and their share of path",
                "the squares, their run-outs and their share of path",
            )
        ),
        Measure(
            name="Weight with a printed row yield",
            value=_of(lambda one: one.rows.share),
            words=percent,
        ),
        Measure(name="Use of the squares", value=_use, words=percent),
        Measure(
            name="Minutes timed",
            value=_minutes,
            words=_places(0),
            note=_timed,
        ),
        Measure(name="Minutes of weeding", value=_weeding, words=_places(0)),
        Measure(
            name=f"Water measured, {unit.symbol}",
            value=lambda year, day: _water(year, day, unit.size),
            words=_places(0),
            note=_measured,
        ),
        Measure(name="Cost, with what is spread", value=_cost, words=cash),
        Measure(name="Cost, without", value=_at_once, words=cash),
        Measure(
            name="Would have cost",
            value=_worth,
            words=cash,
            note=_priced,
        ),
        Measure(
            name="Lines of loss in the log",
            value=lambda year, day: (
                None if year.season.log is None else Fraction(len(losses(year.plantings, day)))
            ),
            words=_places(0),
        ),
    )


def _of(get: Callable[[Answer], Fraction]) -> Callable[[Year, date], Fraction | None]:
    """Return what takes a value of a season's answer; None where it has none."""

    def value(year: Year, day: date) -> Fraction | None:
        found = answer(year, day)
        return get(found) if found else None

    return value


def _ratio(of: str) -> Callable[[Year, date], Fraction | None]:
    def value(year: Year, day: date) -> Fraction | None:
        found = answer(year, day)
        ratios = found.equivalents if found else ()
        return next((ratio.middle for ground, ratio in ratios if ground.of == of), None)

    return value


def _note_least(year: Year, day: date) -> str:
    found = answer(year, day)
    return "at least" if found and found.rows.at_least else ""


def _row_range(garden: Garden, found: Answer | None) -> str:
    if found is None:
        return ""
    rows = found.rows.square_feet
    return to(garden.showing.area_number(rows.low), garden.showing.area_number(rows.high))


def _use(year: Year, day: date) -> Fraction | None:
    used = use_by_month(year.garden, year.holding, day)
    there = sum(one.there for one in used)
    return sum((one.held for one in used), Fraction(0)) / there if there else None


def _minutes(year: Year, day: date) -> Fraction | None:
    worked = season_work(year, day)
    return Fraction(worked.minutes) if worked else None


def _weeding(year: Year, day: date) -> Fraction | None:
    worked = season_work(year, day)
    return Fraction(worked.weeding) if worked else None


def _timed(year: Year, day: date) -> str:
    worked = season_work(year, day)
    return f"{worked.timed} of {worked.lines} lines" if worked else ""


def _water(year: Year, day: date, size: Fraction) -> Fraction | None:
    watered = season_water(year, day)
    if watered is None or not watered.measured:
        return None
    return watered.litres * LITRE.size / size


def _measured(year: Year, day: date) -> str:
    watered = season_water(year, day)
    return f"{watered.measured} of {watered.lines} lines" if watered else ""


def _cost(year: Year, day: date) -> Fraction | None:
    costs = season_costs(year, day)
    return costs.whole if costs else None


def _at_once(year: Year, day: date) -> Fraction | None:
    costs = season_costs(year, day)
    return costs.at_once if costs else None


def _worth(year: Year, day: date) -> Fraction | None:
    worth = season_value(year, day)
    return worth.amount if worth else None


def _priced(year: Year, day: date) -> str:
    worth = season_value(year, day)
    return f"of {percent(worth.share)} of the weight" if worth else ""


# --- crops and losses ----------------------------------------------------------------------------


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
        for slug in sorted(by_crop, key=lambda slug: names.crop_link(years.garden, slug).text.casefold())
    )
    return Table(
        ident="t-crops-between",
        caption="Every crop in every season: the median of its plantings over their like-for-like ground, "
        f"in {years.garden.showing.per_area_unit}",
        heads=(ColumnHead(text="Crop"), *(ColumnHead(text=one.name, number=True) for one in views)),
        rows=rows,
        notes=("An empty cell: not grown that season. Plantings that gave nothing count as nothing.",),
    )


def _called(year: Year, slug: str, own: tuple[PlantingYield, ...]) -> Cell:
    called = names.crop_link(year.garden, slug)
    return link(called) if any(one.season == year.name for one in own) else text(called.text)


def _crop_cell(year: Year, own: tuple[PlantingYield, ...]) -> Cell:
    here = [one for one in own if one.season == year.name and (one.weight or one.ended)]
    if not here:
        return figure("")
    least = any(one.at_least or not one.ended for one in here)
    lost = sum(one.lost for one in here)
    if least and not any(one.weight for one in here):
        return Cell(number=True, note="not weighed")
    note = "; ".join(
        filter(
            None,
            (
                "at least" if least else "",
                counted(len(here), "planting") if len(here) > 1 else "",
                f"{lost} lost or cut short" if lost else "",
            ),
        )
    )
    middle = median([one.like_for_like for one in here])
    return Cell(text=per_area(year.garden.showing, middle), number=True, note=note)


def _losses(years: Years) -> Table:
    rows = tuple(
        Row(
            cells=(
                link(names.planting_link(years.garden, one.planting)),
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
