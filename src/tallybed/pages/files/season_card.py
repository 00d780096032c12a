"""The picture that is shown with a season's address: what it says, for whoever draws it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tallybed.garden.days import ONE_DAY, Week, in_full
from tallybed.pages.files.card import Card
from tallybed.pages.frame import addresses
from tallybed.pages.frame.head import has_card
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.wording import sums
from tallybed.pages.wording.sentences import figured
from tallybed.reckoning.harvest.areas import grounds
from tallybed.reckoning.harvest.tally import BY, tally


def cards(site: Site) -> Iterator[Card]:
    """Yield the picture of each season that has figures."""
    for view in site.seasons:
        if has_card(view):
            yield _card(site, view)


def _card(site: Site, view: SeasonView) -> Card:
    garden, total, span = site.garden, view.total, view.season.span
    over = site.is_over(view)
    head = sums.summed(garden.showing, total)
    return Card(
        path=addresses.card(view),
        garden=garden.name,
        place=garden.where,
        season=f"Season {view.name}",
        before=head.before,
        number=head.number,
        unit=head.unit,
        lines=(
            "picked in all" if over else f"picked as of {in_full(min(site.today, span.last))}",
            *_facts(site, view),
        ),
        bars=_bars(site, view),
        months=tuple(_months(view)),
    )


def _facts(site: Site, view: SeasonView) -> Iterator[str]:
    for ground in grounds(site.garden.beds, view.season)[:1]:
        if ground.square_feet:
            per = sums.per_ground(site.garden.showing, view.total, ground)
            yield f"{per.before} {per.words} of {per.of}".strip()
    kinds = len(tally(view.lines, BY["crop"]))
    yield f"{figured(view.total.pickings, 'picking')} of {figured(kinds, 'kind')} of produce"


def _weeks(view: SeasonView) -> list[Week]:
    span = view.season.span
    weeks = [Week.of(span.first)]
    while weeks[-1].last < span.last:
        weeks.append(Week.of(weeks[-1].last + ONE_DAY))
    return weeks


def _bars(site: Site, view: SeasonView) -> tuple[Fraction | None, ...]:
    by_week = tally(view.lines, BY["week"])
    weights = {key: total.weight.nanograms for key, total in by_week.items()}
    best = max(weights.values(), default=Fraction(0)) or Fraction(1)
    return tuple(
        weights.get(week, Fraction(0)) / best if week.first <= site.today else None for week in _weeks(view)
    )


def _months(view: SeasonView) -> Iterator[tuple[str, int]]:
    weeks = _weeks(view)
    for month in view.season.span.months:
        first = max(month.first, view.season.span.first)
        yield month.name[:3], weeks.index(Week.of(first))
