"""Seasons held against each other: running totals by week of the season, and crops grown in several."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from tallybed.drawing.charts.crop_bars import CropPanel, SeasonBar, crop_bars
from tallybed.drawing.charts.season_totals import SeasonLine, season_lines
from tallybed.garden.days import Span
from tallybed.pages.drawings.charts import Chart, amount, both
from tallybed.pages.tables.tables import Cell, ColumnHead, Row, Table, figure, link, text
from tallybed.pages.tables.tally_tables import by_season as in_seasons
from tallybed.pages.tables.tally_tables import crop_seasons_table, weight
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import TO_COME
from tallybed.reckoning.harvest.tally import GENERAL, MIXED, NOT_TOLD, TallyLine, Total, bowl, running
from tallybed.reckoning.year import Year, Years

_WEEK = 7
NOTE = "Each crop is drawn on a scale of its own; the figures can be held against each other."


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonsChart:
    """A chart across seasons, and the same in a table."""

    ident: str
    title: str
    chart: Chart | None
    """None where there is nothing to hold against each other: then the table alone tells it."""
    table: Table
    notes: tuple[str, ...] = ()


def across_seasons(years: Years) -> Iterator[SeasonsChart]:
    """Yield the charts of all seasons, oldest first; nothing where nothing was ever weighed.

    Crops are held against each other where two seasons have one.
    """
    weighed = [year for year in years.all if year.lines]
    if any(not year.total.unknown for year in weighed):
        yield _totals(years, [year for year in years.all if year.lines or not year.is_ahead])
    if len(weighed) > 1:
        yield _crops(years, years.all)


def weeks_of(span: Span) -> int:
    """Return how many weeks a season has, counted from its first day; the last may be short."""
    return -(-span.days // _WEEK)


def _week(year: Year, line: TallyLine) -> int:
    """Return the week of its season that a line lies in, from 1."""
    return (line.day - year.season.span.first).days // _WEEK + 1


def _by_week(year: Year) -> dict[int, Total]:
    """Return a season's running total by week of the season, for the weeks with a picking."""
    found = running(year.lines, lambda line: f"{_week(year, line):05d}")  # cuts are sorted as text
    return {int(str(week)): total for week, total in found.items()}


def _until(year: Year) -> int:
    """Return the last week of a season that is known: its last, or the one with the day of the records."""
    span = year.season.span
    passed = (min(year.today, span.last) - span.first).days
    return max(passed // _WEEK + 1, 0)


def _totals(years: Years, views: Sequence[Year]) -> SeasonsChart:
    """Return the seasons' running totals, week by week, as chart and table."""
    showing = years.garden.showing
    by_season = {year.name: _by_week(year) for year in views}
    seasons = tuple(
        SeasonLine(
            name=year.name,
            points=tuple(
                (week, amount(showing, total.weight)) for week, total in by_season[year.name].items()
            ),
            until=_until(year),
            at_least=year.total.at_least,
            running=not year.is_over,
        )
        for year in views
    )
    weeks = max(weeks_of(year.season.span) for year in views)

    def drawn(narrow: bool, name: str) -> str:
        return season_lines(
            seasons,
            weeks=weeks,
            unit=showing.unit,
            ident=name,
            title="Running totals, season by season",
            narrow=narrow,
        )

    return SeasonsChart(
        ident="totals",
        title="Week by week",
        chart=both(drawn, "c-seasons"),
        table=_week_table(years, views, by_season, weeks),
        notes=("Week 1 of a season begins on its first day.",),
    )


def _week_table(
    years: Years, views: Sequence[Year], by_season: Mapping[str, Mapping[int, Total]], weeks: int
) -> Table:
    """Return the running totals at the end of each week as a table, a column a season."""
    rows = []
    for week in range(1, weeks + 1):
        cells = [_upto(year, by_season[year.name], week) for year in views]
        if any(cell.text or cell.note for cell in cells):
            rows.append(Row(cells=(text(str(week)), *cells)))
    return Table(
        ident="t-seasons",
        caption=f"Running total at the end of each week of the season, in {years.garden.showing.unit}",
        heads=(ColumnHead(text="Week"), *(ColumnHead(text=year.name, number=True) for year in views)),
        rows=tuple(rows),
        notes=(
            "Weeks before the first picking, and weeks still to come, are empty.",
            *_cured_weeks(years, by_season),
        ),
    )


def _cured_weeks(years: Years, by_season: Mapping[str, Mapping[int, Total]]) -> Iterator[str]:
    """Yield in sentences what of the running totals was weighed cured or dried, and from which week on."""
    for name, totals in by_season.items():
        said = ""
        for week, total in totals.items():
            words = sums.cured(years.garden.showing, total, sums.FINE)
            if words != said:
                yield f"{name}, from week {week} on: {words}."
            said = words


def _upto(year: Year, totals: Mapping[int, Total], week: int) -> Cell:
    """Return a season's total at the end of a week; empty before the first picking and after its end."""
    known = [other for other in totals if other <= week]
    if not known or week > max(_until(year), max(totals)) or week > weeks_of(year.season.span):
        return figure("")
    return weight(year.garden.showing, totals[max(known)])


def _crops(years: Years, views: Sequence[Year]) -> SeasonsChart:
    """Return what each crop gave in each season, as chart and table."""
    showing = years.garden.showing
    by_season = {year.name: year.sums("crop") for year in views}
    grown = {year.name: _grown(year) for year in views}
    kept = _in_two_seasons(years, views, by_season)
    panels = tuple(
        CropPanel(
            name=names.listed_key(years.garden, key).text,
            bars=tuple(
                _bar(
                    year,
                    by_season[year.name].get(key),
                    grown=key in grown[year.name],
                    mixed=any(key in bowl(str(other)) for other in by_season[year.name]),
                )
                for year in views
            ),
        )
        for key in kept
    )

    def drawn(narrow: bool, name: str) -> str:
        return crop_bars(
            panels,
            unit=showing.unit,
            ident=name,
            title="Crops weighed in two seasons or more",
            narrow=narrow,
        )

    return SeasonsChart(
        ident="crops-across",
        title="Crop by crop",
        chart=both(drawn, "c-crops") if panels else None,
        table=_crop_table(years, views, by_season),
        notes=(NOTE,) if panels else (),
    )


def _in_two_seasons(
    years: Years, views: Sequence[Year], by_season: Mapping[str, Mapping[Hashable, Total]]
) -> list[str]:
    """Return the crops that were weighed in two seasons or more, by name."""
    keys = {str(key) for totals in by_season.values() for key in totals}
    kept = [
        key
        for key in keys
        if key != NOT_TOLD
        and not key.startswith((MIXED, GENERAL))
        and sum(bool(key in by_season[year.name] and by_season[year.name][key].weight) for year in views) > 1
    ]
    return sorted(kept, key=lambda key: (names.listed_key(years.garden, key).text.casefold(), key))


def _grown(year: Year) -> frozenset[str]:
    """Return the crops that stood in a season's beds, or were to."""
    crops = (year.crop_of(planting) for planting in year.plantings)
    return frozenset(crop.slug for crop in crops if crop)


def _all_told(year: Year) -> bool:
    """Return whether plan and log are there and name every planting's crop: else silence says nothing."""
    named = all(year.crop_of(planting) for planting in year.plantings)
    return year.season.plan is not None and year.season.log is not None and named


def _bar(year: Year, total: Total | None, *, grown: bool, mixed: bool) -> SeasonBar:
    """Return what a crop gave in one season as a bar, or as the words for there being none."""
    goes_on = not year.is_over
    if total is None or not total.weight:
        said = "not weighed" if total else _nothing(year, grown=grown, mixed=mixed, goes_on=goes_on)
        return SeasonBar(season=year.name, amount=None, said=said)
    return SeasonBar(
        season=year.name,
        amount=amount(year.garden.showing, total.weight),
        at_least=total.at_least,
        running=goes_on,
    )


def _nothing(year: Year, *, grown: bool, mixed: bool, goes_on: bool) -> str:
    """Return why a crop has no weight in a season."""
    if mixed:
        return "in mixed bowls"
    if year.is_ahead:
        return TO_COME if grown else "not planned"
    if not grown:
        return "not grown" if _all_told(year) else "not on record"
    if year.season.ledger is None:
        return "not on record"
    return "none yet" if goes_on else "none on record"


def _crop_table(
    years: Years, views: Sequence[Year], by_season: Mapping[str, Mapping[Hashable, Total]]
) -> Table:
    """Return what each crop gave in each season as a table."""
    keys = {str(key) for totals in by_season.values() for key in totals}
    rows = []
    for key in sorted(
        keys, key=lambda key: (not key, names.listed_key(years.garden, key).text.casefold(), key)
    ):
        cells = []
        for year in views:
            total = by_season[year.name].get(key)
            cells.append(weight(years.garden.showing, total) if total else figure(""))
        totals = ((year.name, by_season[year.name].get(key, Total())) for year in views)
        of_it = text(in_seasons(years.garden.showing, totals))
        rows.append(Row(cells=(link(names.listed_key(years.garden, key)), *cells, of_it)))
    caption = f"Weight of each crop in each season, in {years.garden.showing.unit}"
    notes = ("An empty cell means that none is in that season’s ledger.",)
    return crop_seasons_table(views, rows, ident="crops", caption=caption, notes=notes)
