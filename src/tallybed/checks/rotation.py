"""The plan held against the ground: families that come back too soon, and squares out of reach."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.garden.units import Length
from tallybed.reckoning.year import Year


def rotation(year: Year) -> Iterator[CheckResult]:
    """Find families planned in a square that held the same family within the garden's years."""
    history = _history(year)
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or not crop.family or row.carried_from:
            continue
        met: dict[tuple[str, str, str], list[Square]] = {}
        for square in row.squares:
            for season, key, name, last in history.get((square, crop.family), ()):
                mine = (season, key) == (year.season.name, planting.key)
                if not mine and last < row.begins and _years(last, row.begins) < year.garden.rotation:
                    met.setdefault((season, key, name), []).append(square)
        if not met:
            continue
        (season, _key, name), squares = max(met.items(), key=lambda item: (item[0][0], len(item[1]), item[0]))
        yield (
            row,
            warning(
                row.place,
                "same-family",
                f"{called(planting)} follows {name} of {season} in {in_words(squares)}: both {crop.family}",
                expected=f"{year.garden.rotation} years between crops of one family",
                remedy="move it to other squares, or silence this with the reason",
            ),
        )


def _history(year: Year) -> dict[tuple[Square, str], list[tuple[str, str, str, date]]]:
    """Return, for square and family, what held it: season, planting, its name, its last day there."""
    found: dict[tuple[Square, str], list[tuple[str, str, str, date]]] = {}
    past = [(one.season, one.holding, one.holding.holds) for one in year.earlier]
    past.append((year.season, year.holding, year.holding.by_plan))
    for season, holding, holds in past:
        last: dict[tuple[Square, str], date] = {}
        for hold in holds:
            last[hold.square, hold.planting] = max(
                hold.last, last.get((hold.square, hold.planting), hold.last)
            )
        for (square, key), day in sorted(last.items()):
            planting = holding.planting(key)
            if planting.crop.slug is None:
                continue
            crop = year.garden.crop(planting.crop.slug)
            found.setdefault((square, crop.family), []).append((season.name, key, called(planting), day))
    return found


def _years(earlier: date, later: date) -> int:
    """Return the whole seasons between two days, by their calendar years."""
    return later.year - earlier.year


def out_of_reach(year: Year) -> Iterator[CheckResult]:
    """Find squares whose middle is farther from any path than the garden's reach.

    Two feet, where the garden tells nothing: common practice, no source. Silent where
    a bed tells no path.
    """
    for bed in year.garden.beds:
        if not bed.paths:
            continue
        far = [square for square in bed.squares if _from_path(bed, square) > year.garden.reach]
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
