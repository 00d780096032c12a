"""The plan held against itself: who is promised which square, how close, and with what support."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tallybed.checks.case import Case, Told, advice, warning
from tallybed.garden.crops import Habit
from tallybed.garden.days import without_year
from tallybed.garden.plan import Planting
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.plantings.plantings import Stand
from tallybed.reckoning.room.spacing import most
from tallybed.reckoning.squares.occupancy import Hold

SUPPORTED = frozenset({Habit.CLIMBING})
"""Habits that need a trellis or poles."""


def called(stand: Stand) -> str:
    """Return how a finding names a planting: its tag and crop."""
    name = stand.crop.slug or stand.crop.typed
    return f"{stand.tag} ({name})" if stand.tag else name


def double_held(case: Case) -> Iterator[Told]:
    """Find two plantings in one square on the same days, without a word that they share it."""
    clashes: dict[tuple[str, str], list[tuple[Hold, Hold]]] = {}
    for holds in case.plan_of.values():
        for one, other in combinations(holds, 2):
            if one.stand != other.stand and max(one.first, other.first) <= min(one.last, other.last):
                clashes.setdefault((one.stand, other.stand), []).append((one, other))
    for (first, second), pairs in sorted(clashes.items()):
        earlier, later = case.holding.stand(first), case.holding.stand(second)
        if _share(case.rows[first], earlier, case.rows[second], later):
            continue
        squares = in_words(one.square for one, _other in pairs)
        since = max(max(one.first, other.first) for one, other in pairs)
        until = max(min(one.last, other.last) for one, other in pairs)
        row = case.rows[second]
        yield (
            row,
            warning(
                row.place,
                "double-held",
                f"{called(later)} and {called(earlier)} are both planned in {squares}"
                f" from {without_year(since)} to {without_year(until)}",
                remedy="move one, end the first sooner, or say `among:` where they share",
                related=[case.rows[first].place],
            ),
        )


def _share(row: Planting, stand: Stand, other_row: Planting, other: Stand) -> bool:
    """Return whether either row says that it shares its squares with the other."""
    if row.share is not None or other_row.share is not None:
        return True
    return row.among in _names(other, other_row) or other_row.among in _names(stand, row)


def _names(stand: Stand, row: Planting) -> frozenset[str]:
    return frozenset({stand.key, stand.tag, row.crop} - {""})


def shares_above_one(case: Case) -> Iterator[Told]:
    """Find shares of one square that add up to more than the square."""
    seen: set[tuple[str, ...]] = set()
    for square, holds in sorted(case.plan_of.items()):
        for hold in holds:
            together = [other for other in holds if other.first <= hold.first <= other.last]
            rows = [case.rows[other.stand] for other in together]
            told = [row.share for row in rows if row.share is not None]
            names = tuple(sorted({other.stand for other in together}))
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


def too_dense(case: Case) -> Iterator[Told]:
    """Find more plants planned than keep the crop's spacing."""
    for stand, row in case.planned:
        crop = case.crop_of(stand)
        if row.plants is None or crop is None or not row.squares:
            continue
        spacing = next(
            (v.spacing for v in crop.varieties if v.name == stand.variety and v.spacing), crop.spacing
        )
        bed = case.garden.bed(row.squares[0].bed)
        fit = len(most(bed, row.squares, row.spacing or spacing))
        if row.plants > fit:
            distance = case.garden.showing.length(row.spacing or spacing)
            yield (
                row,
                advice(
                    row.place,
                    "too-dense",
                    f"{row.plants} plants of {called(stand)} in {in_words(row.squares)}",
                    expected=f"at most {fit} at {distance} apart",
                    remedy="plant fewer, or say `spacing:` if you know it can stand closer",
                ),
            )


def no_run_out(case: Case) -> Iterator[Told]:
    """Find running crops that are not led out of the bed."""
    for stand, row in case.planned:
        crop = case.crop_of(stand)
        if crop is None or crop.habit is not Habit.RUNNING or row.led_out:
            continue
        if _on_trellis(case, row.squares):
            continue
        yield (
            row,
            advice(
                row.place,
                "no-run-out",
                f"{called(stand)} runs, and no run-out is told for it",
                remedy="say `run-out:` with a side of the bed, or plant it at the trellis",
            ),
        )


def no_support(case: Case) -> Iterator[Told]:
    """Find climbing crops with nothing to climb."""
    for stand, row in case.planned:
        crop = case.crop_of(stand)
        if crop is None or crop.habit not in SUPPORTED or row.led_out or _on_trellis(case, row.squares):
            continue
        yield (
            row,
            advice(
                row.place,
                "no-support",
                f"{called(stand)} climbs, and {in_words(row.squares)} has no trellis",
                remedy="plant it in squares at the trellis, or add one to the bed",
            ),
        )


def _on_trellis(case: Case, squares: tuple[Square, ...]) -> bool:
    """Return whether any square of a planting stands at a trellis."""
    supported = {
        square for bed in case.garden.beds for trellis in bed.trellises for square in trellis.squares
    }
    return not supported.isdisjoint(squares)
