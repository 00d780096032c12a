"""The plan held against itself: who is promised which square, how close, and with what support."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.garden.crops import Habit
from tallybed.garden.days import without_year
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.room.plants import spacing_of
from tallybed.reckoning.room.spacing import most
from tallybed.reckoning.squares.occupancy import Hold
from tallybed.reckoning.squares.shares import told_shares
from tallybed.reckoning.year import Year

SUPPORTED = frozenset({Habit.CLIMBING})
"""Habits that need a trellis or poles."""


def double_held(year: Year) -> Iterator[CheckResult]:
    """Find two plantings in one square on the same days, without a word that they share it."""
    clashes: dict[tuple[str, str], list[tuple[Hold, Hold]]] = {}
    for holds in year.plan_of.values():
        for one, other in combinations(holds, 2):
            if one.planting != other.planting and max(one.first, other.first) <= min(one.last, other.last):
                clashes.setdefault((one.planting, other.planting), []).append((one, other))
    for (first, second), pairs in sorted(clashes.items()):
        earlier, later = year.holding.planting(first), year.holding.planting(second)
        if year.sharing.declared(first, second):
            continue
        squares = in_words(one.square for one, _other in pairs)
        since = max(max(one.first, other.first) for one, other in pairs)
        until = max(min(one.last, other.last) for one, other in pairs)
        row = year.rows[second]
        yield (
            row,
            warning(
                row.place,
                "double-held",
                f"{called(later)} and {called(earlier)} are both planned in {squares}"
                f" from {without_year(since)} to {without_year(until)}",
                remedy="move one, end the first sooner, or say `among:` where they share",
                related=[year.rows[first].place],
            ),
        )


def shares_above_one(year: Year) -> Iterator[CheckResult]:
    """Find shares of one square that add up to more than the square."""
    seen: set[tuple[str, ...]] = set()
    for square, holds in sorted(year.plan_of.items()):
        for hold in holds:
            together = [other for other in holds if other.first <= hold.first <= other.last]
            rows = [year.rows[other.planting] for other in together]
            told = told_shares(year.holding, square, {other.planting for other in together}).values()
            names = tuple(sorted({other.planting for other in together}))
            if sum(told) <= 1 or names in seen:
                continue
            seen.add(names)
            row = max(rows, key=lambda one: (one.place, one.crop))
            yield (
                row,
                advice(
                    row.place,
                    "shares-above-one",
                    f"the shares told in {square} add up to {sum(told)}",
                    expected="1 at most",
                    remedy="make the shares smaller, or leave them out to share equally",
                ),
            )


def too_dense(year: Year) -> Iterator[CheckResult]:
    """Find more plants planned than keep the crop's spacing."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if row.plants is None or crop is None or not row.squares:
            continue
        spacing = spacing_of(year.garden, planting) or crop.spacing
        bed = year.garden.bed(row.squares[0].bed)
        fit = len(most(bed, row.squares, spacing))
        if row.plants > fit:
            distance = year.garden.showing.length(spacing)
            yield (
                row,
                advice(
                    row.place,
                    "too-dense",
                    f"{row.plants} plants of {called(planting)} in {in_words(row.squares)}",
                    expected=f"at most {fit} at {distance} apart",
                    remedy="plant fewer, or say `spacing:` if you know it can stand closer",
                ),
            )


def no_run_out(year: Year) -> Iterator[CheckResult]:
    """Find running crops that are not led out of the bed."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or crop.habit is not Habit.RUNNING or row.led_out:
            continue
        if _on_trellis(year, row.squares):
            continue
        yield (
            row,
            advice(
                row.place,
                "no-run-out",
                f"{called(planting)} runs, and no run-out is told for it",
                remedy="say `run-out:` with a side of the bed, or plant it at the trellis",
            ),
        )


def no_support(year: Year) -> Iterator[CheckResult]:
    """Find climbing crops with nothing to climb."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or crop.habit not in SUPPORTED or row.led_out or _on_trellis(year, row.squares):
            continue
        yield (
            row,
            advice(
                row.place,
                "no-support",
                f"{called(planting)} climbs, and {in_words(row.squares)} has no trellis",
                remedy="plant it in squares at the trellis, or add one to the bed",
            ),
        )


def _on_trellis(year: Year, squares: tuple[Square, ...]) -> bool:
    """Return whether any square of a planting stands at a trellis."""
    supported = {
        square for bed in year.garden.beds for trellis in bed.trellises for square in trellis.squares
    }
    return not supported.isdisjoint(squares)
