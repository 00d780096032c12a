"""Money: what a season cost, with and without what is spread over years, and what its produce would have."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.garden.garden import Season
from tallybed.garden.grouping import grouped
from tallybed.garden.money import Cost, Price, Purpose
from tallybed.garden.units import POUND, Weight
from tallybed.reckoning.harvest.tally import Total
from tallybed.reckoning.medians import median


@dataclass(frozen=True, slots=True, kw_only=True)
class CostShare:
    """A season's part of one cost."""

    cost: Cost
    season: str
    """The season it was paid in."""
    amount: Fraction
    """This season's part, in the garden's currency."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spending:
    """What a season cost, in the garden's currency. No wage is put on anybody's time."""

    shares: tuple[CostShare, ...]
    """By season paid in, then in the order of its file."""
    recorded: bool
    """Whether the season has a record of costs, be it empty; else it bears its part of earlier ones alone."""

    @property
    def at_once(self) -> Fraction | None:
        """What was paid for this season alone; None where nobody wrote that down."""
        return self._at_once if self.recorded else None

    @property
    def _at_once(self) -> Fraction:
        return sum((one.amount for one in self.shares if not one.cost.spread), Fraction(0))

    @property
    def spread(self) -> Fraction:
        """The season's part of what is spread over several."""
        return sum((one.amount for one in self.shares if one.cost.spread), Fraction(0))

    @property
    def whole(self) -> Fraction:
        """Both together."""
        return self._at_once + self.spread

    @property
    def by_purpose(self) -> Mapping[Purpose, Fraction]:
        """Both together by what it was for, in the order of the purposes."""
        found = {}
        for purpose in Purpose:
            own = [one.amount for one in self.shares if one.cost.purpose is purpose]
            if own:
                found[purpose] = sum(own, Fraction(0))
        return found


def spending(season: Season, seasons: Iterable[Season], until: date) -> Spending | None:
    """Return what a season cost, of what was paid up to and with a day; None where no costs are on record.

    A season is named by the year it begins in; a cost spread over five years is borne in
    equal parts by its own season and the four years after.
    """
    year = int(season.name)
    shares = [
        CostShare(cost=cost, season=one.name, amount=cost.amount / cost.years)
        for one in sorted(seasons, key=lambda each: each.name)
        for cost in one.costs or ()
        if cost.day <= until and int(one.name) <= year < int(one.name) + cost.years
    ]
    recorded = season.costs is not None
    return Spending(shares=tuple(shares), recorded=recorded) if shares or recorded else None


@dataclass(frozen=True, slots=True, kw_only=True)
class CropValue:
    """What a crop's weight would have cost."""

    crop: str
    weight: Weight
    per_pound: Fraction
    """The price reckoned with: the middle one of the season's."""
    prices: tuple[Price, ...]
    amount: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """What a season's produce would have cost, in the garden's currency."""

    crops: tuple[CropValue, ...]
    """Those with a weight and a price, by slug."""
    weight: Weight
    """Everything that was weighed."""

    @property
    def amount(self) -> Fraction:
        """What all that has a price would have cost."""
        return sum((one.amount for one in self.crops), Fraction(0))

    @property
    def priced(self) -> Weight:
        """The weight that has a price."""
        return Weight(sum((one.weight.nanograms for one in self.crops), Fraction(0)))

    @property
    def share(self) -> Fraction:
        """The share of the weight that has a price, from 0 to 1; 0 where nothing was weighed."""
        return self.priced.nanograms / self.weight.nanograms if self.weight else Fraction(0)


def value(prices: Iterable[Price], totals: Mapping[str, Total], whole: Weight, until: date) -> Value:
    """Return what produce would have cost at the prices seen up to and with a day.

    ``totals`` by crop key. A crop with several prices is reckoned at the median of them; one
    without, and a mixed bowl, counts nothing.
    """
    seen = grouped((price for price in prices if price.day <= until), lambda price: price.crop)
    crops = []
    for key in sorted(totals):
        total = totals[key]
        if key in seen and total.weight:
            per_nanogram = median([price.per_nanogram for price in seen[key]])
            crops.append(
                CropValue(
                    crop=key,
                    weight=total.weight,
                    per_pound=per_nanogram * POUND.size,
                    prices=tuple(seen[key]),
                    amount=per_nanogram * total.weight.nanograms,
                )
            )
    return Value(crops=tuple(crops), weight=whole)
