"""Which square earned its place: weight by square, by square-week, and the use of the beds by month."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.garden.days import ONE_DAY, Month
from tallybed.garden.garden import Garden
from tallybed.garden.units import Weight
from tallybed.reckoning.harvest.tally import TallyLine, added
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.squares.shares import square_days, utilisation

WEEK = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareWeeks:
    """A crop's weight beside the time it had squares."""

    crop: str
    """Slug."""
    weight: Weight
    at_least: bool
    square_weeks: Fraction
    """Square-days over seven; a square shared by two crops is divided between them. Above nothing."""

    @property
    def per_week(self) -> Weight:
        """Weight of a square-week."""
        return self.weight * (1 / self.square_weeks)


def crop_square_weeks(
    holding: Holding, plantings: Iterable[Planting], lines: Iterable[TallyLine], until: date
) -> tuple[SquareWeeks, ...]:
    """Return the crops that held squares up to and with ``until``, by slug.

    A crop's weight is all that was picked of it alone, whatever squares were told.
    """
    days = square_days(holding, until)
    by_crop: dict[str, Fraction] = {}
    for planting in plantings:
        slug = planting.crop.slug
        if slug and days[planting.key]:
            by_crop[slug] = by_crop.get(slug, Fraction(0)) + days[planting.key]
    kept = [line for line in lines if line.counts and line.day <= until]
    found = []
    for slug in sorted(by_crop):
        total = added(line for line in kept if line.crop == slug)
        found.append(
            SquareWeeks(
                crop=slug,
                weight=total.weight,
                at_least=total.at_least,
                square_weeks=by_crop[slug] / WEEK,
            )
        )
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthUse:
    """How far the squares were used in a month's days of the season."""

    month: Month
    held: Fraction
    """Square-days on which a square was held, by one planting or several."""
    there: int
    """Square-days there were. Above nothing."""

    @property
    def share(self) -> Fraction:
        """From 0 to 1."""
        return self.held / self.there


def use_by_month(garden: Garden, holding: Holding, until: date) -> tuple[MonthUse, ...]:
    """Return the use of the squares in each month of the season, up to and with ``until``."""
    number = sum(len(bed.squares) for bed in garden.beds)
    found: list[MonthUse] = []
    before = Fraction(0)
    for month in holding.span.months:
        first, last = max(month.first, holding.span.first), min(month.last, holding.span.last, until)
        if first > last or not number:
            continue
        days = (last - holding.span.first).days + 1
        so_far = utilisation(garden, holding, last) * number * days
        there = number * ((last - first) + ONE_DAY).days
        found.append(MonthUse(month=month, held=so_far - before, there=there))
        before = so_far
    return tuple(found)
