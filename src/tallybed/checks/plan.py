"""The plan held against itself: who is promised which square, how close, and with what support."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.checks.support import is_led_out, next_to, on_trellis
from tallybed.garden.crops import Crop, Habit
from tallybed.garden.days import without_year
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Bed, Square, by_bed, in_words
from tallybed.garden.units import INCH, Length
from tallybed.reckoning.onward import stood_at_end
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.plants import room_for, spacing_of
from tallybed.reckoning.room.spacing import NARROW, wider_than_a_square
from tallybed.reckoning.room.spacing import too_narrow as narrower
from tallybed.reckoning.squares.occupancy import Hold
from tallybed.reckoning.squares.shares import told_shares
from tallybed.reckoning.squares.sharing import Sharing
from tallybed.reckoning.year import Year

LOW = frozenset({Habit.ROOT, Habit.ROSETTE})
"""Habits that fill the ground and leave no room below them."""
FULL = Fraction(5, 4)
"""How many times a square may be filled by companions: some are pulled early. Our choice."""
BY_WIND = frozenset({"sweet-corn"})
"""Crops that wind pollinates and that bear badly in a single row."""
WHOLE_ROW = 3
"""Squares from which a line is taken for a row."""


def double_held(year: Year) -> Iterator[CheckResult]:
    """Find two plantings in one square on the same days, without a word that they share it."""
    clashes: dict[tuple[str, str], list[tuple[Hold, Hold]]] = {}
    sharing = Sharing(year.plantings)
    for holds in year.plan_of.values():
        for one, other in combinations(holds, 2):
            if one.planting != other.planting and max(one.first, other.first) <= min(one.last, other.last):
                clashes.setdefault((one.planting, other.planting), []).append((one, other))
    for (first, second), pairs in sorted(clashes.items()):
        earlier, later = year.holding.planting(first), year.holding.planting(second)
        if sharing.declared(first, second):
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
                f"{called(year, later)} and {called(year, earlier)} are both planned in {squares}"
                f" from {without_year(since)} to {without_year(until)}",
                remedy="move one, end the first sooner, or say `among:` where they share",
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
    """Find more plants planned than keep the spacing; where it is wide, than keep the closest in print."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        spacing = spacing_of(year.garden, planting)
        if row.plants is None or crop is None or spacing is None or not row.squares:
            continue
        fit = room_for(year.garden, row.squares, spacing)
        if row.plants <= fit:
            continue
        closest = _closest(year, planting, spacing)
        at_closest = sum(
            room_for(year.garden, squares, closest if wider_than_a_square(bed, spacing) else spacing)
            for bed, squares in _beds(year, row.squares)
        )
        if row.plants > at_closest:
            distance, closer = (year.garden.showing.length(one) for one in (spacing, closest))
            printed = f"; {at_closest} at {closer}, the closest in print" if at_closest > fit else ""
            yield (
                row,
                advice(
                    row.place,
                    "too-dense",
                    f"{row.plants} plants of {called(year, planting)} in {in_words(row.squares)}",
                    expected=f"{distance} apart, {fit} at most{printed}",
                    remedy="plant fewer, or say `spacing:` if you know it can stand closer",
                ),
            )


def _closest(year: Year, planting: Planting, spacing: Length) -> Length:
    """Return the closest spacing that a source prints for beds, no less than two thirds of the one used.

    Kansas State University has cabbage and eggplant twelve inches apart where the usual is eighteen. A
    spacing that the garden told stands alone.
    """
    crop = year.crop_of(planting)
    if crop is None or crop.own or spacing != Length.of(_used(crop, spacing), INCH):
        return spacing
    printed = [one.low for one in crop.all_of("intensive spacing") if one.low is not None and one.source]
    return max(spacing * NARROW, min(spacing, Length.of(min(printed), INCH))) if printed else spacing


def _used(crop: Crop, spacing: Length) -> Fraction:
    """Return the library's spacing of a crop in inches; that given where it has none."""
    figure = crop.used("spacing")
    return figure.low if figure and figure.low is not None else spacing.within(INCH)


def crowded(year: Year) -> Iterator[CheckResult]:
    """Find plantings that share a square without a share told, each of which would fill it alone.

    What grows at the ground is held against itself: below a tall crop there is room.
    """
    told: set[frozenset[str]] = set()
    for square, holds in sorted(year.plan_of.items()):
        for hold in holds:
            together = [one for one in holds if one.first <= hold.last and hold.first <= one.last]
            low = [one for one in together if _low_without_share(year, one.planting)]
            pair = frozenset(one.planting for one in low)
            if len(pair) < 2 or pair in told or hold not in low:
                continue
            full = sum((_filled(year, key, square) for key in pair), Fraction(0))
            if full <= FULL:
                continue
            told.add(pair)
            row = max((year.rows[key] for key in pair), key=lambda one: (bool(one.among), one.place))
            names = " and ".join(called(year, year.holding.planting(key)) for key in sorted(pair))
            yield (
                row,
                advice(
                    row.place,
                    "crowded",
                    f"{names} stand together in {square.bed}/{square.label} with as many plants each as if"
                    " they were alone",
                    expected=f"the square filled once, where these fill it {float(full):.1f} times",
                    remedy="plant fewer of each, or give their shares with `share:`",
                ),
            )


def _low_without_share(year: Year, key: str) -> bool:
    """Return whether a planting grows at the ground, tells its plants, and tells no share."""
    row, crop = year.rows.get(key), year.crop_of(year.holding.planting(key))
    if row is None or crop is None or row.dropped is not None or row.share is not None:
        return False
    return bool(row.plants and row.squares) and crop.habit in LOW


def _filled(year: Year, key: str, square: Square) -> Fraction:
    """Return what part of a planting's room its plants take, where it has its squares to itself."""
    planting, row = year.holding.planting(key), year.rows[key]
    spacing = spacing_of(year.garden, planting)
    if spacing is None or row.plants is None or square not in row.squares:
        return Fraction(0)
    fit = room_for(year.garden, row.squares, spacing)
    return Fraction(row.plants, fit) if fit else Fraction(0)


def too_narrow(year: Year) -> Iterator[CheckResult]:
    """Find plantings in a strip under two thirds as wide as their spacing.

    What is led out of the bed, or up a trellis, has room there.
    """
    for planting, row in year.planned:
        spacing = spacing_of(year.garden, planting)
        if spacing is None:
            continue
        for bed, squares in _beds(year, row.squares):
            width = narrower(bed, squares, spacing)
            if width is None or is_led_out(year, row, bed.name) or on_trellis(year, squares):
                continue
            showing = year.garden.showing
            yield (
                row,
                advice(
                    row.place,
                    "too-narrow",
                    f"{called(year, planting)} stands {showing.length(spacing)} apart,"
                    f" and {in_words(squares)} is {showing.length(width)} wide",
                    expected=f"at least {showing.length(spacing * NARROW)}, two thirds of the spacing",
                    remedy="give it squares side by side, or say `spacing:` if you know it can stand closer",
                ),
            )


def _beds(year: Year, squares: tuple[Square, ...]) -> Iterator[tuple[Bed, tuple[Square, ...]]]:
    """Yield each bed of some squares with those in it."""
    for bed, inside in by_bed(squares).items():
        yield year.garden.bed(bed), inside


def one_row(year: Year) -> Iterator[CheckResult]:
    """Find sweet corn in a single row: the wind that pollinates it carries the pollen past.

    Two rows at least, University of Illinois Extension, Watch Your Garden Grow: corn.
    """
    for planting, row in year.planned:
        crop, spacing = year.crop_of(planting), spacing_of(year.garden, planting)
        if crop is None or crop.slug not in BY_WIND or spacing is None:
            continue
        single = [
            square
            for bed, squares in _beds(year, row.squares)
            if not _is_block(squares) and spacing * 2 > bed.side  # no two rows in a square
            for square in squares
        ]
        if len(single) < WHOLE_ROW:
            continue
        beside = [
            other
            for other, other_row in year.planned
            if other.key != planting.key
            and other.crop.slug == planting.crop.slug
            and any(next_to(square, frozenset(single)) for square in other_row.squares)
        ]
        if not beside:
            yield (
                row,
                advice(
                    row.place,
                    "one-row",
                    f"{called(year, planting)} stands in a single row, {in_words(single)}",
                    expected="a block of two rows at least: wind carries its pollen",
                    remedy="plant it in a block, or pollinate by hand",
                ),
            )


def _is_block(squares: tuple[Square, ...]) -> bool:
    """Return whether squares of one bed lie in more than one row and more than one column."""
    return len({square.row for square in squares}) > 1 < len({square.column for square in squares})


def no_such_season(year: Year) -> Iterator[CheckResult]:
    """Find plantings carried from a season that the garden has no folder for, though it has earlier ones.

    What the season before has as carried from there too was planted before the first folder.
    """
    names = {one.name for one in year.earlier}
    before = year.beside(-1)
    known = (
        {(one.crop.slugs, one.planned.carried_from) for one in before.plantings if one.planned}
        if before
        else ()
    )
    for planting, row in year.planned:
        if row.start is not Start.CARRIED or not names or row.carried_from in names:
            continue
        if (planting.crop.slugs, row.carried_from) in known:
            continue
        yield (
            row,
            advice(
                row.place,
                "no-such-season",
                f"{called(year, planting)} is carried from {row.carried_from},"
                " and there is no such season here",
                expected=f"one of {', '.join(sorted(names))}",
                remedy="correct the year, or say when it was planted in a note and silence this",
            ),
        )


def not_there_before(year: Year) -> Iterator[CheckResult]:
    """Find plantings carried from a season at whose end their crop stood in none of their squares."""
    seasons = {one.name: one for one in year.earlier if one.season.plan or one.season.log}
    for planting, row in year.planned:
        before = seasons.get(row.carried_from)
        if before is None or row.start is not Start.CARRIED:
            continue
        stood = {
            square
            for other in before.plantings
            if other.crop.may_be(planting.crop)
            for square in stood_at_end(before, other)
        }
        if stood.isdisjoint(row.squares):
            yield (
                row,
                advice(
                    row.place,
                    "not-there-before",
                    f"{called(year, planting)} is carried from {before.name} in {in_words(row.squares)},"
                    " where plan and log do not have it as that season ends",
                    expected=f"squares of {in_words(stood)}" if stood else "",
                    remedy="correct the squares or the year, or what its plan and log say became of it",
                ),
            )
