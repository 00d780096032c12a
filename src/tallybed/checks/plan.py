"""The plan held against itself: who is promised which square, how close, and with what support."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.garden.crops import Habit
from tallybed.garden.days import without_year
from tallybed.garden.plan import Start
from tallybed.garden.squares import Square, in_words
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.plants import spacing_of
from tallybed.reckoning.room.spacing import NARROW, most, wider_than_a_square
from tallybed.reckoning.room.spacing import too_narrow as narrower
from tallybed.reckoning.squares.occupancy import Hold
from tallybed.reckoning.squares.shares import told_shares
from tallybed.reckoning.year import Year

SUPPORTED = frozenset({Habit.CLIMBING})
"""Habits that need a trellis or poles."""
SPRAWLING = frozenset({"Cucurbitaceae"})
"""Families of climbers that may lie on the ground as well (common practice, no source)."""
LEAST_RUN = Length.of(3, FOOT)
"""Ground over which vines can be turned back as they grow. Our choice."""
BY_WIND = frozenset({"sweet-corn"})
"""Crops that wind pollinates and that bear badly in a single row."""
WHOLE_ROW = 3
"""Squares from which a line is taken for a row."""
TAPROOTED = frozenset({"carrot", "parsnip", "radish"})
"""Crops whose root forks where it is moved (common practice, no source)."""
YOUNGEST = 10
"""Days indoors below which there is no plant to set out. Our choice, below all printed weeks."""


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


def too_narrow(year: Year) -> Iterator[CheckResult]:
    """Find plantings in a strip under two thirds as wide as their spacing.

    What is led out of the bed, or up a trellis, has room there.
    """
    for planting, row in year.planned:
        spacing = spacing_of(year.garden, planting)
        if spacing is None or not row.squares or row.led_out or _on_trellis(year, row.squares):
            continue
        width = narrower(year.garden.bed(row.squares[0].bed), row.squares, spacing)
        if width is None:
            continue
        showing = year.garden.showing
        yield (
            row,
            advice(
                row.place,
                "too-narrow",
                f"{called(planting)} stands {showing.length(spacing)} apart, and {in_words(row.squares)}"
                f" is {showing.length(width)} wide",
                expected=f"at least {showing.length(spacing * NARROW)}, two thirds of the spacing",
                remedy="give it squares side by side, or say `spacing:` if you know it can stand closer",
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
    """Find climbing crops with nothing to climb in some of their squares: ground beside the bed is none.

    A crop wider than a square stands in some of its squares only: one at the trellis is enough for it.
    Vines that may lie on the ground as well, such as cucumbers, are led out with a run-out.
    """
    supported = _supported(year)
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or crop.habit not in SUPPORTED or not row.squares:
            continue
        if row.led_out and crop.family in SPRAWLING:
            continue
        without = set(row.squares) - supported
        bed = year.garden.bed(row.squares[0].bed)
        wide = wider_than_a_square(bed, spacing_of(year.garden, planting) or crop.spacing)
        if not without or (len(without) < len(row.squares) and wide):
            continue
        if any(_beside(square, supported) for square in without) and len(without) < len(row.squares):
            without = {square for square in without if not _beside(square, supported)}
        if without:
            yield (
                row,
                advice(
                    row.place,
                    "no-support",
                    f"{called(planting)} climbs, and {in_words(without)} has no trellis",
                    remedy="plant it in squares at the trellis, or add one to the bed",
                ),
            )


def _supported(year: Year) -> frozenset[Square]:
    """Return every square that stands at a trellis."""
    return frozenset(
        square for bed in year.garden.beds for trellis in bed.trellises for square in trellis.squares
    )


def _beside(square: Square, supported: frozenset[Square]) -> bool:
    """Return whether a square shares a side with one at the trellis: its vines still reach it."""
    steps = ((1, 0), (-1, 0), (0, 1), (0, -1))
    return any(Square(square.bed, square.column + c, square.row + r) in supported for c, r in steps)


def _on_trellis(year: Year, squares: tuple[Square, ...]) -> bool:
    """Return whether any square of a planting stands at a trellis."""
    return not _supported(year).isdisjoint(squares)


def run_out_elsewhere(year: Year) -> Iterator[CheckResult]:
    """Find vines led out over a side of the bed that their planting does not touch."""
    for planting, row in year.planned:
        if row.led_out is None or not row.squares:
            continue
        bed = year.garden.bed(row.squares[0].bed)
        side = bed.along(row.led_out.side)
        if set(side).isdisjoint(row.squares):
            yield (
                row,
                advice(
                    row.place,
                    "run-out-elsewhere",
                    f"{called(planting)} is led out over side {row.led_out.side}"
                    f" and stands in {in_words(row.squares)}",
                    expected=f"a square at that side: {in_words(side)}",
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
                    f"{called(planting)} is led out over {showing.length(row.led_out.reach)}",
                    expected=f"about {showing.length(vine)}, as far as its vines run",
                    remedy="lead it out where there is more ground, or turn the vines back as they grow",
                ),
            )


def one_row(year: Year) -> Iterator[CheckResult]:
    """Find sweet corn in a single row: the wind that pollinates it carries the pollen past.

    Two rows at least, University of Illinois Extension, Watch Your Garden Grow: corn.
    """
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or crop.slug not in BY_WIND or len(row.squares) < WHOLE_ROW:
            continue
        if len({square.row for square in row.squares}) > 1 < len({square.column for square in row.squares}):
            continue
        beside = [
            other
            for other, other_row in year.planned
            if other.key != planting.key
            and other.crop.slug == planting.crop.slug
            and any(_beside(square, frozenset(row.squares)) for square in other_row.squares)
        ]
        if not beside and _one_row_a_square(year, planting):
            yield (
                row,
                advice(
                    row.place,
                    "one-row",
                    f"{called(planting)} stands in a single row, {in_words(row.squares)}",
                    expected="a block of two rows at least: wind carries its pollen",
                    remedy="plant it in a block, or pollinate by hand",
                ),
            )


def _one_row_a_square(year: Year, planting: Planting) -> bool:
    """Return whether a square holds no two rows of a planting: its spacing is above half a square's side."""
    spacing = spacing_of(year.garden, planting)
    row = planting.planned
    return bool(spacing and row and spacing * 2 > year.garden.bed(row.squares[0].bed).side)


def no_such_season(year: Year) -> Iterator[CheckResult]:
    """Find plantings carried from a season that the garden has no folder for, though it has earlier ones."""
    names = {one.name for one in year.earlier}
    for planting, row in year.planned:
        if row.start is not Start.CARRIED or not names or row.carried_from in names:
            continue
        yield (
            row,
            advice(
                row.place,
                "no-such-season",
                f"{called(planting)} is carried from {row.carried_from}, and there is no such season here",
                expected=f"one of {', '.join(sorted(names))}",
                remedy="mend the year, or say when it was planted in a note and silence this",
            ),
        )


def out_of_a_pot(year: Year) -> Iterator[CheckResult]:
    """Find plants that are days old when they are set out, and taprooted crops that were moved.

    Ten days: no crop is printed with less than two weeks indoors (N.C. State Extension; common practice).
    """
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or row.sow_indoors is None or row.start is not Start.SET_OUT:
            continue
        days = (row.begins - row.sow_indoors).days
        if crop.slug in TAPROOTED:
            found, expected = f"{called(planting)} is started indoors and moved", "sown where it is to stand"
        elif 0 <= days < YOUNGEST:
            found = f"{called(planting)} is set out {days} days after it is sown indoors"
            expected = f"{YOUNGEST} days at the very least"
        else:
            continue
        yield (
            row,
            advice(
                row.place,
                "seedlings",
                found,
                expected=expected,
                remedy="mend the day, or say in `silence:` why it works for you",
            ),
        )
