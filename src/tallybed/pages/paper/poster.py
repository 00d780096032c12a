"""A season on one sheet: its maps month by month, what each crop gave, and its best weeks."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from typing import cast

from tallybed.drawing.bedmap.legend import stage_items
from tallybed.drawing.bedmap.view import stages_of, viewed
from tallybed.garden.days import Month, Week
from tallybed.garden.plurals import figured
from tallybed.pages.drawings.maps import LegendRow, legend_row, waiting_key
from tallybed.pages.drawings.month_pictures import month_picture
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.trails import below_sheets
from tallybed.pages.frame.which_pages import begun
from tallybed.pages.paper.papers import MapLetters, map_letters
from tallybed.pages.rows.answer import answer_line
from tallybed.pages.season.tally import tally_head
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import (
    EMPTY_LEDGER,
    NO_LEDGER,
    NOT_TOLD,
    days_words,
    full_day,
    listed,
    span_words,
)
from tallybed.reckoning.beds import month_of
from tallybed.reckoning.calendar.month import DrawnPlanting
from tallybed.reckoning.harvest.tally import Total, added, bowl, heaviest_first, kinds
from tallybed.reckoning.year import Year, Years

MOST_CROPS = 8
"""Crops whose weight is told by itself; the others are summed."""
BEST_WEEKS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class PosterNumber:
    """A number as it is set large, and what it is of."""

    number: str
    before: str
    words: str
    cured: str
    """``2.2 lb of it cured``; empty where all was weighed fresh."""


def pages(year: Year) -> Iterator[Page]:
    """Yield the poster of a season that has begun; none without a bed."""
    if year in begun(year.years):
        yield _page(year)


def _page(year: Year) -> Page:
    """Return a season's poster as a page."""
    span = year.season.span
    return Page(
        path=addresses.poster(year),
        template="poster.html",
        title=f"Poster of {year.name}",
        description=f"Season {year.name} on one sheet: maps month by month, what each crop gave, best weeks.",
        kind="poster",
        data={
            "trail": below_sheets(f"Poster of {year.name}"),
            "season": f"Season {year.name}",
            "dates": span_words(span.first, span.last),
            "as_of": None if year.is_over else full_day(year.today),
            "months": ()
            if year.is_only_weighed
            else tuple(month_picture(year, month) for month in span.months),
            "letters": _letters(year),
            "stages": tuple(_stages(year)),
            "standing": tally_head(year) if year.lines else None,
            "beside": answer_line(year),
            "said": "" if year.lines else NO_LEDGER if year.season.ledger is None else EMPTY_LEDGER,
            "crops": tuple(_crops(year)),
            "unit": year.garden.showing.unit,
            "weeks": tuple(_weeks(year)),
        },
    )


def _drawn(year: Year, month: Month) -> Iterator[DrawnPlanting]:
    """Yield what the maps of a month draw, bed by bed."""
    for bed in year.garden.beds:
        yield from month_of(year, bed, month).drawn


def _letters(year: Year) -> tuple[MapLetters, ...]:
    """Return what the letters on the season's maps stand for."""
    found = (drawn for month in year.season.span.months for drawn in _drawn(year, month))
    return map_letters(drawn for drawn in found if drawn.standing)


def _stages(year: Year) -> Iterator[LegendRow]:
    """Yield what grounds and marks of the season's maps mean."""
    months = [month_of(year, bed, month) for month in year.season.span.months for bed in year.garden.beds]
    stages = {stage for month in months for stage in stages_of(viewed(month))}
    yield from (legend_row(item) for item in stage_items(stages, "stage"))
    yield from waiting_key(months)


def _crops(year: Year) -> Iterator[PosterNumber]:
    """Yield each crop's weight, heaviest first, then what the others weigh together."""
    totals = year.sums("crop")
    weighed: dict[Hashable, Total] = {key: total for key, total in totals.items() if total.weight}
    ordered = [str(key) for key in heaviest_first(weighed)]
    for key in ordered[:MOST_CROPS]:
        yield _figure(year.years, weighed[key], names.listed_key(year.garden, key).text)
    rest = ordered[MOST_CROPS:]
    if rest:
        total = added(line for line in year.lines if line.crop in rest)
        yield _figure(year.years, total, _rest_words(rest))


def _rest_words(keys: Sequence[str]) -> str:
    """Return ``17 more kinds of produce and 2 mixed bowls``: a bowl is not another kind."""
    number = kinds(keys)
    bowls = sum(bool(bowl(key)) for key in keys)
    found = [f"{figured(number, 'more kind')} of produce"] if number else []
    found += [figured(bowls, "mixed bowl")] if bowls else []
    return listed(found) or NOT_TOLD


def _figure(years: Years, total: Total, words: str) -> PosterNumber:
    """Return a weight as it is set large."""
    number = sums.fine_weight(years.garden.showing, total.weight)
    before, number = sums.large(number, at_least=total.at_least)
    return PosterNumber(
        number=number,
        before=before,
        words=words,
        cured=sums.cured(years.garden.showing, total),
    )


def _weeks(year: Year) -> Iterator[PosterNumber]:
    """Yield the weeks with most weight, heaviest first; of equal ones the earlier."""
    totals = year.sums("week")
    weeks = {cast("Week", key): total for key, total in totals.items() if total.weight}
    for week in sorted(weeks, key=lambda week: (-weeks[week].weight.nanograms, week))[:BEST_WEEKS]:
        yield _figure(year.years, weeks[week], days_words(week.first, week.last))
