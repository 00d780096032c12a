"""The plan held against the ground: families that come back too soon, and squares out of reach."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction
from types import MappingProxyType

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.checks.turns import Past, history, too_soon
from tallybed.garden.crops import Crop
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.garden.units import INCH, Length
from tallybed.reckoning.year import Year

FAMILIES: Mapping[str, str] = MappingProxyType(
    {
        "Aizoaceae": "the ice plant family",
        "Amaranthaceae": "the beet family",
        "Amaryllidaceae": "the onion family",
        "Apiaceae": "the carrot family",
        "Asteraceae": "the lettuce family",
        "Brassicaceae": "the cabbage family",
        "Caprifoliaceae": "the honeysuckle family",
        "Convolvulaceae": "the sweet potato family",
        "Cucurbitaceae": "the squash family",
        "Fabaceae": "the bean family",
        "Lamiaceae": "the mint family",
        "Malvaceae": "the okra family",
        "Poaceae": "the grass family",
        "Rosaceae": "the rose family",
        "Solanaceae": "the tomato family",
    }
)
"""Everyday names of plant families, as English-speaking gardeners say them. From memory."""


def same_family(year: Year) -> Iterator[CheckResult]:
    """Find families planned in a square that held the same family within the garden's years.

    Counted in months from planting to planting. The same crop sown again in one season is
    no change of crops, and is not told.
    """
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or not crop.family or row.carried_from:
            continue
        met = _met(year, row, crop)
        if not met:
            continue
        past, lasts = max(
            met.items(), key=lambda one: (one[0].season, len(one[1]), max(one[1].values()), one[0].key)
        )
        after = "in the same season" if past.season == year.season.name else f"of {past.season}"
        yield (
            row,
            warning(
                row.place,
                "same-family",
                f"{called(year, planting)} follows {past.name} {after} in {in_words(lasts)}:"
                f" both are of {FAMILIES.get(crop.family, f'the family {crop.family}')}",
                expected=f"{year.garden.rotation} years between crops of one family",
                remedy="move it to other squares, or silence this with the reason",
            ),
        )


def _met(year: Year, row: PlanRow, crop: Crop) -> dict[Past, dict[Square, date]]:
    """Return the plantings that a row of the plan follows too soon, each with the last days of its squares.

    Of one that held squares over different days the days are left out: it is told once.
    """
    met: dict[Past, dict[Square, date]] = {}
    before = history(year)
    for square in row.squares:
        for past in before.get((square, crop.family), ()):
            again = past.season == year.season.name and past.crop == crop.slug
            if past.last < row.begins and not again and too_soon(year, past.first, row.begins):
                lasts = met.setdefault(replace(past, first=date.min, last=date.min), {})
                lasts[square] = max(past.last, lasts.get(square, date.min))
    return met


def out_of_reach(year: Year) -> Iterator[CheckResult]:
    """Find squares whose middle is farther from any place to stand than the garden's reach.

    One stands on a path, and on omitted squares that lie at one: what an L leaves out is not of the bed.

    Two feet, where the garden tells nothing: common practice, no source. Silent where
    a bed tells no path.
    """
    for bed in year.garden.beds:
        if not bed.paths:
            continue
        reach = year.garden.reach
        beyond = [square for square in bed.squares if _from_path(bed, square) > reach]
        open_ground = _open_ground(bed) if beyond else ()
        far = [square for square in beyond if not _within(bed, square, open_ground, reach)]
        if far:
            yield (
                None,
                advice(
                    bed.place,
                    "out-of-reach",
                    f"the middle of {in_words(far)} is more than"
                    f" {year.garden.showing.length(year.garden.reach)} from any path",
                    remedy="add a path or a board to stand on, or set `reach:` in garden.yaml",
                ),
            )


def _open_ground(bed: Bed) -> tuple[Square, ...]:
    """Return the omitted squares that border on the bed and can be come to from a path.

    These are the ones at a side with a path, and whatever omitted squares join on to them.
    """
    found: set[Square] = set()
    coming = [square for square in bed.omitted if _from_path(bed, square) < bed.side]
    while coming:
        square = coming.pop()
        if square not in found:
            found.add(square)
            coming += bed.omitted.intersection(_around(square, corners=False))
    return tuple(square for square in sorted(found) if any(map(bed.has, _around(square, corners=True))))


def _around(square: Square, *, corners: bool) -> Iterator[Square]:
    """Yield the squares that share an edge with a square, or a corner too, whether they are there or not."""
    for across in (-1, 0, 1):
        for along in (-1, 0, 1):
            if abs(across) + abs(along) in ((1, 2) if corners else (1,)):
                yield Square(square.bed, square.column + across, square.row + along)


def _within(bed: Bed, square: Square, ground: Iterable[Square], reach: Length) -> bool:
    """Return whether the middle of a square is within reach of the nearest edge of some ground."""
    most = (reach.within(INCH) / bed.side.within(INCH)) ** 2
    half = Fraction(1, 2)
    return any(
        max(abs(one.column - square.column) - half, Fraction(0)) ** 2
        + max(abs(one.row - square.row) - half, Fraction(0)) ** 2
        <= most
        for one in ground
    )


def _from_path(bed: Bed, square: Square) -> Length:
    """Return how far a gardener on the nearest path must reach to the square's middle."""
    first, last, start, _end = bed.sides
    steps = {
        first: square.row,
        last: bed.rows - 1 - square.row,
        start: square.column,
    }
    away = [steps.get(path.side, bed.columns - 1 - square.column) for path in bed.paths]
    return bed.side * (min(away) + Fraction(1, 2))
