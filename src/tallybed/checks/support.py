"""The plan held against the ground for vines: trellises, and run-outs beside the bed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from tallybed.checks.results import CheckResult, advice, called
from tallybed.garden.crops import Crop, Habit
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.squares import Bed, Square, by_bed, in_words
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reckoning.room.plants import spacing_of
from tallybed.reckoning.room.spacing import too_narrow, wider_than_a_square
from tallybed.reckoning.year import Year

SUPPORTED = frozenset({Habit.CLIMBING})
"""Habits that need a trellis or poles."""
SPRAWLING = frozenset({"Cucurbitaceae"})
"""Families of climbers that may lie on the ground as well (common practice, no source)."""
LEAST_RUN = Length.of(3, FOOT)
"""Ground, or height of a trellis, over which vines can be turned back as they grow. Our choice."""


def no_run_out(year: Year) -> Iterator[CheckResult]:
    """Find running crops that are not led out of a bed they stand in."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or crop.habit is not Habit.RUNNING:
            continue
        beds = by_bed(row.squares)
        staying = [
            squares
            for bed, squares in beds.items()
            if not is_led_out(year, row, bed) and not on_trellis(year, squares)
        ]
        if staying:
            where = f" in {in_words(chain(*staying))}" if len(staying) < len(beds) else ""
            yield (
                row,
                advice(
                    row.place,
                    "no-run-out",
                    f"{called(year, planting)} runs, and no run-out is told for it{where}",
                    remedy="say `run-out:` with a side of the bed, or plant it at the trellis",
                ),
            )


def is_led_out(year: Year, row: PlanRow, bed: str) -> bool:
    """Return whether a planting's vines are led out of a bed."""
    return row.led_out is not None and row.led_out.leaves(year.garden.bed(bed))


def no_support(year: Year) -> Iterator[CheckResult]:
    """Find climbing crops with nothing to climb in some of their squares: ground beside the bed is none.

    Vines that may lie on the ground as well, such as cucumbers, are led out with a run-out.
    """
    supported = _supported(year)
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or crop.habit not in SUPPORTED:
            continue
        without = [
            square
            for bed, squares in by_bed(row.squares).items()
            if not (is_led_out(year, row, bed) and crop.family in SPRAWLING)
            for square in _without(year, spacing_of(year.garden, planting), squares, supported)
        ]
        if without:
            yield (
                row,
                advice(
                    row.place,
                    "no-support",
                    f"{called(year, planting)} climbs, and {in_words(without)} has no trellis",
                    remedy="plant it in squares at the trellis, or add one to the bed",
                ),
            )


def has_ground(year: Year, crop: Crop, squares: Sequence[Square]) -> bool:
    """Return whether some squares are wide enough for a crop, with a trellis where it climbs or runs."""
    supported = _supported(year)
    at_trellis = not supported.isdisjoint(squares)
    if crop.habit is Habit.RUNNING and not at_trellis:
        return False
    for bed, inside in by_bed(squares).items():
        if crop.habit in SUPPORTED and _without(year, crop.spacing, inside, supported):
            return False
        if crop.spacing and not at_trellis and too_narrow(year.garden.bed(bed), inside, crop.spacing):
            return False
    return True


def _without(
    year: Year, spacing: Length | None, squares: tuple[Square, ...], supported: frozenset[Square]
) -> frozenset[Square]:
    """Return the squares of a crop in one bed that no trellis serves.

    A crop wider than a square stands in some of its squares only: one at the trellis is enough for it.
    """
    without = frozenset(squares) - supported
    if len(without) == len(squares):
        return without
    if spacing is not None and wider_than_a_square(year.garden.bed(squares[0].bed), spacing):
        return frozenset()
    return frozenset(square for square in without if not next_to(square, supported))


def _supported(year: Year) -> frozenset[Square]:
    """Return every square that stands at a trellis."""
    return frozenset(
        square for bed in year.garden.beds for trellis in bed.trellises for square in trellis.squares
    )


def next_to(square: Square, supported: frozenset[Square]) -> bool:
    """Return whether a square shares a side with one at the trellis: its vines still reach it."""
    steps = ((1, 0), (-1, 0), (0, 1), (0, -1))
    return any(Square(square.bed, square.column + c, square.row + r) in supported for c, r in steps)


def on_trellis(year: Year, squares: tuple[Square, ...]) -> bool:
    """Return whether any square of a planting stands at a trellis."""
    return not _supported(year).isdisjoint(squares)


def low_support(year: Year) -> Iterator[CheckResult]:
    """Find crops at a trellis under half as high as they grow.

    Vines that run are turned back on it, so for them it must be under three feet as well.
    """
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or crop.habit not in (*SUPPORTED, Habit.RUNNING):
            continue
        runs = crop.habit is Habit.RUNNING
        grown = crop.used("height on support") or crop.used("spread" if runs else "mature height")
        heights = [
            high
            for bed, squares in by_bed(row.squares).items()
            if not (runs and is_led_out(year, row, bed)) and (high := _highest(year.garden.bed(bed), squares))
        ]
        if grown is None or grown.low is None or not heights:
            continue
        high, meant = min(heights), Length.of(grown.low, INCH)
        if high * 2 < (min(meant, LEAST_RUN * 2) if runs else meant):
            does, far = ("runs", "as far as its vines run") if runs else ("climbs", "as high as it grows")
            instead = "lead it out of the bed" if runs else "take a low variety"
            showing = year.garden.showing
            yield (
                row,
                advice(
                    row.place,
                    "low-support",
                    f"{called(year, planting)} {does}, and its trellis is {showing.length(high)} high",
                    expected=f"about {showing.grown(meant)}, {far}",
                    remedy=f"plant it at a higher trellis, or {instead}",
                ),
            )


def _highest(bed: Bed, squares: tuple[Square, ...]) -> Length | None:
    """Return the height of the highest trellis of a bed that some of its squares stand at, if any does."""
    own = set(squares)
    heights = (one.height for one in bed.trellises if one.height and not own.isdisjoint(one.squares))
    return max(heights, default=None)


def run_out_elsewhere(year: Year) -> Iterator[CheckResult]:
    """Find vines led out over a side of a bed that their squares in it do not touch."""
    for planting, row in year.planned:
        if row.led_out is None:
            continue
        off = {
            bed: year.garden.bed(bed).along(row.led_out.side)
            for bed, squares in by_bed(row.squares).items()
            if is_led_out(year, row, bed)
            and set(squares).isdisjoint(year.garden.bed(bed).along(row.led_out.side))
        }
        if off:
            stands = [square for square in row.squares if square.bed in off]
            yield (
                row,
                advice(
                    row.place,
                    "run-out-elsewhere",
                    f"{called(year, planting)} is led out over side {row.led_out.side}"
                    f" and stands in {in_words(stands)}",
                    expected=f"a square at that side: {in_words(chain(*off.values()))}",
                    remedy="plant it at that side, or lead it out over another",
                ),
            )


def run_out_short(year: Year) -> Iterator[CheckResult]:
    """Find vines led out over ground much shorter than they run: under half of that, and under three feet."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        spread = crop.used("spread") if crop else None
        if row.led_out is None or crop is None or crop.habit is not Habit.RUNNING or spread is None:
            continue
        if spread.low is None:
            continue
        vine = Length.of(spread.low, INCH)
        if row.led_out.reach * 2 < min(vine, LEAST_RUN * 2):
            showing = year.garden.showing
            yield (
                row,
                advice(
                    row.place,
                    "run-out-short",
                    f"{called(year, planting)} is led out over {showing.length(row.led_out.reach)}",
                    expected=f"about {showing.length(vine)}, as far as its vines run",
                    remedy="lead it out where there is more ground, or turn the vines back as they grow",
                ),
            )
