"""What stands on a bed and takes sun, and the points at which the sun is measured.

All places are in inches from the marked corner: x along the letters, y along the
numbers, z up from level ground.

Every planting is a body over its squares, from the ground to its height of the day: a
box over each rectangle of them. A planting that climbs (or runs) and has a square at a
trellis is a screen instead, along that side of its squares there, as high as it has
grown but not above the trellis, and leaning as the trellis leans.

The sun is measured over the middle of a square, at the height of the crop in it, and on
the ground where it is bare. A planting takes no sun from itself, and a box none from a
square that it covers: plantings that share a square stand among each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.crops import Habit
from tallybed.garden.days import ONE_DAY
from tallybed.garden.grouping import grouped
from tallybed.garden.squares import Bed, Square, Trellis, blocks
from tallybed.garden.units import INCH, Length
from tallybed.reckoning.beds import season_of, stays_of
from tallybed.reckoning.calendar.plant_size import sizes
from tallybed.reckoning.calendar.stages import growth
from tallybed.reckoning.squares.stays import Stay
from tallybed.reckoning.sun.growth import Rise
from tallybed.reckoning.year import Year

Box = tuple[float, float, float, float]
"""A rectangle of ground: lower and upper x, then lower and upper y; a screen's foot has no depth."""
_TIED = frozenset({Habit.CLIMBING, Habit.RUNNING})
"""Habits that are led up a trellis where they stand at one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One planting over some days, as it stands before the sun."""

    planting: str
    first: date
    last: date
    boxes: tuple[Box, ...]
    rise: Rise
    most: float | None = None
    """The height of its trellis, for a screen; None for a box."""
    lean: tuple[float, float] = (0.0, 0.0)
    """How far a screen moves along x and along y with each inch of height."""

    def on(self, day: date) -> float:
        """Return its height on a day, in inches; 0 where it does not stand."""
        if not self.first <= day <= self.last:
            return 0.0
        height = self.rise.on(day)
        return height if self.most is None else min(height, self.most)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A point over a square, over some days: where the sun is measured."""

    square: Square
    planting: str
    """Whose height it has; empty for bare ground."""
    first: date
    last: date
    x: float
    y: float
    rise: Rise | None = None
    """None for the ground."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A bed over a season as the sun finds it."""

    bodies: tuple[Body, ...]
    spots: tuple[Spot, ...]
    unknown: tuple[str, ...] = ()
    """Plantings, by key, of no known height: they shade nothing, and are measured on the ground."""


def standing(year: Year, bed: Bed) -> Standing:
    """Return what stands in a bed over a season, by log and plan together."""
    maker = _StandingMaker(year=year, bed=bed, side=float(bed.side.within(INCH)))
    stays = stays_of(year, bed)
    groups: dict[tuple[str, date, date, Rise | None], list[Square]] = {}
    spots: list[Spot] = []
    for stay in stays:
        rise = maker.rise(stay)
        groups.setdefault((stay.planting, stay.first, stay.last, rise), []).append(stay.square)
        spots.append(maker.spot(stay.square, stay.planting, stay.first, stay.last, rise))
    spots += maker.bare(stays)
    bodies = [
        body
        for (planting, first, last, rise), squares in groups.items()
        if rise
        for body in maker.bodies(planting, first, last, squares, rise)
    ]
    unknown = sorted({planting for planting, _first, _last, rise in groups if rise is None})
    return Standing(bodies=tuple(bodies), spots=tuple(spots), unknown=tuple(unknown))


def trellis_of(bed: Bed, squares: Iterable[Square]) -> Trellis | None:
    """Return the first trellis that some of the squares stand at."""
    own = set(squares)
    return next((one for one in bed.trellises if not own.isdisjoint(one.squares)), None)


def height_of(year: Year, planting: str, *, supported: bool) -> float | None:
    """Return the height in inches that a planting comes to in print; None where it is not known."""
    size = sizes(year.crop_of(year.holding.planting(planting)), supported=supported).height
    return float(size.length.within(INCH)) if size else None


def is_tied(year: Year, planting: str, bed: Bed, squares: Iterable[Square]) -> bool:
    """Return whether a planting is led up a trellis."""
    one = year.holding.planting(planting)
    crop = year.crop_of(one)
    led_out = one.planned.led_out if one.planned else None
    if crop is None or crop.habit not in _TIED or (led_out and led_out.leaves(bed)):
        return False
    return trellis_of(bed, squares) is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class _StandingMaker:
    """Makes the spots and bodies of a bed in a year; ``side`` is that of a square, in inches."""

    year: Year
    bed: Bed
    side: float

    def rise(self, stay: Stay) -> Rise | None:
        planting = self.year.holding.planting(stay.planting)
        squares = {one.square for one in self.year.holding.of_planting(stay.planting)}
        tied = is_tied(self.year, stay.planting, self.bed, squares)
        full = height_of(self.year, stay.planting, supported=tied)
        if full is None:
            return None
        crop, today = self.year.crop_of(planting), self.year.today
        bearing = season_of(self.year, self.bed).bearing
        grows = growth(planting, crop, stay.square, stay.first, stay.last, today, bearing)
        return Rise(full=full, growth=grows)

    def spot(self, square: Square, planting: str, first: date, last: date, rise: Rise | None) -> Spot:
        return Spot(
            square=square,
            planting=planting,
            first=first,
            last=last,
            x=(square.column + 0.5) * self.side,
            y=(square.row + 0.5) * self.side,
            rise=rise,
        )

    def bare(self, stays: Iterable[Stay]) -> Iterator[Spot]:
        """Yield the days on which each square stands bare."""
        held = grouped(stays, lambda stay: stay.square)
        span = self.year.season.span
        for square in self.bed.squares:
            free = span.first
            for stay in sorted(held.get(square, ()), key=lambda one: one.first):
                if stay.first > free:
                    yield self.spot(square, "", free, stay.first - ONE_DAY, None)
                free = max(free, stay.last + ONE_DAY)
            if free <= span.last:
                yield self.spot(square, "", free, span.last, None)

    def bodies(
        self, planting: str, first: date, last: date, squares: list[Square], rise: Rise
    ) -> Iterator[Body]:
        own = [one.square for one in self.year.holding.of_planting(planting)]
        if not is_tied(self.year, planting, self.bed, own):
            boxes = tuple(self._box(start, end) for start, end in blocks(squares))
            yield Body(planting=planting, first=first, last=last, boxes=boxes, rise=rise)
            return
        for trellis in self.bed.trellises:
            at = [square for square in squares if square in trellis.squares]
            if at:
                yield self._screen(planting, first, last, rise, trellis, at)

    def _box(self, start: Square, end: Square) -> Box:
        side = self.side
        return start.column * side, (end.column + 1) * side, start.row * side, (end.row + 1) * side

    def _screen(
        self, planting: str, first: date, last: date, rise: Rise, trellis: Trellis, at: list[Square]
    ) -> Body:
        one, other, start, _end = self.bed.sides
        level = trellis.side in (one, other)
        far = trellis.side != one if level else trellis.side != start
        edge = self.side * (self.bed.rows if level else self.bed.columns) if far else 0.0
        boxes = []
        for low, high in _runs(square.column if level else square.row for square in at):
            along = (low * self.side, (high + 1) * self.side)
            boxes.append((*along, edge, edge) if level else (edge, edge, *along))
        most = _inches(trellis.height)
        inwards = _inches(trellis.lean) / most * (-1 if far else 1)
        lean = (0.0, inwards) if level else (inwards, 0.0)
        return Body(
            planting=planting,
            first=first,
            last=last,
            boxes=tuple(boxes),
            rise=rise,
            most=most,
            lean=lean,
        )


def _inches(length: Length) -> float:
    return float(length.within(INCH))


def _runs(places: Iterable[int]) -> Iterator[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for place in sorted(set(places)):
        if found and place == found[-1][1] + 1:
            found[-1] = (found[-1][0], place)
        else:
            found.append((place, place))
    yield from found
