"""The picture that is shown with a season's address: what it says, for whoever draws it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from fractions import Fraction

from tallybed.garden.days import Week, in_full, weeks_between
from tallybed.garden.plurals import figured
from tallybed.pages.files.card import Card
from tallybed.pages.frame import addresses
from tallybed.pages.frame.surround import has_card
from tallybed.pages.wording import sums
from tallybed.reckoning.harvest.tally import BY, TallyLine, Total, added, kinds, tally
from tallybed.reckoning.year import Year


def cards(year: Year) -> Iterator[Card]:
    """Yield the picture of a season that has figures."""
    if has_card(year):
        yield season_card(year, year.lines, year.today)


def season_card(year: Year, lines: Sequence[TallyLine], today: date) -> Card:
    """Return the picture of a season as of a day, by the tally's lines up to it."""
    garden, total, span = year.garden, added(lines), year.season.span
    over = year.was_over(today)
    head = sums.summed(garden.showing, total)
    return Card(
        path=addresses.card(year),
        garden=garden.name,
        place=garden.where,
        season=f"Season {year.name}",
        before=head.before,
        number=head.number,
        unit=head.unit,
        lines=(
            "picked in all" if over else f"picked as of {in_full(min(today, span.last))}",
            *_facts(year, lines, total),
        ),
        bars=_bars(year, lines, today),
        months=tuple(_months(year)),
    )


def _facts(year: Year, lines: Sequence[TallyLine], total: Total) -> Iterator[str]:
    """Yield what the season gave besides its weight, as short phrases."""
    for ground in year.grounds[:1]:
        if ground.square_feet:
            yield sums.per_ground(year.garden.showing, total, ground).in_words
    part = sums.cured(year.garden.showing, total)
    if part:
        yield part
    number = kinds(tally(lines, BY["crop"]))
    of = f" of {figured(number, 'kind')} of produce" if number else ""
    yield f"{figured(total.pickings, 'picking')}{of}"


def _bars(year: Year, lines: Sequence[TallyLine], today: date) -> tuple[Fraction | None, ...]:
    """Return each week's weight as a share of the best week's; None for weeks to come."""
    by_week = tally(lines, BY["week"])
    weights = {key: total.weight.nanograms for key, total in by_week.items()}
    best = max(weights.values(), default=Fraction(0)) or Fraction(1)
    return tuple(
        weights.get(week, Fraction(0)) / best if week.first <= today else None
        for week in weeks_between(year.season.span.first, year.season.span.last)
    )


def _months(year: Year) -> Iterator[tuple[str, int]]:
    """Yield each month's short name and the place of the week it begins in."""
    weeks = weeks_between(year.season.span.first, year.season.span.last)
    for month in year.season.span.months:
        first = max(month.first, year.season.span.first)
        yield month.name[:3], weeks.index(Week.of(first))
