"""A bed's month: who held each square, what the map draws on the month's last day, and what changed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.garden.crops import Habit
from tallybed.garden.days import Month
from tallybed.garden.garden import Garden
from tallybed.garden.grouping import grouped
from tallybed.garden.records.plan import LedOut
from tallybed.garden.squares import Bed, Square, by_row
from tallybed.garden.units import INCH, Length
from tallybed.reckoning.calendar.bed_season import BedSeason
from tallybed.reckoning.calendar.changes import Change
from tallybed.reckoning.calendar.month_state import Marked, MonthState, days_within, month_state
from tallybed.reckoning.calendar.plant_size import UNKNOWN, Sizes, sizes, width
from tallybed.reckoning.calendar.stages import ORDER, Stage, after, age, stage
from tallybed.reckoning.calendar.unrecorded import unrecorded
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.plants import crop_of, crops_meant, in_common, spacing_of, spots
from tallybed.reckoning.room.spacing import Spot
from tallybed.reckoning.squares.occupancy import Grade, Holding
from tallybed.reckoning.squares.shares import shares
from tallybed.reckoning.squares.stays import Stay


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """One holder of one square within the month."""

    square: Square
    planting: str
    first: date
    last: date
    """First and last day within the month and the season, both included."""
    starts: date | None
    """The day it took the square, if within the month; None for what stands from before the season."""
    ends: date | None
    """The day it left the square, the square being free that day, if within the month."""
    grade: Grade
    """The best knowledge of it within these days."""
    end: Grade | None = None
    """How well it is known that it left on the day it did; None while it stands, as far as anybody knows."""
    stage: Stage
    """On its last day in the month; today in the month that holds today; once it has left, why."""
    share: Fraction
    plants: int | None
    """On the same day; None where nobody counted."""
    why: str = ""
    """The cause of its loss, if it was lost and the log gives one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPlanting:
    """One planting as the map draws it."""

    planting: str
    crop: str
    """The crop's slug; empty where a general name leaves it open."""
    name: str
    kind: str = ""
    """Of its crop: what the everyday name leaves out."""
    variety: str
    tag: str
    letters: str
    """Of its tag, else of its crop, for where its name has no room; no other crop of the season has them."""
    habit: Habit
    has_fruit: bool = False
    """Whether its fruit is what is picked."""
    stage: Stage
    squares: tuple[Square, ...]
    """In bed order: those it stands in on the day of the map; for one that does not stand, all it held in
    the month."""
    standing: bool
    """Whether it stands in the bed on the day of the map."""
    spots: tuple[Spot, ...] = ()
    """Where its plants stand; none for one that does not stand."""
    spread: float = 0.0
    """Width of one plant in inches; 0 where no spacing is known."""
    led_out: LedOut | None = None
    sizes: Sizes = UNKNOWN
    """How large the crop grows in print; its plants may be drawn smaller, or closer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedMonth:
    """One bed in one month of a season."""

    season: str
    bed: Bed
    month: Month
    first: date
    last: date
    """First and last day of the month that lie in the season."""
    as_of: date
    """The day the map shows: the last one, or today in the month that holds today."""
    kind: MonthState
    holders: tuple[Holder, ...]
    """By square (row, column), then first day."""
    ended: tuple[Holder, ...] = ()
    """What held squares in earlier months, is over by the plan alone, and has had nothing after it by
    ``as_of``: nobody wrote that it was cleared. Their days are those of the whole stay. By square."""
    drawn: tuple[DrawnPlanting, ...]
    """By planting."""
    changes: tuple[Change, ...]
    """By day."""
    waiting: tuple[Square, ...] = ()
    """Squares from which something that stands there is not to be picked on ``as_of``."""
    kept_off: tuple[Square, ...] = ()
    """Squares in which nobody works on ``as_of``."""


def bed_month(of: BedSeason, month: Month, marked: Marked = lambda _bed, _day: ((), ())) -> BedMonth:
    """Return one bed's month. Raises ValueError for a month outside the season."""
    holding, span = of.holding, of.holding.span
    first, last = days_within(span, month)
    if first > last:
        raise ValueError(f"{month} lies outside season {holding.season}")
    kind = month_state(span, month, holding.today)
    as_of = holding.today if kind is MonthState.RUNNING else last
    work = _Work(of, first, last, as_of)
    within = [(stay, work.holder(stay)) for stay in of.stays if stay.first <= last and stay.last >= first]
    waiting, kept_off = marked(of.bed.name, as_of)
    ended = [(stay, work.ended(stay)) for stay in unrecorded(holding, of.stays, first, as_of)]
    return BedMonth(
        season=holding.season,
        bed=of.bed,
        month=month,
        first=first,
        last=last,
        as_of=as_of,
        kind=kind,
        holders=tuple(holder for _stay, holder in within),
        ended=tuple(holder for _stay, holder in ended),
        drawn=work.drawn([*within, *ended]),
        changes=tuple(change for change in of.changes if first <= change.day <= last),
        waiting=waiting,
        kept_off=kept_off,
    )


def over_by_plan(month: BedMonth) -> Mapping[Square, Holder]:
    """Return what held the squares that are free on the day of the map by the plan alone."""
    held = {one.square for one in month.holders if one.first <= month.as_of <= one.last}
    past = [one for one in month.holders if one.first <= month.as_of and one.square not in held]
    last = {one.square: one for one in month.ended}
    last |= {one.square: one for one in sorted(past, key=lambda one: (one.last, one.planting))}
    return {square: one for square, one in last.items() if one.end is Grade.SUPPOSED}


_Part = tuple[Stay, Holder]
"""What a month has of a stay, and the stay."""


@dataclass(slots=True)
class _Work:
    """What one bed's month is put together from."""

    of: BedSeason
    first: date
    last: date
    as_of: date

    @property
    def garden(self) -> Garden:
        """The garden of the bed."""
        return self.of.garden

    @property
    def holding(self) -> Holding:
        """The holding it is told of."""
        return self.of.holding

    def holder(self, stay: Stay) -> Holder:
        """Return what the month has of a stay."""
        first, last = max(stay.first, self.first), min(stay.last, self.last)
        day = min(last, self.as_of) if first <= self.as_of else last
        gone = stay.left is not None and stay.left <= self.as_of
        count = self.of.plants(stay.planting, day)
        known = count.by_square.get(stay.square) if stay.square in count.told_in else None
        lost = gone and after(stay.end) is Stage.LOST
        return Holder(
            square=stay.square,
            planting=stay.planting,
            first=first,
            last=last,
            starts=self._within(stay.came),
            ends=self._within(stay.left),
            grade=stay.grade(first, last),
            end=stay.end_grade(self.holding.today, self.of.stays_of[stay.square]) if gone else None,
            stage=after(stay.end) if gone else self._stage(stay, day),
            share=min(shares(self.holding, stay.square, day).get(stay.planting, Fraction(1)), Fraction(1)),
            plants=known,
            why=stay.end.because if lost and stay.end else "",
        )

    def ended(self, stay: Stay) -> Holder:
        """Return a stay of earlier months that is over by the plan alone."""
        return Holder(
            square=stay.square,
            planting=stay.planting,
            first=stay.first,
            last=stay.last,
            starts=None,
            ends=stay.left,
            grade=stay.grade(stay.last, stay.last),
            end=Grade.SUPPOSED,
            stage=Stage.OVER,
            share=Fraction(1),
            plants=None,
        )

    def drawn(self, within: Iterable[_Part]) -> tuple[DrawnPlanting, ...]:
        """Return the month's plantings as the map draws them, by key; guests are placed after their hosts."""
        by_planting = grouped(within, lambda part: part[1].planting)
        found: list[DrawnPlanting] = []
        for key in sorted(by_planting, key=lambda key: (self._is_guest(key), key)):
            here = [part for part in by_planting[key] if self._stands(part[1])]
            if here:
                found.append(self._standing(key, here, found))
            else:
                found.append(self._away(key, [holder for _stay, holder in by_planting[key]]))
        return tuple(sorted(found, key=lambda drawn: drawn.planting))

    def _within(self, day: date | None) -> date | None:
        """Return a day if it lies in the month, else None."""
        return day if day is not None and self.first <= day <= self.last else None

    def _stage(self, stay: Stay, day: date) -> Stage:
        planting, today = self.holding.planting(stay.planting), self.holding.today
        crop = crop_of(self.garden, planting)
        return stage(planting, crop, stay.square, stay.first, day, today, self.of.bearing)

    def _stands(self, holder: Holder) -> bool:
        """Return whether a holder stands on the day of the map."""
        there = holder.first <= self.as_of <= holder.last
        return there and holder.stage not in (Stage.OVER, Stage.LOST)

    def _is_guest(self, key: str) -> bool:
        """Return whether a planting was put among another, and so takes the places between its plants."""
        planting = self.holding.planting(key)
        among = [event.among for event, _own in planting.lines]
        return any(among) or bool(planting.planned and planting.planned.among)

    def _standing(self, key: str, parts: list[_Part], before: Iterable[DrawnPlanting]) -> DrawnPlanting:
        """Draw a planting that stands on the day of the map; ``before``: those that are placed already."""
        planting = self.holding.planting(key)
        here = [holder for _stay, holder in parts]
        squares = {holder.square for holder in here}
        shared = (spot for drawn in before for spot in drawn.spots if spot.square in squares)
        count = self.of.plants(key, self.as_of)
        packing = spots(self.garden, self.holding, key, self.as_of, self.of.bed, shared, count)
        stages = Counter(holder.stage for holder in here)
        reached = max(stages, key=lambda each: (stages[each], ORDER.index(each)))
        places = tuple(spot for spot in packing.spots if spot.square in squares) if packing else ()
        led_out = planting.planned.led_out if planting.planned else None
        led_out = led_out if led_out and led_out.leaves(self.of.bed) else None
        spacing = packing.spacing if packing else None
        if led_out:
            spacing = spacing_of(self.garden, planting)
        return self._drawn(
            planting,
            stage=reached,
            squares=tuple(sorted(squares, key=by_row)),
            standing=True,
            spots=places,
            spread=self._spread(planting, reached, parts, spacing) if spacing else 0.0,
            led_out=led_out,
        )

    def _spread(self, planting: Planting, reached: Stage, parts: list[_Part], spacing: Length) -> float:
        """Return how wide plants are drawn, in inches: as the oldest squares at that stage have grown."""
        crop, today = crop_of(self.garden, planting), self.holding.today
        ages = [
            age(planting, crop, stay.square, stay.first, self.as_of, today, self.of.bearing)
            for stay, holder in parts
            if holder.stage is reached
        ]
        oldest = max((one for one in ages if one is not None), default=None)
        return round(float(spacing.within(INCH) * width(reached, oldest)), 4)

    def _away(self, key: str, holders: list[Holder]) -> DrawnPlanting:
        """Draw a planting that has left the bed by the day of the map, or is still to come."""
        past = [holder for holder in holders if holder.first <= self.as_of]
        last = [holder.stage for holder in past or holders]
        return self._drawn(
            self.holding.planting(key),
            stage=min(last, key=ORDER.index),
            squares=tuple(sorted({holder.square for holder in holders}, key=by_row)),
            standing=False,
        )

    def _drawn(
        self,
        planting: Planting,
        *,
        stage: Stage,
        squares: tuple[Square, ...],
        standing: bool,
        spots: tuple[Spot, ...] = (),
        spread: float = 0.0,
        led_out: LedOut | None = None,
    ) -> DrawnPlanting:
        """Return a planting as drawn, with its names and habit."""
        crop = crop_of(self.garden, planting)
        may_be = crops_meant(self.garden, planting)
        return DrawnPlanting(
            planting=planting.key,
            crop=crop.slug if crop else "",
            name=crop.name if crop else planting.crop.typed,
            kind=crop.kind if crop else "",
            variety=planting.variety,
            tag=planting.tag,
            letters=self.of.letters[planting.key],
            habit=in_common(each.habit for each in may_be if each.habit) or Habit.UPRIGHT,
            has_fruit=any(each.has_fruit for each in may_be),
            stage=stage,
            squares=squares,
            standing=standing,
            spots=spots,
            spread=spread,
            led_out=led_out,
            sizes=sizes(crop),
        )
