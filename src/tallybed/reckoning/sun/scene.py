"""A bed under the sun: the light at each of its spots on a day.

What stands around the beds comes first: hours in its shadow are lost to nobody's crop.
Of the rest a crop loses what its neighbours' shadows take; where two stand before the
sun at once, both are named with those hours, and the loss counts them once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from math import cos, radians, sin

from tallybed.garden.garden import Garden
from tallybed.garden.squares import Bed
from tallybed.garden.surroundings import Thing
from tallybed.garden.units import INCH
from tallybed.reckoning.sun.arcs import Frame, Stretch, length
from tallybed.reckoning.sun.bodies import Body, Spot, Standing
from tallybed.reckoning.sun.position import HOURS, solar_day
from tallybed.reckoning.sun.shadows import Outline, Sky, Views, leaning


@dataclass(slots=True)
class Light:
    """The sun at one spot, as sums over some days."""

    days: float = 0
    open: float = 0.0
    """Hours from sunrise to sunset on a level horizon."""
    lost: float = 0.0
    """Hours lost to neighbouring plantings."""
    around: float = 0.0
    """Hours lost to what stands around the beds."""
    to: dict[str, float] = field(default_factory=dict)
    """Hours lost to each planting, by key; together they may be more than ``lost``."""
    to_things: dict[str, float] = field(default_factory=dict)
    """Hours lost to each thing around, by name; together they may be more than ``around``."""

    @property
    def sun(self) -> float:
        """Hours of direct sun."""
        return max(self.open - self.lost - self.around, 0.0)

    def add(self, other: Light, times: float = 1) -> None:
        """Add other days, so many times."""
        self.days += other.days * times
        self.open += other.open * times
        if other.lost:
            self.lost += other.lost * times
            to = self.to
            for name, hours in other.to.items():
                to[name] = to.get(name, 0.0) + hours * times
        if other.around:
            self.around += other.around * times
            to = self.to_things
            for name, hours in other.to_things.items():
                to[name] = to.get(name, 0.0) + hours * times


_Pair = tuple[int, str, tuple[Outline, ...] | None]
"""A body as a spot sees it: its place, planting and boxes (None: a leaning screen, seen anew each day)."""


@dataclass(slots=True)
class _Today:
    sky: Sky
    open: float
    tops: list[float]
    """Height of each body, in inches."""
    around: list[tuple[int, str, float]]
    """Things that shade on the day: place, name, height in inches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Where a bed lies before the sun, and what stands around it."""

    latitude: float
    longitude: float
    bearing: float
    """Degrees clockwise from north in which the bed's letters run."""
    side: float
    """Inches of a square's side."""
    columns: int
    rows: int
    things: tuple[Thing, ...]


def site_of(garden: Garden, bed: Bed) -> Site | None:
    """Return where a bed of a garden lies; None where the garden's latitude is not told."""
    if garden.latitude is None:
        return None
    return Site(
        latitude=float(garden.latitude),
        longitude=float(garden.longitude or 0),
        bearing=float(bed.bearing),
        side=float(bed.side.within(INCH)),
        columns=bed.columns,
        rows=bed.rows,
        things=tuple(one for one in garden.surroundings if one.bed in ("", bed.name)),
    )


class Scene:
    """A bed under the sun: what each spot sees of each body and thing is worked out once."""

    def __init__(self, site: Site, stands: Standing) -> None:
        self.stands = stands
        self._site = site
        self._side = site.side
        self._longitude = site.longitude
        self._views = Views(Frame.of(site.latitude, site.bearing))
        self._things = site.things
        self._pairs = [tuple(self._pairs_of(spot)) for spot in stands.spots]
        places = {(spot.x, spot.y) for spot in stands.spots} if self._things else set()
        self._faces: Mapping[tuple[float, float], tuple[Outline | None, ...]] = {
            place: tuple(self._face(thing, *place) for thing in self._things) for place in sorted(places)
        }
        self._wide = tuple(self._widened(thing) for thing in self._things)
        self._days: dict[date, _Today] = {}

    @property
    def told(self) -> str:
        """All that the light at its spots follows from, as text."""
        return repr((self._site, self.stands))

    def light(self, place: int, day: date) -> Light:
        """Return the light at a spot of ``stands``, by its place there, on a day it is of."""
        today = self._days.get(day)
        if today is None:
            today = self._days[day] = self._today(day)
        spot, sky = self.stands.spots[place], today.sky
        height = spot.rise.on(day) if spot.rise else 0.0
        far: list[Stretch] = []
        to_things: dict[str, float] = {}
        for thing, name, top in today.around:
            face = self._faces[spot.x, spot.y][thing]
            hidden = sky.shaded(face, top - height) if face and top > height else ()
            if hidden:
                far += hidden
                to_things[name] = to_things.get(name, 0.0) + length(hidden) * HOURS
        near: dict[str, Sequence[Stretch]] = {}
        tops = today.tops
        for body, planting, outlines in self._pairs[place]:
            above = tops[body] - height
            if above <= 0:
                continue
            if outlines is None:
                shaded = self._leaning(sky, body, spot, height, tops[body])
            else:
                shaded = sky.shaded(outlines[0], above)
                for outline in outlines[1:]:
                    shaded = [*shaded, *sky.shaded(outline, above)]
            if shaded:
                near[planting] = [*near[planting], *shaded] if planting in near else shaded
        around = length(far) * HOURS if far else 0.0
        if not near:
            return Light(1, today.open, 0.0, around, {}, to_things)
        if far:
            to = {planting: length([*far, *own]) * HOURS - around for planting, own in near.items()}
        else:
            to = {planting: length(own) * HOURS for planting, own in near.items()}
        lost = sum(to.values())
        if len(to) > 1:
            lost = length([*far, *(one for own in near.values() for one in own)]) * HOURS - around
        return Light(1, today.open, lost, around, to, to_things)

    def is_open(self, place: int) -> bool:
        """Return whether nothing that stands can ever shade a spot."""
        return not self._things and not self._pairs[place]

    def turns(self, place: int, first: int, last: int) -> list[int]:
        """Return the days, by ordinal, next before and after what shades a spot is there or gone at once.

        Between them its light changes by little from one day to the next. ``first`` and ``last``: its own.
        """
        rise, changes = self.stands.spots[place].rise, set()
        for number, _planting, _outlines in self._pairs[place]:
            body = self.stands.bodies[number]
            for day, after in ((body.first, 0), (body.last, 1)):
                # What is sown comes up from the ground, and shades nothing on its first day.
                if body.on(day) > (rise.on(day) if rise else 0.0):
                    changes.add(day.toordinal() + after)
        if any(thing.leafless for thing in self._things):
            days = map(date.fromordinal, range(first, last + 1))
            changes |= {day.toordinal() for day in days if day.day == 1}
        return sorted({day for change in changes for day in (change - 1, change) if first <= day <= last})

    def forget(self, day: date) -> None:
        """Let go of what is known of the sky of all days before one."""
        self._days = {own: today for own, today in self._days.items() if own >= day}

    def _today(self, day: date) -> _Today:
        sky = Sky(self._views, solar_day(day, self._longitude))
        around = [
            (place, thing.name, float(thing.height.within(INCH)))
            for place, thing in enumerate(self._things)
            if day.month not in thing.leafless and self._may_shade(sky, place, thing)
        ]
        tops = [body.on(day) for body in self.stands.bodies]
        return _Today(sky, length(sky.up) * HOURS, tops, around)

    def _pairs_of(self, spot: Spot) -> Iterator[_Pair]:
        for number, body in enumerate(self.stands.bodies):
            if body.planting == spot.planting or body.first > spot.last or body.last < spot.first:
                continue
            if body.lean != (0.0, 0.0):
                yield number, body.planting, None
                continue
            seen = (self._views.outline(box, spot.x, spot.y) for box in body.boxes)
            outlines = tuple(one for one in seen if one)
            if outlines and not _covers(body, spot):
                yield number, body.planting, outlines

    def _face(self, thing: Thing, x: float, y: float) -> Outline | None:
        """Return how a place sees a thing, whose middle is told from the middle of the bed."""
        turned = radians(float(thing.bearing) - self._site.bearing)
        toward = (cos(turned), sin(turned))
        away = float(thing.distance.within(INCH))
        middle = (
            self._site.columns * self._side / 2 + toward[0] * away - x,
            self._site.rows * self._side / 2 + toward[1] * away - y,
        )
        return self._views.face(middle, toward, float(thing.width.within(INCH)) / 2)

    def _widened(self, thing: Thing) -> Outline | None:
        """Return a face that hides, seen from the middle of the bed, all that the thing hides from any of it.

        None where the bed reaches as far as the thing.
        """
        turned = radians(float(thing.bearing) - self._site.bearing)
        toward = (cos(turned), sin(turned))
        long, broad = self._site.columns * self._side / 2, self._site.rows * self._side / 2
        deep = abs(toward[0]) * long + abs(toward[1]) * broad
        wide = abs(toward[1]) * long + abs(toward[0]) * broad
        away = float(thing.distance.within(INCH)) - deep
        middle = (toward[0] * away, toward[1] * away)
        half = float(thing.width.within(INCH)) / 2 + wide
        return self._views.face(middle, toward, half) if away > 0 else None

    def _may_shade(self, sky: Sky, place: int, thing: Thing) -> bool:
        """Return whether a thing takes sun from any of the bed on a day; if in doubt it may."""
        wide = self._wide[place]
        return wide is None or bool(sky.shaded(wide, float(thing.height.within(INCH))))

    def _leaning(self, sky: Sky, number: int, spot: Spot, height: float, top: float) -> Sequence[Stretch]:
        body = self.stands.bodies[number]
        found: list[Stretch] = []
        for box in body.boxes:
            found += sky.behind(leaning(box, body.lean, spot.x, spot.y, height, top))
        return found


def _covers(body: Body, spot: Spot) -> bool:
    return any(box[0] < spot.x < box[1] and box[2] < spot.y < box[3] for box in body.boxes)
