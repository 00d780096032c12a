"""A season on one sheet: its maps month by month, what each crop gave, and its best weeks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from markupsafe import Markup

from tallybed.drawing.small.small_map import month_map
from tallybed.garden.days import Month, Week
from tallybed.garden.squares import Square
from tallybed.pages.drawings.months import PLANNED, kind_of, month_name
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.paper.sheets import UNKNOWN, Sign, begun, signs
from tallybed.pages.season.tally import standing
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import (
    EMPTY_LEDGER,
    NO_LEDGER,
    days_words,
    figured,
    full_day,
    span_words,
)
from tallybed.reckoning.calendar.month import DrawnPlanting, bed_month
from tallybed.reckoning.harvest.tally import BY, Total, added, tally

MOST_CROPS = 12
"""Crops whose weight is told by itself; the others are summed."""
BEST_WEEKS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class PosterNumber:
    """A number as it is set large, and what it is of."""

    number: str
    before: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthMaps:
    """The beds in one month."""

    name: str
    planned: bool
    picture: Markup


def pages(site: Site) -> Iterator[Page]:
    """Yield the poster of each season that has begun; none without a bed."""
    for view in begun(site):
        yield _page(site, view)


def _page(site: Site, view: SeasonView) -> Page:
    span = view.season.span
    return Page(
        path=addresses.poster(view),
        template="poster.html",
        title=f"Poster of {view.name}",
        description=f"Season {view.name} on one sheet: maps month by month, what each crop gave, best weeks.",
        kind="poster",
        data={
            "trail": (Link("Sheets to print", addresses.SHEETS), Link(f"Poster of {view.name}", "")),
            "season": f"Season {view.name}",
            "dates": span_words(span.first, span.last),
            "as_of": None if site.is_over(view) else full_day(site.today),
            "months": tuple(_month(site, view, month) for month in span.months),
            "letters": _letters(site, view),
            "standing": standing(site, view) if view.lines else None,
            "said": "" if view.lines else NO_LEDGER if view.season.ledger is None else EMPTY_LEDGER,
            "crops": tuple(_crops(site, view)),
            "unit": site.garden.showing.unit,
            "weeks": tuple(_weeks(site, view)),
        },
    )


def _month(site: Site, view: SeasonView, month: Month) -> MonthMaps:
    return MonthMaps(
        name=month_name(view, month),
        planned=kind_of(month, site.today) == PLANNED,
        picture=_map(site, view, month),
    )


def _map(site: Site, view: SeasonView, month: Month) -> Markup:
    letters: dict[Square, str] = {}
    stages: dict[Square, str] = {}
    for drawn in _drawn(site, view, month):
        for square in drawn.squares if drawn.standing else ():
            letters[square] = f"{letters.get(square, '')} {drawn.letters or UNKNOWN}".strip()
            stages.setdefault(square, drawn.stage.value)
    ident = f"map-{month.year}-{month.month:02d}"
    picture = month_map(site.garden.beds, letters, stages, ident, title=f"The beds in {month}")
    return Markup(picture)  # noqa: S704 - drawings escape their own texts


def _drawn(site: Site, view: SeasonView, month: Month) -> Iterator[DrawnPlanting]:
    for bed in site.garden.beds:
        yield from bed_month(site.garden, view.season, view.holding, bed, month).drawn


def _letters(site: Site, view: SeasonView) -> tuple[Sign, ...]:
    found = (drawn for month in view.season.span.months for drawn in _drawn(site, view, month))
    return signs(drawn for drawn in found if drawn.standing)


def _crops(site: Site, view: SeasonView) -> Iterator[PosterNumber]:
    """Yield each crop's weight, heaviest first, then what the others weigh together."""
    totals = tally(view.lines, BY["crop"])
    weighed = {str(key): total for key, total in totals.items() if total.weight}
    ordered = sorted(weighed, key=lambda key: (-weighed[key].weight.nanograms, key))
    for key in ordered[:MOST_CROPS]:
        yield _figure(site, weighed[key], names.key_link(site.garden, key).text)
    rest = ordered[MOST_CROPS:]
    if rest:
        total = added(line for line in view.lines if line.crop in rest)
        yield _figure(site, total, f"{figured(len(rest), 'more kind')} of produce")


def _figure(site: Site, total: Total, words: str) -> PosterNumber:
    number = sums.fine_weight(site.garden.showing, total.weight)
    return PosterNumber(number=number, before="at least" if total.at_least else "", words=words)


def _weeks(site: Site, view: SeasonView) -> Iterator[PosterNumber]:
    """Yield the weeks with most weight, heaviest first; of equal ones the earlier."""
    totals = tally(view.lines, BY["week"])
    weeks = {cast("Week", key): total for key, total in totals.items() if total.weight}
    for week in sorted(weeks, key=lambda week: (-weeks[week].weight.nanograms, week))[:BEST_WEEKS]:
        yield _figure(site, weeks[week], days_words(week.first, week.last))
