"""Two plantings of one bed that would leave each other, and the rest, more sun in each other's squares.

Only such are looked at as could change places with nothing else moved: they stand in this
bed alone, have squares of one shape and not the very same, share them with nobody, climb no
trellis and run out nowhere, and no other planting stands in the squares on their days. What
else speaks against an exchange (families, freezes, reach) is not asked here. Nothing is moved.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import combinations

from tallybed.garden.grouping import grouped
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import INCH
from tallybed.reckoning.sun.bodies import Body, Spot, Standing, is_tied, standing
from tallybed.reckoning.sun.hours import planted_sun
from tallybed.reckoning.sun.scene import Scene, Site, site_of
from tallybed.reckoning.year import Year

SAMPLE = 7
"""Every so many days are looked at to find the likely ones."""
LIKELY = 5
"""How many of these are reckoned over all days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exchange:
    """Two plantings in each other's squares."""

    one: str
    other: str
    """Keys of the plantings."""
    cost: float
    """Square-hours that the bed's plantings would then take from each other in the season."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exchanges:
    """What a season costs its own crops in a bed, and what exchanges would."""

    cost: float
    """Square-hours that the bed's plantings take from each other as the plan lies."""
    tried: int
    """How many pairs could change places."""
    best: tuple[Exchange, ...]
    """Those that cost less, the least first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Movable:
    planting: str
    squares: tuple[Square, ...]
    """By column, then row."""
    first: date
    last: date

    @property
    def shape(self) -> tuple[tuple[int, int], ...]:
        start = self.squares[0]
        return tuple((each.column - start.column, each.row - start.row) for each in self.squares)


def exchanges(year: Year, bed: Bed) -> Exchanges | None:
    """Return what exchanges of two plantings would save; None where the garden's latitude is not told."""
    site = site_of(year.garden, bed)
    if site is None:
        return None
    stands = standing(year, bed)
    # Bare ground loses nothing, and what stands in no square is not asked.
    planted = replace(stands, spots=tuple(spot for spot in stands.spots if spot.planting))
    losses = _Losses(year=year, bed=bed, site=site)
    pairs = [
        (one, other)
        for one, other in combinations(
            sorted(_movable(year, bed, planted), key=lambda each: each.planting), 2
        )
        if one.squares != other.squares
        and one.shape == other.shape
        and _fits(planted, one, other)
        and _fits(planted, other, one)
    ]
    likely = sorted(
        (losses.sampled(_exchanged(bed, planted, *pair)), place) for place, pair in enumerate(pairs)
    )[:LIKELY]
    before = losses.whole(planted)
    found = [
        Exchange(
            one=pairs[place][0].planting,
            other=pairs[place][1].planting,
            cost=losses.whole(_exchanged(bed, planted, *pairs[place])),
        )
        for _cost, place in likely
    ]
    better = sorted((one for one in found if one.cost < before - 0.5), key=lambda one: (one.cost, one.one))
    return Exchanges(cost=before, tried=len(pairs), best=tuple(better))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Losses:
    """Reckons what plantings of a bed take from each other, wherever they are made to stand."""

    year: Year
    bed: Bed
    site: Site

    def whole(self, stands: Standing) -> float:
        """Return the square-hours lost over all days."""
        return planted_sun(self.bed, self._scene(stands)).cost

    def sampled(self, stands: Standing) -> float:
        """Return the same over some days."""
        scene, span, total = self._scene(stands), self.year.season.span, 0.0
        for step in range(0, span.days, SAMPLE):
            day = span.first + timedelta(days=step)
            for place, spot in enumerate(stands.spots):
                if spot.first <= day <= spot.last:
                    total += scene.light(place, day).lost
            scene.forget(day)
        return total

    def _scene(self, stands: Standing) -> Scene:
        return Scene(self.site, stands)


def _movable(year: Year, bed: Bed, stands: Standing) -> Iterator[_Movable]:
    """Yield the plantings that could stand elsewhere: planned, in one stay, alone in their squares."""
    by_key = grouped(stands.spots, lambda spot: spot.planting)
    for key, spots in by_key.items():
        planned = year.holding.planting(key).planned
        days = {(spot.first, spot.last) for spot in spots}
        squares = tuple(sorted(spot.square for spot in spots))
        if planned is None or planned.dropped or planned.led_out or len(days) > 1:
            continue
        if is_tied(year, key, bed, squares) or len(set(squares)) < len(squares):
            continue
        if any(hold.square.bed != bed.name for hold in year.holding.of_planting(key)):
            continue
        first, last = days.pop()
        if not any(_meets(other, squares, first, last) for other in stands.spots if other.planting != key):
            yield _Movable(planting=key, squares=squares, first=first, last=last)


def _fits(stands: Standing, one: _Movable, other: _Movable) -> bool:
    """Return whether one could stand in the other's squares, the other away."""
    return not any(
        _meets(spot, other.squares, one.first, one.last)
        for spot in stands.spots
        if spot.planting not in (one.planting, other.planting)
    )


def _meets(spot: Spot, squares: Iterable[Square], first: date, last: date) -> bool:
    return spot.square in squares and spot.first <= last and spot.last >= first


def _exchanged(bed: Bed, stands: Standing, one: _Movable, other: _Movable) -> Standing:
    """Return the bed with two plantings in each other's squares."""
    columns = other.squares[0].column - one.squares[0].column
    rows = other.squares[0].row - one.squares[0].row
    steps = {one.planting: (columns, rows), other.planting: (-columns, -rows)}
    side = float(bed.side.within(INCH))
    return replace(
        stands,
        spots=tuple(_moved_spot(spot, *steps.get(spot.planting, (0, 0)), side) for spot in stands.spots),
        bodies=tuple(_moved_body(body, *steps.get(body.planting, (0, 0)), side) for body in stands.bodies),
    )


def _moved_spot(spot: Spot, columns: int, rows: int, side: float) -> Spot:
    if not (columns or rows):
        return spot
    square = Square(spot.square.bed, spot.square.column + columns, spot.square.row + rows)
    return replace(spot, square=square, x=spot.x + columns * side, y=spot.y + rows * side)


def _moved_body(body: Body, columns: int, rows: int, side: float) -> Body:
    if not (columns or rows):
        return body
    x, y = columns * side, rows * side
    boxes = tuple((box[0] + x, box[1] + x, box[2] + y, box[3] + y) for box in body.boxes)
    return replace(body, boxes=boxes)
