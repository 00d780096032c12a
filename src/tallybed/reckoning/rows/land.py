"""Row ground, and its sum as land equivalents.

Row ground is the ground that ordinary rows would have needed for a weight: the weight over
the printed yield per area. Held against the ground that gave it, each crop's row ground is
a partial land equivalent, and their sum is the land equivalent ratio of R. Mead and R. W.
Willey, "The concept of a 'land equivalent ratio' and advantages in yields from
intercropping", Experimental Agriculture 16 (1980): the area of single crops that would
give what one unit of the mixed area gave. More than 1: the mixed ground gave more.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.garden.grouping import grouped
from tallybed.garden.units import POUND, Weight
from tallybed.reckoning.harvest.tally import TallyLine, Total, added
from tallybed.reckoning.rows.printed import Printed


def partial(together: Fraction, alone: Fraction) -> Fraction:
    """Return a partial land equivalent: a yield per area in the mixture over the yield alone.

    Both in one unit. Raises ZeroDivisionError for no yield alone.
    """
    return together / alone


def land_equivalent(parts: Iterable[Fraction]) -> Fraction:
    """Return the land equivalent ratio: the sum of partial land equivalents."""
    return sum(parts, Fraction(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A low, a middle and a high value of one quantity, in one unit."""

    low: Fraction
    middle: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class CropGround:
    """One crop's row ground."""

    crop: str
    weight: Weight
    at_least: bool
    """Whether more was picked than was weighed."""
    printed: Printed
    square_feet: Range
    """The high printed yield needs the low ground."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowGround:
    """The ground that ordinary rows would have needed for what a season gave."""

    crops: tuple[CropGround, ...]
    """Those with a weight and a printed yield, by slug."""
    weight: Weight
    """Everything that was weighed, covered or not."""
    covered: Weight
    """The part of it with a printed yield."""
    uncovered: tuple[tuple[str, Total], ...]
    """Crop keys of the tally with a weight and without a printed yield, mixed bowls too, by key."""
    at_least: bool
    """Whether anything was picked that nobody weighed."""

    @property
    def share(self) -> Fraction:
        """The share of the weight that a printed yield covers, from 0 to 1; 0 where nothing was weighed."""
        return self.covered.nanograms / self.weight.nanograms if self.weight else Fraction(0)

    @property
    def square_feet(self) -> Range:
        """The sum over the crops, in square feet."""
        return Range(
            low=sum((one.square_feet.low for one in self.crops), Fraction(0)),
            middle=sum((one.square_feet.middle for one in self.crops), Fraction(0)),
            high=sum((one.square_feet.high for one in self.crops), Fraction(0)),
        )

    def equivalents(self, area: Fraction) -> Range:
        """Return the sums of partial land equivalents over an area in square feet, low to high."""

        def ratio(alone: Callable[[Printed], Fraction]) -> Fraction:
            """Return the sum of partial land equivalents by one of the printed yields."""
            return land_equivalent(
                partial(one.weight.within(POUND) / area, alone(one.printed)) for one in self.crops
            )

        return Range(
            low=ratio(lambda printed: printed.high),
            middle=ratio(lambda printed: printed.middle),
            high=ratio(lambda printed: printed.low),
        )


def crop_ground(crop: str, weight: Weight, printed: Printed, *, at_least: bool = False) -> CropGround:
    """Return the ground that rows would have needed for a weight of a crop."""
    pounds = weight.within(POUND)
    return CropGround(
        crop=crop,
        weight=weight,
        at_least=at_least,
        printed=printed,
        square_feet=Range(
            low=pounds / printed.high, middle=pounds / printed.middle, high=pounds / printed.low
        ),
    )


def row_ground(
    lines: Iterable[TallyLine], printed: Mapping[str, Printed], until: date | None = None
) -> RowGround:
    """Return the row ground of a season's tally lines, up to and with ``until``.

    ``printed``: the printed yields by crop slug. A mixed bowl and a crop that nobody named
    stand under keys that are no slug, so they count nothing.
    """
    kept = [line for line in lines if until is None or line.day <= until]
    by_crop = grouped(kept, lambda line: line.crop)
    covered, uncovered = [], []
    for key in sorted(by_crop):
        total = added(by_crop[key])
        if not total.weight:
            continue
        if key in printed:
            covered.append(crop_ground(key, total.weight, printed[key], at_least=total.at_least))
        else:
            uncovered.append((key, total))
    whole = added(kept)
    return RowGround(
        crops=tuple(covered),
        weight=whole.weight,
        covered=Weight(sum((one.weight.nanograms for one in covered), Fraction(0))),
        uncovered=tuple(uncovered),
        at_least=whole.at_least,
    )
